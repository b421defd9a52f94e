import * as z from 'zod/mini';
import { fail, ok, type Result } from '../domain/result';
import { admitRow } from '../merge/door';
import type { Row } from '../merge/row';
import type { RunningMac } from './aead';
import { type Opened, openAge, type Source, sourceOf } from './age';
import {
  BUNDLE_FORMAT,
  type BundleFault,
  type BundleHeader,
  CAPS,
  type Caps,
  endSchema,
  headerSchema,
  type RefusedRow,
  type Signature,
  signing,
} from './bundle';
import { type Line, linesOf, withBreak } from './bundleLines';
import { fromBase64, fromUtf8, sameBytes } from './bytes';
import type { Watch } from './derive';
import { isRuling } from './handover';
import type { Vault } from './keys';
import { isSigned } from './signing';
import { faultOf, stopWith } from './stop';

export type Reading = Watch & {
  /** One's own vault, where it is open: it checks bundles of one's own devices. */
  readonly vault?: Vault;
  /** Everything is taken, whoever signed: for restoring into an empty log. Else a stranger brings records and library alone. */
  readonly restoring?: boolean;
};

/** What a reading came to. Nothing of a bundle may be kept before this is there: the signature stands at the end. */
export type BundleRead = {
  readonly rows: number;
  readonly signature: Signature;
  /** The first hundred, and how many in all. */
  readonly refused: readonly RefusedRow[];
  readonly refusedRows: number;
};

/** A bundle that its phrase opened. `read` may be called again: once for the report, once to keep. */
export type OpenBundle = {
  readonly header: BundleHeader;
  readonly read: (
    take: (rows: readonly Row[]) => void | Promise<void>,
    reading?: Reading,
  ) => Promise<Result<BundleRead, BundleFault>>;
};

const BATCH_ROWS = 500;
const BATCH_BYTES = 2 * 1024 * 1024;
const MOST_TOLD = 100;

/**
 * Returns a bundle with its header read, or why it does not open. `watch.tick` hears of the phrase's key. It opens nothing larger, and
 * computes nothing harder, than the limits say.
 */
export async function openBundle(
  file: Blob | Uint8Array,
  phrase: string,
  watch: Watch = {},
  caps: Caps = CAPS,
): Promise<Result<OpenBundle, BundleFault>> {
  const source = sourceOf(file);
  if (source.size > caps.file) return fail({ type: 'too-large', what: 'file', most: caps.file });
  const opened = await openAge(source, phrase, watch);
  if (!opened.ok) return opened;
  const bundle = { source, opened: opened.value, caps };
  const header = await orFault(() => headerIn(bundle, watch.signal));
  return header.ok
    ? ok({
        header: header.value,
        read: (take, reading = {}) => orFault(() => readThrough(bundle, header.value, take, reading)),
      })
    : header;
}

const stop = (fault: BundleFault): never => stopWith(fault);

type Inside = { readonly source: Source; readonly opened: Opened; readonly caps: Caps };

/** Runs a stream to its end; a fault that stopped it is the result. */
async function orFault<T>(run: () => Promise<T>): Promise<Result<T, BundleFault>> {
  try {
    return ok(await run());
  } catch (error) {
    const fault = faultOf(error);
    // nothing else stops these streams
    if (fault) return fail(fault as BundleFault);
    throw error;
  }
}

function linesIn({ source, opened, caps }: Inside, { signal, tick }: Watch): AsyncGenerator<Line> {
  let read = 0;
  const pieces = opened(signal, (bytes) => {
    read = bytes;
    tick?.(bytes / source.size);
  });
  // a piece is counted once it is taken, so the first unpacks against one whole piece
  return linesOf(pieces, caps, () => Math.max(read, 65_536));
}

async function headerIn(inside: Inside, signal: AbortSignal | undefined): Promise<BundleHeader> {
  for await (const line of linesIn(inside, signal ? { signal } : {})) return headerOf(line);
  return stop({ type: 'not-a-bundle' });
}

