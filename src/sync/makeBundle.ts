import { newId } from '../domain/ids';
import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';
import { canonical, canonicalRow } from '../merge/canonical';
import type { Json, Row } from '../merge/row';
import { ageSealed } from './age';
import { BUNDLE_FORMAT, type BundleHeader, type BundleStream, signing } from './bundle';
import { type Bytes, base64, utf8 } from './bytes';
import type { Watch } from './derive';
import { gzipStream } from './gzip';
import { currentVaultKey, type Vault } from './keys';
import { newPhrase } from './phrase';
import { type SigningKey, signed } from './signing';
import { faultOf, stopWith } from './stop';

/** Who vouches for a bundle. Own devices check by the vault's key; another trainer's can check a device's signature alone. */
export type Signer =
  | { readonly by: 'vault'; readonly vault: Vault }
  | { readonly by: 'device'; readonly vault: string; readonly key: SigningKey }
  | { readonly by: 'nobody'; readonly vault: string };

export type BundleOrder = {
  /** Where it is missing, seven words are drawn. */
  readonly phrase?: string;
  readonly signer: Signer;
  readonly app: string;
  readonly device: { readonly id: string; readonly name: string };
  readonly sender: string;
  readonly what: BundleHeader['what'];
  readonly streams: readonly BundleStream[];
  readonly consent?: string;
  /** log2 of scrypt's N, for tests; never above what is read. */
  readonly work?: number;
};

export type Bundle = {
  readonly file: Blob;
  readonly phrase: string;
  readonly header: BundleHeader;
  readonly rows: number;
};
export type MakeFault = { readonly type: 'cancelled' } | { readonly type: 'locked'; readonly vault: string };

const TEXT_AT_ONCE = 65_536;

/**
 * Returns a sealed bundle of rows, and its phrase; packed as the rows come, so they need not all be in memory. `watch.tick` hears of the
 * phrase's key alone: how many rows come is known to the caller. Throws for a row of a stream that the order does not name.
 */
export async function makeBundle(
  rows: Iterable<Row> | AsyncIterable<Row>,
  order: BundleOrder,
  { now, random }: Pick<World, 'now' | 'random'>,
  watch: Watch = {},
): Promise<Result<Bundle, MakeFault>> {
  const header = headerOf(order, now(), newId(random, 16));
  if (!header.ok) return header;
  const phrase = order.phrase ?? (await newPhrase(random));
  const lines = new Lines(header.value, order);
  const parts: Bytes[] = [];
  try {
    const text = watched(lines.of(rows), watch.signal);
    for await (const part of ageSealed(gzipStream(text), phrase, random, order.work, watch)) parts.push(part);
  } catch (error) {
    if (faultOf(error)?.type === 'cancelled') return fail({ type: 'cancelled' });
    throw error;
  }
  return ok({ file: new Blob(parts), phrase, header: header.value, rows: lines.rows });
}

function headerOf(order: BundleOrder, at: number, id: string): Result<BundleHeader, MakeFault> {
  const { signer, app, device, sender, what, streams, consent } = order;
  const vault = signer.by === 'vault' ? signer.vault.list.vault : signer.vault;
  const own = { format: BUNDLE_FORMAT, app, at, id, vault, device, sender, what, streams: [...streams] } as const;
  const named = consent === undefined ? own : { ...own, consent };
  if (signer.by === 'nobody') return ok({ ...named, signer: { by: 'nobody' } });
  if (signer.by === 'device') return ok({ ...named, signer: { by: 'device', key: signer.key.publicKey } });
  const key = currentVaultKey(signer.vault);
  if (!key.ok) return fail({ type: 'locked', vault });
  const signed = { ...named, signer: { by: 'vault' as const, key: key.value } };
  return ok(what === 'vault' ? { ...signed, keys: signer.vault.list } : signed);
}

/** The lines of one bundle, in pieces of text; it counts the rows and keeps the sum that is signed at the end. */
class Lines {
  rows = 0;
  readonly #sum: ReturnType<typeof signing>;
  readonly #streams: ReadonlySet<string>;
  #waiting = '';

  constructor(
    private readonly header: BundleHeader,
    private readonly order: BundleOrder,
  ) {
    this.#sum = signing(header.signer, order.signer.by === 'vault' ? order.signer.vault : undefined);
    this.#streams = new Set(['main', ...order.streams.map(({ stream }) => stream)]);
  }

  async *of(rows: Iterable<Row> | AsyncIterable<Row>): AsyncGenerator<Bytes> {
    this.#waiting = `${canonical(this.header as unknown as Json)}\n`;
    for await (const row of rows) {
      if (!this.#streams.has(row.stream)) throw new Error(`a row of ${row.stream} is in no stream of the bundle`);
      this.#waiting += `${canonicalRow(row)}\n`;
      this.rows += 1;
      if (this.#waiting.length >= TEXT_AT_ONCE) yield this.#piece();
    }
    yield this.#piece();
    yield utf8(`${canonical({ end: await this.#end() })}\n`);
  }

  #piece(): Bytes {
    const piece = utf8(this.#waiting);
    this.#waiting = '';
    this.#sum?.add(piece);
    return piece;
  }

  async #end(): Promise<{ [field: string]: Json }> {
    const { signer } = this.order;
    const sum = this.#sum?.end();
    if (!sum) return { rows: this.rows };
    return signer.by === 'device'
      ? { rows: this.rows, signature: await signed(signer.key, sum) }
      : { rows: this.rows, mac: base64(sum) };
  }
}

async function* watched(pieces: AsyncIterable<Bytes>, signal: AbortSignal | undefined): AsyncGenerator<Bytes> {
  for await (const piece of pieces) {
    if (signal?.aborted) stopWith({ type: 'cancelled' });
    yield piece;
  }
}
