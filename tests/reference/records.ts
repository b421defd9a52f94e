import * as fc from 'fast-check';
import { expect } from 'vitest';
import { addDays, type Day } from '../../src/domain/day';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { sessionOf, set } from '../domain/made';

/* A client's records for the checks of methods: made by hand, or any at all. */

/** A Monday. */
export const MONDAY: Day = '2026-01-05';
/** Returns the day so many days after that Monday. */
export const dayIn = (days: number): Day => addDays(MONDAY, days);

export const kg = (value: number) => ({ value, unit: 'kg' }) as const;
export const lb = (value: number) => ({ value, unit: 'lb' }) as const;
export const metres = (value: number) => ({ value, unit: 'm' }) as const;

type More = Partial<SessionRecord> & { readonly hour?: number };

/** Returns a session on a day, begun at an hour (noon, where it does not matter), with sets of an exercise a minute apart. */
export function trained(
  day: Day,
  exercise: string,
  sets: readonly Partial<SetRecord>[] = [],
  { hour = 12, ...more }: More = {},
): SessionRecord {
  const at = Date.parse(`${day}T00:00Z`) + hour * 3_600_000;
  const start = { at, day, zone: 'UTC' };
  return {
    ...sessionOf({}),
    id: `${day}-${hour}-${exercise}`,
    start,
    sets: sets.map((one, n) => set({ id: `s${n}`, exercise, at: { ...start, at: at + (n + 1) * 60_000 }, ...one })),
    ...more,
  };
}

/** Returns the same thing so many times. */
export const times = <T>(count: number, one: T): T[] => Array.from({ length: count }, () => one);

/** Fails where a number in an answer is NaN or infinite. */
export function expectFinite(answer: unknown): void {
  if (typeof answer === 'number' && !Number.isFinite(answer)) expect.fail(`${answer} came out`);
  if (typeof answer === 'object' && answer !== null) for (const part of Object.values(answer)) expectFinite(part);
}

/** Returns an answer with its numbers rounded to nine digits, for comparing what was reckoned by another way. */
export function rounded(answer: unknown): unknown {
  if (typeof answer === 'number') return Number(answer.toPrecision(9));
  if (Array.isArray(answer)) return answer.map(rounded);
  if (typeof answer !== 'object' || answer === null) return answer;
  return Object.fromEntries(Object.entries(answer).map(([name, value]) => [name, rounded(value)]));
}

const LB = 0.45359237;
const FT = 0.3048;

/** Returns sessions with every load in lb and every distance in ft instead. */
export const inPounds = (sessions: readonly SessionRecord[]): SessionRecord[] =>
  sessions.map((one) => ({ ...one, sets: one.sets.map(otherUnits) }));

function otherUnits(one: SetRecord): SetRecord {
  const turned: Record<string, unknown> = { ...one };
  for (const name of ['load', 'added', 'assist'] as const) {
    const load = one[name];
    if (load) turned[name] = load.unit === 'kg' ? lb(load.value / LB) : load;
  }
  if (one.distance?.unit === 'm') turned['distance'] = { value: one.distance.value / FT, unit: 'ft' };
  return turned as SetRecord;
}

/** Returns sessions with left and right exchanged. */
export const mirrored = (sessions: readonly SessionRecord[]): SessionRecord[] =>
  sessions.map((session) => ({
    ...session,
    sets: session.sets.map((one) => (one.side ? { ...one, side: one.side === 'left' ? 'right' : 'left' } : one)),
  }));

const some = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(value, { nil: undefined });

const setHeld = (exercises: readonly string[]) =>
  fc.record({
    exercise: fc.constantFrom(...exercises),
    kind: fc.constantFrom(
      'working' as const,
      'working' as const,
      'warm-up' as const,
      'test' as const,
      'back-off' as const,
    ),
    side: some(fc.constantFrom('left' as const, 'right' as const)),
    load: some(fc.integer({ min: 0, max: 600 }).map(kg)),
    added: some(fc.integer({ min: 0, max: 60 }).map(kg)),
    assist: some(fc.integer({ min: 0, max: 90 }).map(kg)),
    band: fc.constantFrom(undefined, undefined, undefined, 'red'),
    reps: some(fc.integer({ min: 0, max: 500 })),
    seconds: some(fc.integer({ min: 1, max: 7200 })),
    distance: some(fc.integer({ min: 1, max: 2000 }).map(metres)),
    landings: some(fc.integer({ min: 1, max: 200 })),
    degrees: some(fc.integer({ min: -90, max: 360 })),
    good: some(fc.integer({ min: 0, max: 10 })),
    tempo: fc.constantFrom(undefined, '3-1-1-0', '30x0', '9999'),
    ended: fc.constantFrom(undefined, 'made' as const, 'missed' as const, 'pain' as const),
    direction: fc.constantFrom(undefined, 'ahead' as const, 'across' as const),
    effort: fc.constantFrom(
      undefined,
      { value: 2, as: 'left' as const },
      { value: 6, as: 'rpe' as const },
      { value: 1, as: 'rpe' as const },
      { atLeast: 4 as const },
    ),
  });

const RATES = [1, 2, 3, 4, 5, undefined, undefined] as const;
const rate = fc.constantFrom(...RATES);
const arrival = fc.record({
  items: fc
    .record({ sleep: rate, energy: rate, body: rate, calm: rate, mood: rate })
    .map((items) => Object.fromEntries(Object.entries(items).filter(([, value]) => value !== undefined))),
  usual: fc.boolean(),
  sore: fc.constant([]),
});

/** Returns histories of any sessions within 60 days, of these exercises; each has an id of its own. */
export const anyHistory = (...exercises: readonly string[]): fc.Arbitrary<SessionRecord[]> =>
  fc
    .array(
      fc.record({
        days: fc.integer({ min: 0, max: 60 }),
        hour: fc.integer({ min: 0, max: 23 }),
        sets: fc.array(setHeld(exercises), { maxLength: 6 }),
        minutes: some(fc.integer({ min: 1, max: 600 })),
        effort: some(fc.integer({ min: 0, max: 20 }).map((value) => ({ value: value / 2, as: 'session' as const }))),
        arrival,
      }),
      { maxLength: 12 },
    )
    .map((all) =>
      all.map(({ days, hour, sets, minutes, effort, arrival: came }, n) => {
        const [first = ''] = exercises;
        const clean = sets.map((one) => withoutNone(one) as Partial<SetRecord>);
        const more = withoutNone({ minutes, effort }) as Partial<SessionRecord>;
        return trained(dayIn(days), first, clean, { hour, ...more, arrival: came, id: `r${n}` });
      }),
    );

/** Fails where `check` fails for one of many inputs of a kind. */
export const forAny = <T>(inputs: fc.Arbitrary<T>, check: (input: T) => void, numRuns = 150): void =>
  fc.assert(
    fc.property(inputs, (input) => {
      check(input);
    }),
    { numRuns },
  );

const withoutNone = (held: object): object =>
  Object.fromEntries(Object.entries(held).filter(([, value]) => value !== undefined));
