import { isDeepStrictEqual } from 'node:util';
import * as fc from 'fast-check';
import type { Json, Row } from '../../src/merge/row';
import { CLOCKS } from './history';
import { type Law, law, must } from './law';
import { base, merged, written } from './laws-merge';
import type { MergeRoom } from './room';
import { facts, isAbove } from './rows';

type Changes = Readonly<Record<string, Json>>;
const AT = { at: 1_800_000_000_000, day: '2027-01-15', zone: 'UTC' };
const LB = { value: 45, unit: 'lb' };
const SET: Changes = { 'sets/s1/exercise': 'e', 'sets/s1/at': AT, 'sets/s1/reps': 5, 'sets/s1/kind': 'working' };

type Odds = {
  readonly start: Changes;
  readonly one: Changes;
  readonly other: Changes;
  /** A path that both write: the two are at odds only where the other's write is the one that shows. */
  readonly disputed?: string;
  readonly called: string;
};

/** Pairs of edits that each leave the set right, and what their merge is called. */
const ODDS: readonly Odds[] = [
  { start: SET, one: { 'sets/s1/added': LB }, other: { 'sets/s1/assist': LB }, called: 'added-and-assist' },
  {
    start: { ...SET, 'sets/s1/kind': 'drop', 'sets/s1/parts/1a/reps': 4 },
    one: { 'sets/s1/parts/1a/reps': null, 'sets/s1/kind': 'working' },
    other: { 'sets/s1/parts/2b/reps': 3 },
    called: 'parts-unasked',
  },
  {
    start: SET,
    one: { 'sets/s1/kind': 'cluster', 'sets/s1/parts/1a/reps': 4 },
    other: { 'sets/s1/reps': 9, 'sets/s1/kind': 'test' },
    disputed: 'sets/s1/kind',
    called: 'parts-unasked',
  },
  {
    start: SET,
    one: {
      ...Object.fromEntries(Object.keys(SET).map((path) => [path, null])),
      'sets/s1/movedTo': { stream: 'c2', session: 'r2', set: 's1' },
    },
    other: { 'sets/s1/reps': 9 },
    disputed: 'sets/s1/reps',
    called: 'no-exercise',
  },
];

/** Laws M9 and M11: what does not go together, and the order of things. */
export const readingLaws: readonly Law[] = [
  law(
    'M9',
    'Valid and valid may merge to invalid: such a row is kept, named as such, never refused, never repaired silently',
    [fc.constantFrom(...ODDS), fc.constantFrom(...CLOCKS), fc.constantFrom(...CLOCKS)],
    (room, { start, one, other, disputed, called }, first, second) => {
      const born = written(room, base(room), 'd', start, 1);
      const left = written(room, born, 'x', one, first);
      const right = written(room, born, 'y', other, second);
      for (const row of [born, left, right]) must(named(room, row).length === 0, 'each by itself goes together');
      const both = merged(room, left, right);
      const kept = facts(both);
      for (const [path, value] of Object.entries(one)) must(has(kept, path, value), `${path} was repaired away`);
      for (const [path, value] of Object.entries(other)) must(has(kept, path, value), `${path} was repaired away`);
      if (disputed && isAbove(left.body[disputed]![0].stamp, right.body[disputed]![0].stamp)) {
        must(named(room, both).length === 0, () => `nothing is at odds, and it says ${named(room, both)}`);
        return;
      }
      must(named(room, both).includes(called), () => `not named ${called}: ${named(room, both)}`);
      must(room.admitRow(JSON.parse(room.canonicalRow(both))).ok, 'what is at odds was refused');
      const [set] = room.readSession('r1', [{ id: 'r1', values: room.shown(both) }])?.sets ?? [];
      must(set !== undefined, 'what is at odds is not shown');
      if (called === 'added-and-assist') {
        must(isDeepStrictEqual(set.added, LB) && isDeepStrictEqual(set.assist, LB), 'one of the two was repaired away');
      }
    },
  ),
  law(
    'M11',
    'Sets sort by (instant, id)',
    [
      fc.uniqueArray(fc.tuple(fc.nat(2), fc.constantFrom('a', 'b', 'c', 'd', 'e')), {
        selector: ([, id]) => id,
        minLength: 1,
      }),
      fc.boolean(),
    ],
    (room, sets, split) => {
      const values = (some: typeof sets) =>
        Object.fromEntries(
          some.flatMap(([at, id]) => [
            [`sets/${id}/exercise`, 'e'],
            [`sets/${id}/at`, { ...AT, at }],
          ]),
        );
      const half = split ? 1 : sets.length;
      const parts = [
        { id: 'r1', values: values(sets.slice(0, half)) },
        { id: 'r1-2', values: values(sets.slice(half)) },
      ];
      const read = room.readSession('r1', split ? parts.reverse() : parts)?.sets ?? [];
      must(read.length === sets.length, 'not every set is read');
      for (const [index, set] of read.slice(1).entries()) {
        const before = read[index]!;
        must(before.at!.at <= set.at!.at, 'a later set stands before an earlier one');
        must(before.at!.at < set.at!.at || before.id < set.id, 'sets of one instant do not stand by id');
      }
    },
  ),
  law(
    'M11',
    'The id of a planned session is a hash of client, template, planned day and n: the same on every device, another for another n',
    [
      fc.tuple(...[0, 1, 2].map(() => fc.constantFrom('k1', 'k2', '2027-01-15', '2027-01-16'))),
      fc.integer({ min: 1, max: 40 }),
      fc.nat(3),
    ],
    (room, about, n, which) => {
      const [client, template, day] = about as [string, string, string];
      const id = room.plannedSessionId(client, template, day, n);
      must(id === room.plannedSessionId(`${client}`, template, day, n), 'one plan has two ids');
      must(/^[0-9a-hjkmnp-tv-z]{16}$/.test(id), `not an id: ${id}`);
      const others = [
        room.plannedSessionId(`${client}x`, template, day, n),
        room.plannedSessionId(client, `${template}x`, day, n),
        room.plannedSessionId(client, template, `${day}x`, n),
        room.plannedSessionId(client, template, day, n + 1),
      ];
      must(others[which] !== id, `two plans have one id: ${which}`);
    },
  ),
];

/** What is said about the only set of a row. */
function named(room: MergeRoom, row: Row): string[] {
  return (room.readSession('r1', [{ id: 'r1', values: room.shown(row) }])?.unread ?? []).map(({ type }) => type);
}

function has(kept: ReadonlySet<string>, path: string, value: Json): boolean {
  return [...kept].some((one) => one.startsWith(`${path} `) && one.endsWith(` ${JSON.stringify(value)}`));
}
