import { newId } from './domain/ids';
import { fail, ok, type Result } from './domain/result';
import type { World } from './domain/world';
import { enterVault, type InTurn, keepKeys, openKeys, readKeys } from './keysHere';
import { beginImport, type Import } from './log/absorb';
import { readExport, textOf } from './log/exportRead';
import { keyOf } from './log/keys';
import type { Log } from './log/log';
import type { Row } from './merge/row';
import type { BundleHeader, Signature } from './sync/bundle';
import { openWithCode, openWithPassphrase } from './sync/doors';
import { LIBRARY_KINDS } from './sync/handover';
import { type KeyList, mergeKeyLists, readKeyList } from './sync/keyList';
import type { Vault } from './sync/keys';
import { type OpenBundle, openBundle } from './sync/openBundle';
import { parsePhrase } from './sync/phrase';
import { parseRecoveryCode } from './sync/recovery';
import type { FileKind, Look, LookChoice, OpenedFile, OpenFault, Watching } from './ui/sealing';

/* Files in: sealed ones with their words, and plain exports. Looking changes nothing; what is taken in is one act. */

type Deps = { readonly log: Log; readonly world: World; readonly inTurn: InTurn };

/** Returns what a file is, by its first bytes. */
export async function kindOf(file: Blob): Promise<FileKind> {
  if (file.size === 0) return 'empty';
  const head = await file.slice(0, 64).text();
  if (head.startsWith('age-encryption.org/')) return 'sealed';
  return head.startsWith('{') ? 'plain' : 'other';
}

/** Returns an opened file, or why its words do not open it. A plain file needs none. */
export async function open(
  deps: Deps,
  file: Blob,
  words: string,
  watch: Watching = {},
): Promise<Result<OpenedFile, OpenFault>> {
  if ((await kindOf(file)) === 'plain') return ok(plainFile(deps, file));
  const phrase = await parsePhrase(words);
  if (!phrase.ok) return phrase;
  const bundle = await openBundle(file, phrase.value, watch);
  return bundle.ok ? ok(await sealedFile(deps, bundle.value)) : bundle;
}

/**
 * Returns the vault that a secret opens: a recovery code, told by its check characters, or else a passphrase. What looks like a code that was mistyped
 * is told as one, unless it is the passphrase.
 */
export async function openList(list: KeyList, secret: string, watch: Watching = {}) {
  const code = parseRecoveryCode(secret);
  if (code.ok) return openWithCode(list, secret);
  const opened = await openWithPassphrase(list, secret, watch);
  const isClose = !opened.ok && (opened.error.type === 'no-door' || opened.error.type === 'wrong-passphrase');
  return isClose && LIKE_A_CODE.test(secret.replaceAll(/[\s-]/g, '')) ? code : opened;
}

/** Letters and digits about as many as a code has, with a digit among them: few words without spaces look so. */
const LIKE_A_CODE = /^(?=.*\d)[0-9A-Za-z]{22,34}$/;

function plainFile(deps: Deps, file: Blob): OpenedFile {
  return {
    whose: 'plain',
    what: 'vault',
    at: undefined,
    from: '',
    clients: [],
    consent: undefined,
    join: async () => ok(undefined),
    async look(choice, watch = {}) {
      const taking = takeInto(deps, choice, false);
      const read = await readExport(textOf(file, watch.tick), taking.take, watch.signal);
      if (taking.unread()) return fail({ type: 'unread' });
      return read.ok ? ok(taking.look(read.value, undefined)) : read;
    },
  };
}

