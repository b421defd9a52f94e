import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gridOf } from '../../src/domain/block';
import { readSession, type SessionRecord } from '../../src/domain/session';
import { buildSeries, foldSession, SERIES_VERSION, type SeriesRow } from '../../src/log/series';
import type { Json } from '../../src/merge/row';
import { entry, SQUAT } from './floor';
import { type At, exerciseOf, good, missingIn, ROUNDS, stations } from './gym';
import { two } from './meeting';
import { allMeet } from './paper';
import { REAL } from './room';

/** Values of any shape that may lie in a known path. */
const VALUES: readonly Json[] = [
  null,
  5,
  -1,
  'x',
  true,
  [],
  [1, 'a'],
  {},
  { at: 5 },
  { at: 1_800_000_000_000, day: '2027-01-15', zone: 'UTC' },
  { value: 5, unit: 'kg' },
  { block: 'b', station: 's', round: 2 },
  { why: 'late' },
  { removed: true, seen: { 'a-1': 9e15 } },
];
const NAMES = [
  'start',
  'end',
  'note',
  'removed',
  'pauses/p/from',
  'pauses/p/to',
  'arrival/sleep',
  'arrival/usual',
  'signs/x',
  'exercises/e/order',
  'exercises/e/plan',
  'exercises/e/swappedFor',
  'blocks/b/kind',
  'blocks/b/reps',
  'blocks/b/started',
  'blocks/b/stations/s/exercise',
  'blocks/b/stations/s/plan',
  ...['exercise', 'kind', 'at', 'in', 'load', 'marks/1', 'marks/99', 'parts/1a/reps', 'good', 'height', 'tally'].map(
    (name) => `sets/x/${name}`,
  ),
];

/** A session whose start was cleared and that holds no set is none. */
const readOn = ({ log, place }: At) => REAL.session(log, place.stream, place.session);
const setsOn = (on: At) => readOn(on)?.sets ?? [];

const deed = fc.record({
  on: fc.nat(1),
  what: fc.nat(9),
  which: fc.nat(30),
  name: fc.constantFrom(...NAMES),
  value: fc.constantFrom(...VALUES),
  clock: fc.integer({ min: -100_000, max: 300_000 }),
});

describe('whatever two devices do', () => {
  test('merged, the session can be read and holds every set that nobody removed', { timeout: 60_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(deed, { maxLength: 40 }), async (deeds) => {
        const all = await two();
        const devices = [all.onA, all.onB] as const;
        const logged: string[] = [];
        const removed = new Set<string>();
        for (const { on: n, what, which, name, value, clock } of deeds) {
          const on = devices[n]!;
          on.world.pass(clock);
          const read = REAL.session(on.log, on.place.stream, on.place.session);
          const set = read?.sets[which % Math.max(1, read.sets.length)];
          const block = read?.blocks[which % Math.max(1, read.blocks.length)];
          const row = { stream: on.place.stream, id: on.place.session, kind: 'session' };
          if (what <= 1) logged.push(good(REAL.logSet(on.log, on.place, entry('60', '5'), SQUAT, on.world)).set);
          else if (what === 2 && block) {
            const before = new Set(read?.sets.map(({ id }) => id));
            const round = missingIn(REAL, on, block.id, 1).filter((one) => one.entry.reps !== '');
            // a station that bad luck gave a word for an exercise is refused, as it should be
            void REAL.logCells(on.log, on.place, round, on.world);
            for (const { id } of setsOn(on)) if (!before.has(id)) logged.push(id);
          } else if (what === 3 && block) void REAL.removeThing(on.log, on.place, { type: 'block', id: block.id });
          else if (what === 4 && set) {
            void REAL.removeSet(on.log, on.place, set.id);
            removed.add(set.id);
          } else if (what === 5 && set) void REAL.touchUp(on.log, on.place, set.id, { form: 'clean' });
          else if (what === 6 && read) good(REAL.addBlock(on.log, on.place, ROUNDS, stations('lib-pull-up'), on.world));
          else if (what === 7) allMeet(all.a, all.b);
          // a whole session that is removed takes its sets along, as it should
          else if (name !== 'removed')
            void on.log.commit({ act: { type: 'newer' }, rows: [{ name: row, changes: { [name]: value } }] });
        }
        allMeet(all.a, all.b);
        const held = devices.map((on) => new Set(setsOn(on).map(({ id }) => id)));
        for (const id of logged) {
          if (!removed.has(id)) expect(held.map((ids) => ids.has(id))).toEqual([true, true]);
        }
        expect(readOn(all.onA)).toEqual(readOn(all.onB));
        for (const block of readOn(all.onA)?.blocks ?? []) gridOf(block, setsOn(all.onA), exerciseOf);
      }),
      { numRuns: 250, seed: 40_217 },
    );
  });

  test('rows of any values at known paths are read, and what cannot be is named', async () => {
    const values = fc.dictionary(fc.constantFrom(...NAMES), fc.oneof(fc.constantFrom(...VALUES), fc.jsonValue()));
    await fc.assert(
      fc.property(values, (held) => {
        const at = { at: 1_800_000_000_000, day: '2027-01-15', zone: 'UTC' };
        const mine = { 'sets/kept/exercise': 'e1', 'sets/kept/at': at, 'sets/kept/reps': 5 };
        const read = readSession('r1', [{ id: 'r1', values: { ...held, ...mine } }]);
        expect(read?.sets.find(({ id }) => id === 'kept')).toMatchObject({ exercise: 'e1', reps: 5, unread: [] });
        for (const one of read?.unread ?? []) expect(one.path).toMatch(/^[a-z]+(\/|$)/);
      }),
      { numRuns: 1000, seed: 404_011 },
    );
  });
});

