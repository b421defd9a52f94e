import { newId } from './domain/ids';
import { fail, ok, type Result } from './domain/result';
import type { World } from './domain/world';
import { enterVault, type InTurn, keepKeys, openKeys, readKeys } from './keysHere';
import { beginImport, type Import } from './log/absorb';
import { readExport, textOf } from './log/exportRead';
import { keyOf } from './log/keys';
import type { Log } from './log/log';
import type { SaveFault } from './log/queue';
import type { Row } from './merge/row';
import type { BundleHeader, Signature } from './sync/bundle';
import { openWithCode, openWithPassphrase } from './sync/doors';
import { isRuling } from './sync/handover';
import { type KeyList, mergeKeyLists, readKeyList } from './sync/keyList';
import { currentVaultKey, type KeyFault, type Vault } from './sync/keys';
import { type OpenBundle, openBundle } from './sync/openBundle';
import { parsePhrase } from './sync/phrase';
import { parseRecoveryCode } from './sync/recovery';
import type { FileKind, KeptFault, Look, LookChoice, OpenedFile, OpenFault, Watching } from './ui/sealing';

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
      const taking = takeInto(deps, choice, !isEmpty(deps.log));
      const read = await readExport(textOf(file, watch.tick), taking.take, watch.signal);
      if (taking.unread()) return fail({ type: 'unread' });
      return read.ok ? ok(taking.look(undefined)) : read;
    },
  };
}

async function sealedFile(deps: Deps, bundle: OpenBundle): Promise<OpenedFile> {
  const { header } = bundle;
  const found = await ownVault(deps, header);
  const mine = found === 'older' ? undefined : found;
  // keys that nobody vouches for are no keys; those of this device's own past are known
  const isSigned = header.signer.by === 'vault' && found !== 'older';
  const isKnown = await isOfThisVault(deps, header);
  /** The keys that came with the file, once its code opened them; they are kept when the file is taken in, and not before. */
  let joined: Vault | undefined;
  return {
    // an own file whose key is not here: another device made new ones
    whose: mine
      ? 'own'
      : isSigned && header.keys !== undefined
        ? 'keys'
        : isSigned && isKnown
          ? 'newer-keys'
          : 'stranger',
    what: header.what,
    at: header.at,
    from: header.sender || header.device.name,
    clients: header.streams,
    consent: header.consent,
    async join(secret, watch) {
      const list = readKeyList(header.keys);
      if (!isSigned || !list.ok) return fail({ type: 'no-door', door: 'recovery' });
      const opened = await openList(list.value, secret, watch);
      if (!opened.ok) return opened;
      joined = opened.value;
      return ok(undefined);
    },
    async look(choice, watch = {}) {
      const vault = joined ?? mine;
      // into an empty log everything is taken: there is nothing that a stranger could rule over
      const restoring = header.what === 'vault' && isEmpty(deps.log);
      const taking = takeInto(deps, choice, !vault && !restoring);
      const read = await bundle.read(taking.take, { ...watch, restoring, ...(vault ? { vault } : {}) });
      if (taking.unread()) return fail({ type: 'unread' });
      if (!read.ok) return read;
      const { signature, refused, refusedRows } = read.value;
      const look = taking.look(signature);
      // nobody else's word counts for keys
      const isOwn = vault !== undefined && signature.by === 'own-vault';
      return ok({
        ...look,
        refused: look.refused + refusedRows,
        told: [...refused.map(({ why }) => why), ...look.told],
        bringsKeys: isOwn && joined !== undefined,
        async commit(tell) {
          const saved = await look.commit(tell);
          if (!saved.ok || !isOwn) return saved;
          const kept = await (joined ? enterWith(deps, joined) : learnKeys(deps, header.keys));
          return kept.ok || kept.error.type === 'locked' ? saved : { ok: false, error: saveFaultIn(kept.error) };
        },
      });
    },
  };
}

/** A profile in which nothing was done yet but for settings. */
const isEmpty = (log: Log): boolean => log.all().every(({ kind }) => kind === 'settings');

async function isOfThisVault(deps: Deps, { vault }: BundleHeader): Promise<boolean> {
  const kept = await readKeys(deps.log);
  return kept.ok && kept.value?.list.vault === vault;
}

