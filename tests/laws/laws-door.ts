import * as fc from 'fast-check';
import type { Row } from '../../src/merge/row';
import { type Law, law, must } from './law';
import type { MergeRoom } from './room';
import { anyRow } from './rows';

type Box = Record<string, unknown>;

const FAULTS = ['not-a-row', 'bad-path', 'bad-stamp', 'bad-value', 'too-large'];
const LARGEST_L = 4_503_599_627_370_496;

const deep = Array.from({ length: 200 }).reduce<unknown>((inner) => [inner], 1);
const odd = fc.constantFrom<unknown>(
  ...[
    undefined,
    null,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    -1,
    0,
    0.5,
    LARGEST_L,
    LARGEST_L + 1,
    '',
    'a',
    '__proto__',
  ],
  ...['sets//reps', '/', 'a b', 'é', 'x'.repeat(300), [], {}, [[]], [null], deep, { stamp: { l: 1, writer: 'a' } }],
  JSON.parse('{"__proto__":{"l":1}}'),
  () => 1,
  10n,
);
const anything = fc.oneof(odd, fc.jsonValue({ maxDepth: 3 }));
type Change = { at: number; name: string; what: string; put: unknown };
const change: fc.Arbitrary<Change> = fc.record({
  at: fc.nat(),
  name: fc.constantFrom(
    '',
    '__proto__',
    'id',
    'kind',
    'seen',
    'body',
    'stamp',
    'l',
    'writer',
    'value',
    'constructor',
    'a/b',
  ),
  what: fc.constantFrom('set', 'add', 'drop'),
  put: anything,
});

/** What the door promises for whatever comes from outside. */
export const doorLaws: readonly Law[] = [
  law('door', 'A lived or odd row is admitted as it is', [anyRow], (room, row) => {
    const admitted = room.admitRow(JSON.parse(JSON.stringify(row)));
    must(admitted.ok, () => `refused: ${JSON.stringify(admitted)}`);
    must(room.canonicalRow(admitted.value) === room.canonicalRow(row), 'the door changed a row');
  }),
  law(
    'door',
    'A spoiled row is refused with a reason, or admitted whole and for good',
    [anyRow, fc.array(change, { minLength: 1, maxLength: 3 })],
    (room, row, changes) => {
      const spoiled = JSON.parse(JSON.stringify(row)) as Box;
      for (const one of changes) spoil(spoiled, one);
      judged(room, spoiled);
    },
  ),
  law('door', 'Whatever is no row is refused with a reason, and nothing throws', [anything], (room, raw) => {
    judged(room, raw);
    judged(room, { id: 'r', kind: 'k', stream: 's', seen: raw, body: {} });
    judged(room, { id: 'r', kind: 'k', stream: 's', seen: {}, body: raw });
    judged(room, { id: 'r', kind: 'k', stream: 's', seen: {}, body: { p: raw } });
    judged(room, {
      id: 'r',
      kind: 'k',
      stream: 's',
      seen: {},
      body: { p: [{ value: raw, stamp: { l: 1, writer: 'w' } }] },
    });
  }),
];

function judged(room: MergeRoom, raw: unknown): void {
  const first = room.admitRow(raw);
  if (!first.ok) {
    must(FAULTS.includes(first.error.type), `refused as ${first.error.type}`);
    return;
  }
  const row: Row = first.value;
  const text = room.canonicalRow(row);
  const again = room.admitRow(JSON.parse(text));
  must(again.ok && room.canonicalRow(again.value) === text, 'an admitted row is not admitted again as it is');
  const merged = room.mergeRows(row, again.value);
  must(merged.ok && room.canonicalRow(merged.value) === text, 'an admitted row does not merge with itself');
  for (const [path, register] of Object.entries(row.body)) {
    const given = ((raw as Box)['body'] as Record<string, Box[]>)[path]!;
    for (const { value } of given) {
      const kept = register.some((held) => JSON.stringify(held.value) === JSON.stringify(value));
      must(kept, () => `the door lost ${JSON.stringify(value)} at ${path}`);
    }
    for (const { stamp } of register) {
      must(Number.isInteger(stamp.l) && stamp.l >= 1 && stamp.l <= LARGEST_L, `the door let in L ${stamp.l}`);
      must(typeof stamp.writer === 'string' && stamp.writer !== '', 'the door let in a stamp of nobody');
    }
  }
}

/** Changes the `at`-th place of a tree: another value, one more member, or one less. */
function spoil(root: Box, { at, name, what, put: given }: Change): void {
  // a later change may reach into it, and what was generated is not ours to spoil
  const put = typeof given === 'object' ? structuredClone(given) : given;
  const places = placesOf(root);
  const place = places[at % places.length];
  if (!place) return;
  const [box, key] = place;
  // a list stays a list: no parser makes one with holes or names
  if (Array.isArray(box) && what !== 'set')
    box.splice(Number(key), what === 'drop' ? 1 : 0, ...(what === 'drop' ? [] : [put]));
  else if (what === 'drop') delete box[key];
  else if (what === 'set') box[key] = put;
  // as a parser would: an own member, even where it is called `__proto__`
  else Object.defineProperty(box, name, { value: put, enumerable: true, configurable: true, writable: true });
}

function placesOf(box: Box): [Box, string][] {
  return Object.keys(box).flatMap((key): [Box, string][] => {
    const inner = box[key];
    const below = typeof inner === 'object' && inner !== null ? placesOf(inner as Box) : [];
    return [[box, key], ...below];
  });
}