describe('[M7] exposures', () => {
  const kinds = ['working', 'working', 'warm-up', 'test', 'back-off', 'assisted'] as const;
  const aSet = fc.record({
    exercise: fc.constantFrom('e1', 'e2', 'e3'),
    kind: fc.constantFrom(...kinds),
    load: fc.option(fc.nat(100)),
    side: fc.constantFrom(undefined, 'left' as const, 'right' as const),
    cue: fc.option(fc.constantFrom('tall', 'push')),
    landings: fc.option(fc.integer({ min: 1, max: 20 })),
  });
  const change = fc.record({
    session: fc.nat(8),
    start: fc.integer({ min: 0, max: 5 }),
    sets: fc.option(fc.array(aSet, { maxLength: 5 })),
  });

  test('folded session by session in any order, changed and removed, are what a rebuild makes', async () => {
    await fc.assert(
      fc.property(fc.array(change, { maxLength: 30 }), (changes) => {
        const now = new Map<string, SessionRecord>();
        const times = new Map<string, SeriesRow['times']>();
        for (const { session, start, sets } of changes) {
          const id = `r${session}`;
          const read = sets === null ? undefined : recordOf(id, start, sets);
          if (read) now.set(id, read);
          else now.delete(id);
          for (const exercise of ['e1', 'e2', 'e3']) {
            const row = { stream: 'c1', exercise, version: SERIES_VERSION, last: [], times: times.get(exercise) ?? [] };
            times.set(exercise, foldSession(row, 'c1', exercise, id, read).times);
          }
        }
        const built = new Map(buildSeries('c1', [...now.values()]).map((row) => [row.exercise, row.times]));
        for (const exercise of ['e1', 'e2', 'e3']) {
          expect(times.get(exercise) ?? []).toEqual(built.get(exercise) ?? []);
        }
        expect(built.get('') ?? []).toEqual([]);
      }),
      { numRuns: 400, seed: 77 },
    );
  });

  function recordOf(
    id: string,
    start: number,
    sets: readonly (typeof aSet extends fc.Arbitrary<infer S> ? S : never)[],
  ): SessionRecord {
    const at = { at: 1_800_000_000_000 + start * 86_400_000, day: '2027-01-15', zone: 'UTC' };
    const values: Record<string, unknown> = { start: at };
    for (const [n, { exercise, kind, load, side, cue, landings }] of sets.entries()) {
      const of: Record<string, unknown> = { exercise, kind, at, side, landings, reps: 5 };
      if (load !== null) of['load'] = { value: load, unit: 'kg' };
      if (cue !== null) of['cues/c'] = { cue, answer: 'better' };
      for (const [path, value] of Object.entries(of)) values[`sets/s${n}/${path}`] = value ?? null;
    }
    const read = readSession(id, [{ id, values }]);
    if (!read) throw new Error('no session');
    return read;
  }
});
