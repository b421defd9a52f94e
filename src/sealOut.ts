import { PRIVATE_TOPICS } from './domain/private';
import { fail, ok, type Result } from './domain/result';
import type { World } from './domain/world';
import { type InTurn, keepKeys, type OpenKeys, openKeys } from './keysHere';
import { deviceNames, thisDevice } from './log/deviceNames';
import { keyOf, type RowKey } from './log/keys';
import type { Log } from './log/log';
import { batchesOf, streamsOf } from './log/scan';
import { client } from './log/views';
import type { Row } from './merge/row';
import type { BundleStream } from './sync/bundle';
import { fromBase64 } from './sync/bytes';
import { handoverOf } from './sync/handover';
import { type BundleOrder, makeBundle, type Signer } from './sync/makeBundle';
import { newPhrase } from './sync/phrase';
import { markOf, signingKeyOf } from './sync/signing';
import type { Sealed, SealedBefore, SealFault, SealOrder, Watching } from './ui/sealing';

/* Sealed files out: everything, some clients, or one client for another trainer. */

type Deps = { readonly log: Log; readonly world: World; readonly app: string; readonly inTurn: InTurn };

/** What goes into a file: its rows as they are asked for, and what its header says of them. */
type Contents = {
  readonly rows: AsyncIterable<Row>;
  readonly order: Pick<BundleOrder, 'streams' | 'what' | 'sender' | 'consent' | 'signer' | 'phrase'>;
  readonly leftOut: number;
};

/** Returns a sealed file of what was ordered, or why there is none; nothing here changes but that this device may get its first keys. */
export async function seal(deps: Deps, order: SealOrder, watch: Watching = {}): Promise<Result<Sealed, SealFault>> {
  const { log, world, app } = deps;
  const all = await streamsOf(log);
  if (!all) return fail({ type: 'unread' });
  const streams = order.what === 'vault' ? all : order.what === 'clients' ? order.streams : [order.stream];
  const keys = await openKeys(log, world, streams);
  if (!keys.ok) return keys;
  const seen = new Map<RowKey, Pick<Row, 'seen'>>();
  try {
    const contents = await contentsOf(deps, order, streams, keys.value, seen);
    const device = thisDevice(log);
    const made = await makeBundle(
      contents.rows,
      { ...contents.order, app, device: { id: device || 'device', name: deviceNames(log).get(device) ?? '' } },
      world,
      watch,
    );
    if (!made.ok) return made;
    const { file, phrase, rows, header } = made.value;
    const words = order.what === 'vault' ? await keepWords(log, keys.value, phrase) : ok(undefined);
    if (!words.ok) return words;
    return ok({
      file,
      words: phrase,
      mark: header.signer.by === 'device' ? markOf(header.signer.key) : undefined,
      rows,
      leftOut: contents.leftOut,
      unreadable: order.what === 'vault' ? log.status().unreadable : 0,
      handedOver: async () => {
        await noteSealed(deps, { at: header.at, what: order.what, streams: order.what === 'vault' ? [] : streams });
        if (order.what === 'vault') await log.backedUp(header.at, seen);
      },
    });
  } catch (error) {
    if (error === UNREAD) return fail({ type: 'unread' });
    throw error;
  }
}

const UNREAD = Symbol('the store could not be read');

async function contentsOf(
  { log, world }: Deps,
  order: SealOrder,
  streams: readonly string[],
  { kept, vault }: OpenKeys,
  seen: Map<RowKey, Pick<Row, 'seen'>>,
): Promise<Contents> {
  const own: Signer = { by: 'vault', vault };
  if (order.what === 'vault') {
    const phrase = kept.words ?? (await newPhrase(world.random));
    return {
      rows: remembered(rowsOf(log), seen),
      order: { what: 'vault', sender: '', streams: named(log, streams), signer: own, phrase },
      leftOut: 0,
    };
  }
  const ticked = order.what === 'handover' ? order.with : new Set(PRIVATE_TOPICS);
  const main = await gathered(log, 'main');
  const parts = await Promise.all(
    streams.map(async (stream) => ({ stream, ...handoverOf(stream, await gathered(log, stream), main, ticked) })),
  );
  const rows = new Map(parts.flatMap((part) => part.rows.map((row) => [keyOf(row), row])));
  const header = named(log, streams).map((one) => ({
    ...one,
    withheld: parts.find(({ stream }) => stream === one.stream)?.withheld ?? [],
  }));
  const signer = order.what === 'clients' ? own : await deviceSigner(kept.seed, vault.list.vault);
  const more = order.what === 'handover' ? { consent: order.consent } : {};
  return {
    rows: oneByOne(rows.values()),
    order: { what: order.what, sender: order.sender, streams: header, signer, ...more },
    leftOut: parts.reduce((sum, part) => sum + part.leftOut, 0),
  };
}

async function deviceSigner(seed: string, vault: string): Promise<Signer> {
  const key = await signingKeyOf(fromBase64(seed) ?? new Uint8Array());
  return key ? { by: 'device', vault, key } : { by: 'nobody', vault };
}

/** The words are kept from the first file on: a backup a week must not be a new phrase a week. */
async function keepWords(log: Log, { kept }: OpenKeys, words: string): Promise<Result<void, SealFault>> {
  return kept.words === words ? ok(undefined) : keepKeys(log, { ...kept, words });
}

/** Erasing a client tells which files still hold them: each one is noted, so that it can be deleted by hand. */
function noteSealed({ log, world, inTurn }: Deps, one: SealedBefore): Promise<void> {
  return inTurn(async () => {
    const keys = await openKeys(log, world, []);
    if (keys.ok) await keepKeys(log, { ...keys.value.kept, sealed: [...keys.value.kept.sealed, one] });
  });
}

const named = (log: Log, streams: readonly string[]): BundleStream[] =>
  streams.map((stream) => ({ stream, name: client(log, stream)?.alias ?? '', withheld: [] }));

async function* rowsOf(log: Log, stream?: string): AsyncGenerator<Row> {
  const batches = batchesOf(log, stream);
  for (;;) {
    const next = await batches.next();
    if (next.done && !next.value) throw UNREAD;
    if (next.done) return;
    yield* next.value;
  }
}

async function gathered(log: Log, stream: string): Promise<readonly Row[]> {
  const rows: Row[] = [];
  for await (const row of rowsOf(log, stream)) rows.push(row);
  return rows;
}

async function* remembered(rows: AsyncIterable<Row>, seen: Map<RowKey, Pick<Row, 'seen'>>): AsyncGenerator<Row> {
  for await (const row of rows) {
    seen.set(keyOf(row), { seen: row.seen });
    yield row;
  }
}

async function* oneByOne(rows: Iterable<Row>): AsyncGenerator<Row> {
  yield* rows;
}
