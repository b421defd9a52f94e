import * as fc from 'fast-check';
import { endsOf } from '../../src/analysis/ends';
import { findingsOf } from '../../src/analysis/findings';
import { seriesOf } from '../../src/analysis/series';
import { type ClientRecord, exercisesOf, readStudio } from '../../src/analysis/studio';
import type { BodyMass } from '../../src/domain/bodyMass';
import { addDays, type Day } from '../../src/domain/day';
import type { SessionRecord } from '../../src/domain/session';
import { ENDINGS, SET_KINDS, type Side } from '../../src/domain/set';
import type { Target } from '../../src/domain/target';
import type { Load } from '../../src/domain/units';
import { dayAt, FRONT_SQUAT, type Held, PRESS, PULL_UP, REACH, sessionOn } from './made';

/* Clients that log anything that can be logged, in any order and with any gaps. */

const half = (min: number, max: number) => fc.integer({ min: min * 2, max: max * 2 }).map((twice) => twice / 2);
const optional = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });
const loadOf = (most: number): fc.Arbitrary<Load> =>
  fc.record({
    value: fc.oneof({ weight: 5, arbitrary: half(0, most) }, fc.double({ min: 0, max: most, noNaN: true })),
    unit: fc.constantFrom('kg', 'lb'),
  });

const effort = fc.oneof(
  half(0, 5).map((value) => ({ value, as: 'left' as const })),
  half(1, 10).map((value) => ({ value, as: 'rpe' as const })),
  fc.constant({ atLeast: 4 as const }),
);
const variant = fc.oneof(
  { weight: 6, arbitrary: fc.constant({}) },
  fc.constant({ pause: 2 }),
  fc.constant({ tempo: '3-1-x-0' }),
  fc.constant({ height: { value: 12, unit: 'in' as const } }),
);

/** Leaves out what is undefined, as a row does. */
const noted = (held: Readonly<Record<string, unknown>>): Held =>
  Object.fromEntries(Object.entries(held).filter(([, value]) => value !== undefined)) as Held;

type Spec = {
  readonly which: number;
  readonly side: number;
  readonly held: Held;
  readonly ways: Readonly<Record<'load' | 'added' | 'assist', Load>> & { readonly degrees: number };
  readonly body: number;
};

/** A set of a usual training, for the most part. */
const usualSet: fc.Arbitrary<Spec> = fc.record({
  which: fc.nat(5),
  side: fc.nat(5),
  held: fc
    .record({ kind: fc.constant('working' as const), reps: fc.integer({ min: 4, max: 7 }), effort: optional(effort) })
    .map(noted),
  ways: fc.record({
    load: fc.record({ value: half(80, 90), unit: fc.constant('kg' as const) }),
    added: fc.record({ value: half(5, 15), unit: fc.constant('kg' as const) }),
    assist: loadOf(20),
    degrees: half(120, 125),
  }),
  body: fc.nat(8),
});

/** Anything that a set may hold. */
const wildSet: fc.Arbitrary<Spec> = fc.record({
  which: fc.nat(5),
  side: fc.nat(5),
  held: fc
    .tuple(
      fc.record({
        kind: fc.constantFrom(...SET_KINDS),
        reps: optional(fc.oneof(fc.integer({ min: 1, max: 14 }), fc.integer({ min: 0, max: 500 }))),
        effort: optional(effort),
        ended: optional(fc.constantFrom(...ENDINGS)),
        tally: optional(fc.boolean()),
        band: fc.option(fc.constant('light'), { nil: undefined, freq: 12 }),
      }),
      variant,
    )
    .map(([held, more]) => {
      const parts = held.kind === 'drop' || held.kind === 'cluster' ? [{ id: 'p1', reps: 3 }] : undefined;
      return noted({ ...held, ...more, parts });
    }),
  ways: fc.record({ load: loadOf(600), added: loadOf(150), assist: loadOf(80), degrees: half(-90, 360) }),
  body: fc.nat(9),
});
const anySet = fc.oneof({ weight: 5, arbitrary: usualSet }, { weight: 1, arbitrary: wildSet });

/** Whether one trains each side by itself, and what: of one exercise or two. */
const habit = fc.record({
  isEach: fc.boolean(),
  exercises: fc.shuffledSubarray([FRONT_SQUAT.id, PULL_UP.id, PRESS.id, REACH.id], { minLength: 1, maxLength: 2 }),
});
type Habit = { readonly isEach: boolean; readonly exercises: readonly string[] };

function setOf({ which, side, held, ways, body }: Spec, { isEach, exercises: own }: Habit): Held {
  const exercise = own[which % own.length] ?? FRONT_SQUAT.id;
  const { load, added, assist, degrees } = ways;
  const onBody = body < 4 ? { added } : body > 8 ? { assist } : {};
  const way = exercise === REACH.id ? { degrees } : exercise === PULL_UP.id ? onBody : { load };
  // now and then one forgets the side, or tells one where there is none
  const told = side === 0 ? !isEach : isEach;
  return { ...held, ...way, exercise, ...(told ? { side: side % 2 === 0 ? 'left' : 'right' } : {}) };
}

