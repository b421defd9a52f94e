import * as fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { bandAt, follow } from '../../src/analysis/follow';
import { tracksOf } from '../../src/analysis/track';
import { addDays } from '../../src/domain/day';
import type { SessionRecord } from '../../src/domain/session';
import type { Load, LoadUnit } from '../../src/domain/units';
import {
  analysed,
  anyMasses,
  anySessions,
  anyTargets,
  clientOf,
  mirrored,
  NO_DAY,
  other,
  recordsOf,
} from './anyClient';
import { dayAt, FRONT_SQUAT, lift, sessionOn } from './made';
import { unsayable } from './walk';

/* What holds of every log there can be. */

// a busy machine is no fault
vi.setConfig({ testTimeout: 60_000 });

const RUNS = 80;
const TODAY = dayAt(120);

/** Returns what was said after each session of each track, by the track's name. */
const told = (sessions: readonly SessionRecord[], masses: Parameters<typeof clientOf>[1]) =>
  new Map(
    recordsOf(clientOf(sessions, masses)).flatMap(({ exercise, exposures, body }) =>
      tracksOf(exercise, exposures, body).map((track) => {
        const stops = follow(track).stops.map((one) => ({
          session: one.stop.session,
          judged: one.stop.judged,
          status: one.status,
          pStall: one.pStall,
          isBest: one.isBest,
          band: bandAt(one),
        }));
        return [[exercise.id, track.side, track.way, track.variant].join(), stops] as const;
      }),
    ),
  );

describe('whatever is logged', () => {
  test('no number is NaN or infinite, and JSON loses nothing', () =>
    fc.assert(
      fc.property(
        anySessions,
        anyMasses,
        anyTargets,
        fc.integer({ min: -400, max: 4000 }),
        (sessions, masses, targets, n) => {
          const all = analysed(clientOf(sessions, masses, targets), addDays(TODAY, n));
          expect(unsayable(all)).toEqual([]);
          expect(JSON.stringify(all)).not.toContain('null');
        },
      ),
      { numRuns: 2 * RUNS },
    ));

  test('a later session changes nothing that was said before it', () =>
    fc.assert(
      fc.property(anySessions, anyMasses, fc.nat(15), (sessions, masses, cut) => {
        const inOrder = sessions.filter((one) => one.start?.day !== NO_DAY).sort(byDayAndTime);
        const all = told(inOrder, masses);
        for (const [name, stops] of told(inOrder.slice(0, cut), masses))
          expect(all.get(name)?.slice(0, stops.length), name).toEqual(stops);
      }),
      { numRuns: RUNS },
    ));

  test('the order in which sessions are read does not matter', () =>
    fc.assert(
      fc.property(
        anySessions.chain((some) =>
          fc.tuple(fc.constant(some), fc.shuffledSubarray([...some], { minLength: some.length })),
        ),
        anyMasses,
        ([sessions, shuffled], masses) => {
          expect(analysed(clientOf(shuffled, masses), TODAY)).toEqual(analysed(clientOf(sessions, masses), TODAY));
        },
      ),
      { numRuns: RUNS },
    ));

  test('the same in pounds says the same', () =>
    fc.assert(
      fc.property(anySessions, (sessions) => {
        const [kg, lb] = [
          analysed(clientOf(allIn('kg', sessions)), TODAY),
          analysed(clientOf(allIn('lb', sessions)), TODAY),
        ];
        expect(kg.findings.map(({ type, exercise, side }) => [type, exercise, side]).sort()).toEqual(
          lb.findings.map(({ type, exercise, side }) => [type, exercise, side]).sort(),
        );
        const points = (of: typeof kg) =>
          of.series.flatMap(({ points: some }) =>
            some.flatMap(({ measured = 0, band, pStall }) => [
              measured,
              pStall,
              band?.mean ?? 0,
              band?.lo95 ?? 0,
              band?.hi95 ?? 0,
            ]),
          );
        const inLb = points(lb);
        for (const [n, one] of points(kg).entries())
          expect(Math.abs((inLb[n] ?? Number.NaN) - one)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(one)));
      }),
      { numRuns: RUNS },
    ));

  test('what is said of the left is said of the right, where left is right', () =>
    fc.assert(
      fc.property(anySessions, anyMasses, anyTargets, (sessions, masses, targets) => {
        const [one, two] = [sessions, mirrored(sessions)].map((some) =>
          analysed(clientOf(some, masses, targets), TODAY),
        );
        const back = (side: 'left' | 'right' | undefined) => (side ? other(side) : '');
        const said = (of: typeof one, sideOf: (side: 'left' | 'right' | undefined) => string) =>
          of?.findings
            .map(({ type, exercise, side, certainty, end: { level = 0, pStall, slope, used } }) =>
              JSON.stringify([exercise, sideOf(side), type, certainty, level, pStall, slope, used]),
            )
            .sort();
        expect(said(two, back)).toEqual(said(one, (side) => side ?? ''));
      }),
      { numRuns: RUNS },
    ));
});

/** As they were trained: two of one day by the clock, and then as they were logged. */
function byDayAndTime({ start: a, id }: SessionRecord, { start: b, id: later }: SessionRecord): number {
  const [one, two] = [a?.day ?? '', b?.day ?? ''];
  return one < two ? -1 : one > two ? 1 : (a?.at ?? 0) - (b?.at ?? 0) || (id < later ? -1 : 1);
}

const KG_A_POUND = 0.45359237;
/** Returns the same loads, all told in one unit: what stood in pounds is taken as so many kilograms. */
function allIn(unit: LoadUnit, sessions: readonly SessionRecord[]): readonly SessionRecord[] {
  const told1 = (load: Load): Load => ({ value: unit === 'kg' ? load.value : load.value / KG_A_POUND, unit });
  return sessions.map((session) => ({
    ...session,
    sets: session.sets.map((one) => ({
      ...one,
      ...(one.load ? { load: told1(one.load) } : {}),
      ...(one.added ? { added: told1(one.added) } : {}),
    })),
  }));
}

test('the random logs are worth something: they have doubts, growth, both sides, all ways and reached targets', () => {
  const seen = new Set<string>();
  for (const [sessions, masses, targets] of fc.sample(fc.tuple(anySessions, anyMasses, anyTargets), {
    numRuns: 600,
    seed: 1,
  })) {
    const { findings, series } = analysed(clientOf(sessions, masses, targets), TODAY);
    for (const { type, side = 'both', end } of findings) for (const what of [type, side, end.way]) seen.add(what);
    for (const { variant, chance, points } of series) {
      if (variant) seen.add('variant');
      if (chance !== undefined) seen.add('chance');
      if (points.some(({ atLeast }) => atLeast)) seen.add('bound');
    }
  }
  for (const what of [
    'not-enough',
    'growing',
    'maybe-stalled',
    'returning',
    'left',
    'right',
    'both',
    'held',
    'system',
    'reps',
    'degrees',
  ])
    expect(seen, what).toContain(what);
  for (const what of ['variant', 'chance', 'bound', 'behind', 'ahead', 'reached']) expect(seen, what).toContain(what);
});

test('an exercise that only one session tells of says so, and nothing else', () => {
  const one = sessionOn(dayAt(0), FRONT_SQUAT, [lift(100, 5, 2)]);
  const { findings, series } = analysed(clientOf([one]), dayAt(20));
  expect(findings.map(({ type }) => type)).toEqual(['not-enough']);
  expect(series[0]?.fan).toEqual([]);
  expect(series[0]?.points.map(({ status, band }) => [status, band])).toEqual([['none', undefined]]);
});