function headerOf({ bytes }: Line): BundleHeader {
  const json = jsonOf(bytes);
  const format = z.safeParse(z.looseObject({ format: z.string() }), json);
  if (!format.success) return stop({ type: 'not-a-bundle' });
  const named = format.data.format;
  if (named !== BUNDLE_FORMAT && /^cuewright-bundle\/[1-9]\d{0,5}$/.test(named))
    return stop({ type: 'newer-format', format: named });
  const header = z.safeParse(headerSchema, json);
  return header.success ? header.data : stop({ type: 'not-a-bundle' });
}

async function readThrough(
  inside: Inside,
  header: BundleHeader,
  take: (rows: readonly Row[]) => void | Promise<void>,
  reading: Reading,
): Promise<BundleRead> {
  const own = header.vault === reading.vault?.list.vault ? reading.vault : undefined;
  const sum = signing(header.signer, own);
  const judge = judgeOf(header, reading.restoring === true || (header.signer.by === 'vault' && sum !== undefined));
  const refused: RefusedRow[] = [];
  let [rows, refusedRows, bytes] = [0, 0, 0];
  let batch: Row[] = [];
  let end: z.infer<typeof endSchema>['end'] | undefined;
  for await (const line of linesIn(inside, reading)) {
    if (end) stop({ type: 'bad-line', line: line.n });
    const json = line.n === 1 ? undefined : jsonOf(line.bytes);
    if (line.n > 1 && (typeof json !== 'object' || json === null)) stop({ type: 'bad-line', line: line.n });
    end = line.n === 1 ? undefined : endOf(json);
    if (!end) sum?.add(withBreak(line.bytes));
    if (end || line.n === 1) continue;
    rows += 1;
    if (rows > inside.caps.rows) stop({ type: 'too-large', what: 'rows', most: inside.caps.rows });
    const row = judge(json);
    if (row.ok) batch.push(row.value);
    else if (refused.length < MOST_TOLD) refused.push({ line: line.n, why: row.error });
    if (!row.ok) refusedRows += 1;
    bytes += line.bytes.length;
    if (batch.length < BATCH_ROWS && bytes < BATCH_BYTES) continue;
    await take(batch);
    // a small file is one sealed piece that holds many batches
    if (reading.signal?.aborted) stop({ type: 'cancelled' });
    [batch, bytes] = [[], 0];
  }
  if (!end) return stop({ type: 'truncated' });
  if (end.rows !== rows) return stop({ type: 'wrong-count', says: end.rows, has: rows });
  const signature = await signatureOf(header, sum, end);
  if (batch.length > 0) await take(batch);
  return { rows, signature, refused, refusedRows };
}

/** Judges one row: its shape, whether its stream was announced, and whether its sender may say it. */
function judgeOf(header: BundleHeader, isOwn: boolean): (json: unknown) => Result<Row, RefusedRow['why']> {
  const streams = new Set(['main', ...header.streams.map(({ stream }) => stream)]);
  return (json) => {
    const row = admitRow(json);
    if (!row.ok) return row;
    if (!streams.has(row.value.stream)) return fail({ type: 'undeclared-stream' });
    if (!isOwn && isRuling(row.value)) return fail({ type: 'not-of-a-stranger' });
    return row;
  };
}

async function signatureOf(
  header: BundleHeader,
  sum: RunningMac | undefined,
  end: z.infer<typeof endSchema>['end'],
): Promise<Signature> {
  const { signer } = header;
  if (signer.by === 'nobody') return { by: 'nobody' };
  if (signer.by === 'vault') {
    if (!sum) return { by: 'another-vault', vault: header.vault };
    const mac = fromBase64(end.mac ?? '');
    return mac && sameBytes(mac, sum.end()) ? { by: 'own-vault' } : stop({ type: 'bad-signature', by: 'vault' });
  }
  const right = await isSigned(signer.key, end.signature ?? '', sum?.end() ?? new Uint8Array());
  if (right === false) return stop({ type: 'bad-signature', by: 'device' });
  return { by: 'device', key: signer.key, checked: right === true };
}

function endOf(json: unknown): z.infer<typeof endSchema>['end'] | undefined {
  const read = z.safeParse(endSchema, json);
  return read.success ? read.data.end : undefined;
}

function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(fromUtf8(bytes) ?? '');
  } catch {
    return undefined;
  }
}
