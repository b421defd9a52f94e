import { isDeepStrictEqual } from 'node:util';
import * as fc from 'fast-check';
import { CLOCKS, written as deviceWrites, live, pathsOf, standingDeeds, steps, winnerOf } from './history';
import { type Law, law, must } from './law';
import { base, merged, written } from './laws-merge';
import { anyRow, covered, isAbove } from './rows';

const HIGHEST_L = 4_503_599_627_370_496;
const ZONES = ['Europe/Vienna', 'Pacific/Kiritimati', 'America/Los_Angeles', 'Nowhere/Atlantis', ''] as const;
const ABSURD = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  -1,
  -1e20,
  1e20,
  0,
  0.5,
  2 ** 51,
  2 ** 51 + 1,
  2 ** 52,
  2 ** 53,
  Number.MAX_VALUE,
  1_800_000_000_000.25,
] as const;

/** Laws M3 and M4: what an edit beats, and that no clock hinders it. */
export const writeLaws: readonly Law[] = [
  law('M3', 'The value shown is the one with the highest stamp', [anyRow, anyRow], (room, a, b) => {
    const both = merged(room, a, b);
    for (const [path, [first, ...others]] of Object.entries(both.body)) {
      must(JSON.stringify(room.valueAt(both, path)) === JSON.stringify(first.value), 'not the first is shown');
      must(!others.some((held) => isAbove(held.stamp, first.stamp)), `a higher stamp than the one shown at ${path}`);
    }
  }),
  law(
    'M3',
    'An edit always beats the value its author was looking at, whatever the clocks say',
    [steps, fc.constantFrom(...CLOCKS), fc.nat(2)],
    (room, lived, clock, who) => {
      const { devices } = live(room, lived);
      const author = devices[who]!;
      const after = deviceWrites(room, author, { 'sets/a/reps': 'the edit' }, clock).row;
      must(room.valueAt(after, 'sets/a/reps') === 'the edit', 'the edit does not show');
      const seenCopies = devices
        .flatMap(({ copies }) => copies)
        .filter(({ knows }) => [...knows].every((deed) => author.knows.has(deed)));
      for (const { row } of seenCopies) {
        for (const met of [merged(room, row, after), merged(room, after, row)]) {
          must(room.valueAt(met, 'sets/a/reps') === 'the edit', 'the edit lost to what its author had seen');
          must(met.body['sets/a/reps']?.length === 1, 'what the author had seen stands beside the edit');
        }
      }
    },
  ),
  law(
    'M3',
    'L = max(clock, 1 + the highest of every held stamp, every `seen` entry and every stamp this launch attempted in this row)',
    [anyRow, fc.nat(6), fc.constantFrom(1, 2, 3, 5, 1_800_000_000_000)],
    (room, row, attempted, clock) => {
      const stamp = room.nextStamp(row, 'a-1', clock, attempted);
      must(stamp.writer === 'a-1', 'the stamp names another writer');
      const below = [
        attempted,
        ...Object.values(row.seen),
        ...Object.values(row.body)
          .flat()
          .map((held) => held.stamp.l),
      ];
      must(
        below.every((l) => l < stamp.l),
        `L ${stamp.l} is not above ${Math.max(...below)}`,
      );
      must(stamp.l >= clock, `L ${stamp.l} is below the clock`);
      must(stamp.l === clock || below.includes(stamp.l - 1), `L ${stamp.l} is higher than it must be`);
      const after = room.writeRow(row, { reps: 'the edit' }, stamp);
      must(room.valueAt(after, 'reps') === 'the edit' && covered(after, stamp), 'the write is not in the row');
    },
  ),
  law('M3', 'A stamp never names two values: a burnt one is never given again', [steps], (room, lived) => {
    const given = live(room, lived).given.map(({ l, writer }) => `${l} ${writer}`);
    must(
      new Set(given).size === given.length,
      `given twice: ${given.find((one, index) => given.indexOf(one) !== index)}`,
    );
  }),
  law('M3', 'Every device shows, at every path, the highest of the deeds that stand', [steps], (room, lived) => {
    for (const { row, knows } of live(room, lived).devices) {
      for (const path of pathsOf(knows)) {
        const winner = winnerOf(standingDeeds(knows, path));
        must(
          winner !== undefined && isDeepStrictEqual(room.valueAt(row, path), winner.value),
          `not the highest is shown at ${path}`,
        );
      }
    }
  }),
  law(
    'M4',
    'A clock never blocks, refuses or voids a write',
    [anyRow, fc.array(fc.constantFrom(...ABSURD), { minLength: 1, maxLength: 6 })],
    (room, row, clocks) => {
      let now = row;
      let last = 0;
      for (const [index, clock] of clocks.entries()) {
        const stamp = room.nextStamp(now, 'z-9', clock, last);
        must(
          Number.isInteger(stamp.l) && stamp.l > last && stamp.l <= HIGHEST_L,
          `a clock of ${clock} gave L ${stamp.l}`,
        );
        now = room.writeRow(now, { 'sets/s1/reps': index }, stamp);
        must(room.valueAt(now, 'sets/s1/reps') === index, `a clock of ${clock} voided the write`);
        must(room.admitRow(JSON.parse(JSON.stringify(now))).ok, `a clock of ${clock} made a row that is refused`);
        last = stamp.l;
      }
    },
  ),
  law(
    'M4',
    'A clock never voids a set: its instant is written and read whatever it says',
    [fc.constantFrom(...ABSURD, ...CLOCKS), fc.constantFrom(...ZONES)],
    (room, clock, zone) => {
      const at = room.instantAt(clock, zone);
      const row = written(
        room,
        base(room),
        'a',
        { 'sets/s1/exercise': 'e', 'sets/s1/reps': 5, 'sets/s1/at': at },
        clock,
      );
      const admitted = room.admitRow(JSON.parse(room.canonicalRow(row)));
      must(admitted.ok, `a clock of ${clock} made a row that is refused`);
      const read = room.readSession('r1', [{ id: 'r1', values: room.shown(admitted.value) }]);
      must(read?.sets.length === 1 && read.unread.length === 0, () => `not read: ${JSON.stringify(read)}`);
    },
  ),
];