async function sealedFile(deps: Deps, bundle: OpenBundle): Promise<OpenedFile> {
  const { header } = bundle;
  const keys = await readKeys(deps.log);
  let vault = await ownVault(deps, header);
  const isKnown = keys.ok && keys.value?.list.vault === header.vault;
  // an own file whose key is not here: another device made new ones
  const hasKeys = header.keys !== undefined && (!isKnown || !vault);
  const whose = vault ? 'own' : hasKeys ? 'keys' : 'stranger';
  return {
    whose,
    what: header.what,
    at: header.at,
    from: header.sender || header.device.name,
    clients: header.streams,
    consent: header.consent,
    async join(secret, watch) {
      const list = readKeyList(header.keys);
      if (!list.ok) return fail({ type: 'no-door', door: 'recovery' });
      const opened = await openList(list.value, secret, watch);
      if (!opened.ok) return opened;
      const entered = await deps.inTurn(async () => {
        const now = await readKeys(deps.log);
        // what this device knows of the same vault stays known
        const own = now.ok && now.value ? mergeKeyLists(now.value.list, opened.value.list) : undefined;
        const merged: Vault = own?.ok ? { ...opened.value, list: own.value } : opened.value;
        return enterVault(deps.log, merged, deps.world);
      });
      if (!entered.ok) return entered;
      vault = entered.value.vault;
      return ok(undefined);
    },
    async look(choice, watch = {}) {
      const isOwn = vault !== undefined;
      // into an empty log everything is taken, its own settings too: there is nothing that a stranger could rule over
      const restoring = header.what === 'vault' && deps.log.ofKind('client').length === 0;
      const taking = takeInto(deps, choice, !isOwn && !restoring);
      const read = await bundle.read(taking.take, { ...watch, restoring, ...(vault ? { vault } : {}) });
      if (taking.unread()) return fail({ type: 'unread' });
      if (!read.ok) return read;
      if (isOwn && header.keys !== undefined) await learnKeys(deps, header.keys);
      const { rows, signature, refused, refusedRows } = read.value;
      const look = taking.look(rows, signature);
      return ok({
        ...look,
        refused: look.refused + refusedRows,
        told: [...refused.map(({ why }) => why), ...look.told],
      });
    },
  };
}

/** Returns this device's open vault where the file was made by it and the key that signed the file is open here. */
async function ownVault(deps: Deps, { vault: name, signer }: BundleHeader): Promise<Vault | undefined> {
  const kept = await readKeys(deps.log);
  if (!kept.ok || kept.value?.list.vault !== name) return undefined;
  const keys = await deps.inTurn(() => openKeys(deps.log, deps.world, []));
  if (!keys.ok) return undefined;
  const { vault } = keys.value;
  return signer.by !== 'vault' || vault.ring.keys.has(signer.key) ? vault : undefined;
}

/** Takes up what an own file's key list knows and this device's does not; a list only grows. */
function learnKeys({ log, world, inTurn }: Deps, raw: unknown): Promise<void> {
  return inTurn(async () => {
    const list = readKeyList(raw);
    const keys = await openKeys(log, world, []);
    if (!list.ok || !keys.ok) return;
    const { kept } = keys.value;
    const merged = mergeKeyLists(kept.list, list.value);
    // a door that was shut elsewhere is shut here then: the Keys page asks for the code
    if (merged.ok && JSON.stringify(merged.value) !== JSON.stringify(kept.list))
      await keepKeys(log, { ...kept, list: merged.value });
  });
}

type Taking = {
  readonly take: (rows: readonly unknown[]) => Promise<void>;
  /** True once the log could not be read. */
  readonly unread: () => boolean;
  readonly look: (rows: number, signature: Signature | undefined) => Look;
};

/** Prepares an import. Of a stranger's library, entries that are here stay as they are, unless `choice` says otherwise. */
function takeInto({ log, world }: Deps, choice: LookChoice, isStranger: boolean): Taking {
  const asNew = new Map(choice.asNew.map((stream) => [stream, newId(world.random, 16)]));
  const prepared: Import = beginImport(log, asNew);
  let libraryKept = 0;
  let failed = false;
  const isKept = (raw: unknown): boolean => {
    const row = raw as Partial<Row>;
    if (!isStranger || choice.theirLibrary || row.stream !== 'main' || !LIBRARY_KINDS.has(row.kind ?? '')) return false;
    return log.get(keyOf({ stream: 'main', id: row.id ?? '' })) !== undefined;
  };
  return {
    unread: () => failed,
    async take(rows) {
      const wanted = rows.filter((row) => !isKept(row));
      libraryKept += rows.length - wanted.length;
      failed = failed || !(await prepared.take(wanted));
    },
    look(rows, signature) {
      const report = prepared.report();
      const told = report.told.map(({ why }) => why);
      return { report, rows, signature, refused: report.refused, told, libraryKept, commit: prepared.commit };
    },
  };
}