/**
 * Returns this device's open vault where a file is signed by its newest key. What an older one signed may come from a phone that was lost: such a file
 * brings records, and rules over nothing.
 */
async function ownVault(deps: Deps, header: BundleHeader): Promise<Vault | 'older' | undefined> {
  const { signer } = header;
  if (signer.by !== 'vault' || !(await isOfThisVault(deps, header))) return undefined;
  const keys = await deps.inTurn(() => openKeys(deps.log, deps.world, []));
  if (!keys.ok) return undefined;
  const { vault } = keys.value;
  const current = currentVaultKey(vault);
  if (current.ok && current.value === signer.key) return vault;
  return vault.ring.keys.has(signer.key) ? 'older' : undefined;
}

/** Makes this device one of the vault that was opened; what it knows of the same vault stays known. */
function enterWith({ log, world, inTurn }: Deps, vault: Vault): Promise<Result<unknown, KeptFault | KeyFault>> {
  return inTurn(async () => {
    const now = await readKeys(log);
    const both = now.ok && now.value ? mergeKeyLists(now.value.list, vault.list) : undefined;
    return enterVault(log, both?.ok ? { ...vault, list: both.value } : vault, world);
  });
}

/** Takes up what an own file's key list knows and this device's does not; a list only grows. */
function learnKeys({ log, world, inTurn }: Deps, raw: unknown): Promise<Result<unknown, KeptFault | KeyFault>> {
  return inTurn(async () => {
    const list = raw === undefined ? undefined : readKeyList(raw);
    const keys = await openKeys(log, world, []);
    if (!keys.ok || !list?.ok) return keys;
    const { kept } = keys.value;
    const merged = mergeKeyLists(kept.list, list.value);
    // a door that was shut elsewhere is shut here then: the Keys page asks for the code
    if (!merged.ok || JSON.stringify(merged.value) === JSON.stringify(kept.list)) return ok(undefined);
    return keepKeys(log, { ...kept, list: merged.value });
  });
}

const saveFaultIn = (fault: KeptFault | KeyFault): SaveFault =>
  fault.type === 'unread' || fault.type === 'damaged-keys' || fault.type === 'no-key' || fault.type === 'locked'
    ? { type: 'write-failed', name: fault.type }
    : fault.type === 'erased'
      ? { type: 'erased' }
      : fault;

type Taking = {
  readonly take: (rows: readonly unknown[]) => Promise<void>;
  /** True once the log could not be read. */
  readonly unread: () => boolean;
  readonly look: (signature: Signature | undefined) => Look;
};

/**
 * Prepares an import. A stranger's rows rule over nothing here, and of their library entries that are here stay as they are, unless `choice` says
 * otherwise.
 */
function takeInto({ log, world }: Deps, choice: LookChoice, isStranger: boolean): Taking {
  const asNew = new Map(choice.asNew.map((stream) => [stream, newId(world.random, 16)]));
  const prepared: Import = beginImport(log, asNew);
  let libraryKept = 0;
  let ruling = 0;
  let failed = false;
  const nameOf = (raw: unknown) => {
    const { stream = '', kind = '', id = '' } = raw as Partial<Row>;
    return { stream, kind, id };
  };
  const rules = (raw: unknown): boolean => isStranger && isRuling(nameOf(raw));
  const isKept = (raw: unknown): boolean => {
    const { stream, id } = nameOf(raw);
    return isStranger && !choice.theirLibrary && stream === 'main' && log.get(keyOf({ stream, id })) !== undefined;
  };
  return {
    unread: () => failed,
    async take(rows) {
      const allowed = rows.filter((row) => !rules(row));
      const wanted = allowed.filter((row) => !isKept(row));
      ruling += rows.length - allowed.length;
      libraryKept += allowed.length - wanted.length;
      failed = failed || !(await prepared.take(wanted));
    },
    look(signature) {
      const report = prepared.report();
      const told = report.told.map(({ why }) => why);
      const own = Array.from({ length: Math.min(ruling, 100) }, () => ({ type: 'not-of-a-stranger' }) as const);
      return {
        report,
        signature,
        refused: report.refused + ruling,
        told: [...own, ...told],
        libraryKept,
        bringsKeys: false,
        commit: prepared.commit,
      };
    },
  };
}
