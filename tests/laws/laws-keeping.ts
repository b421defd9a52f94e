import { isDeepStrictEqual } from 'node:util';
import * as fc from 'fast-check';
import type { Json, Register, Row } from '../../src/merge/row';
import { live, pathsOf, standingDeeds, steps } from './history';
import { type Law, law, must } from './law';
import { base, merged, written } from './laws-merge';

const SEGMENTS = [
  'newer',
  'x1',
  'constructor',
  'toString',
  'valueOf',
  'hasOwnProperty',
  'sets',
  's1',
  'parts',
  'cues',
  'reps',
];
const segment = fc.constantFrom(...SEGMENTS);
/** Below these this version writes nothing. */
const head = fc.constantFrom('nova', 'sets/s1/nova', 'sets/s1/cues/c1', 'sets/s1/parts/p1/reps');
const names = fc.constantFrom('constructor', 'toString', 'valueOf', 'hasOwnProperty', 'nova');
const below = fc.tuple(head, fc.array(segment, { minLength: 1, maxLength: 3 }));
const unknownPath = fc.oneof(
  names,
  below.map(([start, rest]) => [start, ...rest].join('/')),
);
const anyValue: fc.Arbitrary<Json> = fc.oneof(
  fc.constantFrom<Json>(
    true,
    null,
    0,
    '',
    { holds: 'kettle', of: [1, { more: null }] },
    { removed: true, seen: { constructor: 3 } },
  ),
  fc.jsonValue({ maxDepth: 2 }).map((value) => JSON.parse(JSON.stringify(value)) as Json),
);
const unknowns = fc.dictionary(unknownPath, anyValue, { minKeys: 1, maxKeys: 4 });

/** Laws M2 over whole histories, and M8: what is kept. */
export const keepingLaws: readonly Law[] = [
  law(
    'M2',
    'After any history a device holds what its history wrote and did not see replaced, and nothing else',
    [steps],
    (room, lived) => {
      for (const { row, knows } of live(room, lived).devices) {
        const should = new Map([...pathsOf(knows)].map((path) => [path, standingDeeds(knows, path)] as const));
        must(Object.keys(row.body).length === should.size, 'not the paths that were written');
        for (const [path, deeds] of should) {
          const held = row.body[path] ?? [];
          must(held.length === deeds.length, () => `${path}: ${JSON.stringify(held)} for ${JSON.stringify(deeds)}`);
          for (const { stamp, value } of deeds) {
            const kept = held.some((one) => isDeepStrictEqual(one.stamp, stamp) && isDeepStrictEqual(one.value, value));
            must(kept, () => `${path}: lost ${JSON.stringify(value)}`);
          }
        }
      }
    },
  ),
  law(
    'M8',
    'Unknown paths and kinds survive every merge, edit and removal, and the door',
    [unknowns, unknowns, fc.constantFrom('session', 'jump', 'constructor')],
    (room, left, right, kind) => {
      const start = written(room, { ...base(room), kind }, 'd', { 'sets/s1/exercise': 'e', 'sets/s1/reps': 5 }, 1);
      const one = written(room, start, 'constructor', left, 2);
      const other = written(room, start, 'y', right, 2);
      const both = merged(room, one, other);
      let row = both;
      row = written(room, row, 'y', { 'sets/s1/reps': 6 }, 3);
      row = written(room, row, 'x', room.removing(row, 'sets/s1'), 4);
      row = written(room, row, 'x', room.restoring('sets/s1'), 5);
      row = merged(room, merged(room, row, other), one);
      const admitted = room.admitRow(JSON.parse(JSON.stringify(row)));
      must(admitted.ok, () => `refused: ${JSON.stringify(admitted)}`);
      must(admitted.value.kind === kind && row.kind === kind, 'the kind did not survive');
      for (const [path, register] of unknownRegisters(both, [left, right])) {
        must(
          isDeepStrictEqual(row.body[path], register),
          () => `${path} did not survive: ${JSON.stringify(row.body[path])}`,
        );
        must(isDeepStrictEqual(admitted.value.body[path], register), () => `${path} did not pass the door`);
      }
      for (const [path, value] of [...Object.entries(left), ...Object.entries(right)]) {
        const kept = row.body[path]?.some((held) => isDeepStrictEqual(held.value, value));
        must(kept === true, () => `${path}: ${JSON.stringify(value)} is lost`);
      }
    },
  ),
  law(
    'M8',
    'Unknown paths are passed over in reading, and change nothing of what is known',
    [unknowns, names],
    (room, more, name) => {
      const known = {
        exercise: 'e',
        kind: 'drop',
        reps: 5,
        at: { at: 1, day: '2026-03-01', zone: 'UTC' },
        'parts/p1/reps': 4,
        'cues/c1': { cue: 'tall' },
      };
      const relative = Object.entries(more).flatMap(([path, value]) =>
        path.startsWith('sets/s1/') ? [[path.slice('sets/s1/'.length), value] as const] : [],
      );
      const read = room.readSet('s1', {
        ...known,
        ...Object.fromEntries(relative),
        [name]: 1,
        [`parts/p1/${name}`]: 2,
      });
      must(isDeepStrictEqual(read, room.readSet('s1', known)), () => `read otherwise: ${JSON.stringify(read)}`);
    },
  ),
  law(
    'M8',
    'An unknown value in a known path is "from a newer app": kept, shown raw, left out with coverage',
    [
      fc.constantFrom('reps', 'load', 'kind', 'effort', 'pain', 'side', 'form'),
      fc.constantFrom<Json>({ nova: 1 }, 'nova', [7]),
    ],
    (room, path, value) => {
      const set = { exercise: 'e', reps: 5, at: { at: 1, day: '2026-03-01', zone: 'UTC' } };
      const changes = Object.fromEntries(
        Object.entries({ ...set, [path]: value }).map(([under, v]) => [`sets/s1/${under}`, v]),
      );
      const values = room.shown(merged(room, base(room), written(room, base(room), 'a', changes, 1)));
      must(isDeepStrictEqual(values[`sets/s1/${path}`], value), 'not kept as it was');
      const [read] = room.readSession('r1', [{ id: 'r1', values }])?.sets ?? [];
      must(read !== undefined && !(path in read), 'a value nobody understands is computed with');
      const told = [{ type: 'from-a-newer-app', path: `sets/s1/${path}`, value }];
      must(isDeepStrictEqual(read.unread, told), () => `told: ${JSON.stringify(read.unread)}`);
    },
  ),
];

function unknownRegisters(row: Row, written: readonly object[]): (readonly [string, Register])[] {
  const paths = new Set(written.flatMap((values) => Object.keys(values)));
  return Object.entries(row.body).filter(([path]) => paths.has(path));
}