const gap = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 7 }) },
  { weight: 1, arbitrary: fc.constantFrom(0, 15, 90, 700) },
);
const anySession = fc.record({
  gap,
  // hours: after a flight the later may bear the earlier day
  late: fc.integer({ min: -20, max: 20 }),
  noDay: fc.integer({ min: 0, max: 30 }).map((one) => one === 0),
  sets: fc.array(anySet, { minLength: 1, maxLength: 5 }),
});

/** Sessions in the order they were logged. */
export const anySessions: fc.Arbitrary<readonly SessionRecord[]> = fc
  .tuple(habit, fc.array(anySession, { maxLength: 20, size: 'max' }))
  .map(([own, some]) => {
    let n = 0;
    return some.map(({ gap: days, late, noDay, sets }, at) => {
      n += days;
      const day = dayAt(n);
      const when = { at: Date.parse(`${day}T12:00Z`) + late * 3_600_000, id: `r${String(at).padStart(3, '0')}` };
      const held = sets.map((one) => setOf(one, own));
      const session = sessionOn(day, FRONT_SQUAT, held, when);
      const trained = [...new Set(held.flatMap(({ exercise }) => exercise ?? []))];
      // a day that no calendar has, as a broken clock may write it
      const start = noDay && session.start ? { ...session.start, day: NO_DAY } : session.start;
      return { ...session, exercises: trained, ...(start ? { start } : {}) };
    });
  });

/** A day that does not exist. */
export const NO_DAY = '2026-02-31';

const farDay: fc.Arbitrary<Day> = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: -60, max: 900 }).map(dayAt) },
  fc.constantFrom('0001-01-02', '9999-12-30'),
);

export const anyMasses: fc.Arbitrary<readonly BodyMass[]> = fc.array(
  fc.record({
    value: fc.oneof(
      { weight: 8, arbitrary: half(20, 300) },
      // what a row may hold, though no field takes it
      fc.constantFrom(0, 1e9, 1e300, Number.MAX_VALUE),
    ),
    unit: fc.constantFrom('kg', 'lb'),
    day: farDay,
    notedAt: fc.integer({ min: 0, max: 9 }),
  }),
  { maxLength: 3 },
);

const amount = (unit: fc.Arbitrary<Target['goal']['unit']>) =>
  fc.record({
    value: fc.oneof({ weight: 6, arbitrary: half(0, 200) }, fc.constantFrom(0, 1e300, Number.MAX_VALUE)),
    unit,
  });

export const anyTargets: fc.Arbitrary<readonly Target[]> = fc.array(
  fc
    .tuple(
      fc.constantFrom(
        ...([
          [FRONT_SQUAT.id, 'kg'],
          [PRESS.id, 'lb'],
          [PULL_UP.id, 'kg'],
          [PULL_UP.id, 'reps'],
          [REACH.id, 'degrees'],
        ] as const),
      ),
      fc.record({ start: optional(amount(fc.constant('kg'))), from: farDay, day: farDay }),
      fc.record({ value: amount(fc.constant('kg')), reps: optional(fc.integer({ min: 1, max: 12 })) }),
      fc.uuid(),
    )
    .map(([[exercise, unit], { start, ...days }, { value, reps }, id]) => ({
      id,
      exercise,
      goal: { value: value.value, unit },
      ...(start ? { start: { value: start.value, unit } } : {}),
      ...(reps ? { reps } : {}),
      ...days,
    })),
  { maxLength: 4 },
);

const { exercises } = readStudio([]);
export const clientOf = (
  sessions: readonly SessionRecord[],
  masses: readonly BodyMass[] = [],
  targets: readonly Target[] = [],
): ClientRecord => ({ stream: 'c1', alias: 'Client Slate', sessions, masses, targets, otherWork: [] });

/** Returns what a client's exercises are analysed from. */
export const recordsOf = (client: ClientRecord) =>
  exercisesOf(client, { clients: [client], exercises, firstDay: 'mon' });

/** Returns all that is said of a client on a day. */
export function analysed(client: ClientRecord, today: Day) {
  const records = recordsOf(client);
  const ends = records.flatMap(({ exercise, exposures, body }) => endsOf(exercise, exposures, body));
  const series = records.flatMap((one) =>
    seriesOf(one, {
      targets: client.targets,
      today,
      fanDays: ({ day }, target) => [day, addDays(day, 56), ...(target ? [target.day] : [])],
    }),
  );
  return { ends, series, findings: findingsOf(ends, client.targets, today) };
}

/** Returns sessions in which left is right and right is left. */
export const mirrored = (sessions: readonly SessionRecord[]): readonly SessionRecord[] =>
  sessions.map((session) => ({
    ...session,
    sets: session.sets.map((one) => (one.side ? { ...one, side: other(one.side) } : one)),
  }));

export const other = (side: Side): Side => (side === 'left' ? 'right' : 'left');
