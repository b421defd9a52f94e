import { describe, expect, test } from 'vitest';
import type { Judgement } from '../../src/analysis/trend';
import type { Judged } from './promise';
import { score } from './score';

/** What a hand-made history has that matters here; all of it can be counted with a finger. */
type Made = {
  readonly state?: string;
  readonly plateau?: number;
  readonly days: readonly number[];
  /** Days of the exposures after which a stall is called, or watched for. */
  readonly stalledOn?: readonly number[];
  readonly watchOn?: readonly number[];
  readonly noneOn?: readonly number[];
  readonly level?: readonly number[];
  readonly hit?: boolean;
  readonly said?: (day: number) => Partial<Judgement>;
};

function made({ state = '', plateau, days, stalledOn, watchOn, noneOn, level = [], hit = false, said }: Made): Judged {
  const statusOn = (day: number): Judgement['status'] => {
    if (stalledOn?.includes(day)) return 'stalled';
    if (watchOn?.includes(day)) return 'watch';
    return noneOn?.includes(day) ? 'none' : 'ok';
  };
  return {
    history: {
      id: 'made',
      kind: 'deg',
      per_week: 1,
      target: { value: 1, day: level.length },
      exposures: days.map((day) => ({ day, deload: false, value: 1 })),
      truth: {
        level,
        state,
        plateau_day: plateau ?? null,
        resume_day: null,
        layoff: null,
        deload_weeks: [],
        bad_days: [],
        rate: [],
        kappa: 1,
        hit,
      },
    },
    answers: days.map((day) => ({ status: statusOn(day), pStall: 0, slopePerWeek: 0, slopeSd: 0, ...said?.(day) })),
  };
}

const every = (step: number, until: number): number[] =>
  Array.from({ length: Math.ceil(until / step) }, (_, n) => n * step);
const P = (days: number): string => 'P'.repeat(days);
const S = (days: number): string => 'S'.repeat(days);

describe('false alarms', () => {
  const alarms = (...of: Made[]): unknown => score(of.map(made)).stalled.falseAlarms;

  test('are counted by stretches of 56 days of progress, one after the other', () => {
    const days = every(7, 120);
    expect(alarms({ state: P(120), days })).toEqual({ share: 0, of: 2 });
    expect(alarms({ state: P(120), days, stalledOn: [56] })).toEqual({ share: 0.5, of: 2 });
    expect(alarms({ state: P(120), days, stalledOn: [7, 49] })).toEqual({ share: 0.5, of: 2 });
    expect(alarms({ state: P(120), days, stalledOn: [49, 56] })).toEqual({ share: 1, of: 2 });
    // in the eight days that are left over
    expect(alarms({ state: P(120), days, stalledOn: [112] })).toEqual({ share: 0, of: 2 });
    expect(alarms({ state: P(55), days: every(7, 55), stalledOn: [7] })).toEqual({ share: undefined, of: 0 });
  });

  test('begin anew after each day of anything else', () => {
    const days = every(7, 112);
    expect(alarms({ state: `${P(50)}G${P(61)}`, days, stalledOn: [49] })).toEqual({ share: 0, of: 1 });
    expect(alarms({ state: `${P(50)}G${P(61)}`, days, stalledOn: [56] })).toEqual({ share: 1, of: 1 });
    expect(alarms({ state: `${P(55)}L${P(55)}`, days })).toEqual({ share: undefined, of: 0 });
  });

  test('need six exposures in the stretch', () => {
    expect(alarms({ state: P(56), days: [0, 10, 20, 30, 40], stalledOn: [20] })).toEqual({ share: undefined, of: 0 });
    expect(alarms({ state: P(56), days: [0, 10, 20, 30, 40, 55], stalledOn: [55] })).toEqual({ share: 1, of: 1 });
  });

  test('of the watch tier are the calls too', () => {
    const days = every(7, 112);
    const { watch, stalled } = score([made({ state: P(112), days, watchOn: [7], stalledOn: [70] })]);
    expect(watch.falseAlarms).toEqual({ share: 1, of: 2 });
    expect(stalled.falseAlarms).toEqual({ share: 0.5, of: 2 });
  });
});

describe('plateaus', () => {
  const plateau = { state: P(30) + S(43), plateau: 30, days: every(3, 73) };
  const stall = (...of: Made[]) => score(of.map(made)).stalled;

  test('are called within weeks after their day', () => {
    const { detected, delay } = stall({ ...plateau, stalledOn: [48, 51] });
    expect(detected).toEqual({
      2: { share: 0, of: 1 },
      3: { share: 1, of: 1 },
      4: { share: 1, of: 1 },
      6: { share: 1, of: 1 },
    });
    expect(delay).toBeCloseTo(18 / 7);
    expect(stall({ ...plateau, stalledOn: [51] }).detected[3]).toEqual({ share: 1, of: 1 });
    expect(stall({ ...plateau, stalledOn: [54] }).detected[3]).toEqual({ share: 0, of: 1 });
  });

  test('are not called by what came before, nor on the day itself', () => {
    const early = stall({ ...plateau, stalledOn: [27, 30] });
    expect(early.detected[6]).toEqual({ share: 0, of: 1 });
    expect(early.detectedAnew[6]).toEqual({ share: undefined, of: 0 });
    expect(stall({ ...plateau, stalledOn: [24, 33] }).detectedAnew[2]).toEqual({ share: 1, of: 1 });
  });

  test('count for the weeks that they last', () => {
    const { detected, delay } = stall({ ...plateau, state: `${P(30) + S(25)}PPP` });
    expect(Object.values(detected).map(({ of }) => of)).toEqual([1, 1, 0, 0]);
    expect(delay).toBeUndefined();
  });

  test('need three weeks of progress and six exposures before', () => {
    const of = (...all: Made[]): number => stall(...all).detected[2].of;
    expect(of({ ...plateau, state: P(20) + S(40), plateau: 20 })).toBe(0);
    expect(of({ ...plateau, state: `${P(12)}G${P(17)}${S(40)}` })).toBe(0);
    expect(of({ ...plateau, state: `${P(8)}G${P(21)}${S(40)}` })).toBe(1);
    expect(of({ ...plateau, days: [0, 5, 10, 15, 20, 33, 40] })).toBe(0);
    expect(of({ ...plateau, days: [0, 5, 10, 15, 20, 29, 40] })).toBe(1);
    expect(of({ state: P(80), days: every(3, 80) })).toBe(0);
  });

  test('have a delay in the middle of all, called or not', () => {
    const three = [
      { ...plateau, stalledOn: [36] },
      { ...plateau, stalledOn: [51] },
      { ...plateau, stalledOn: [] },
    ];
    expect(stall(...three).delay).toBe(3);
    expect(stall(three[0]!, three[2]!, three[2]!).delay).toBe(Number.POSITIVE_INFINITY);
    expect(stall(...three).detected[4].share).toBeCloseTo(2 / 3);
  });
});

test('bands hold the truth of their own day', () => {
  const level = [...Array.from({ length: 20 }, () => 100), ...Array.from({ length: 10 }, () => 50)];
  const band = (lo80: number, hi80: number, lo95: number, hi95: number) => ({ lo80, hi80, lo95, hi95 });
  const said = (day: number): Partial<Judgement> => {
    if (day === 0) return {};
    if (day === 1)
      return { level: 102, ...band(100, 110, 90, 120), ahead: { '2': { mean: 99, ...band(80, 99, 70, 100) } } };
    if (day === 2) return { level: 90, ...band(80, 99, 70, 101) };
    // two weeks after the tenth day it is 50, and four weeks after is too late to be known
    return {
      level: 130,
      ...band(120, 140, 110, 150),
      ahead: { '2': { mean: 60, ...band(45, 70, 40, 80) }, '4': { mean: 60, ...band(45, 70, 40, 80) } },
    };
  };
  const { bands } = score([made({ level, days: [0, 1, 2, 10], said })]);
  expect(Object.keys(bands).toSorted()).toEqual(['2', 'now']);
  const now = bands['now']!;
  expect(now.n).toBe(3);
  expect(now.cov80).toBeCloseTo(1 / 3);
  expect(now.cov95).toBeCloseTo(2 / 3);
  expect(now.width80).toBeCloseTo((0.1 + 0.19 + 0.2) / 3);
  expect(now.bias).toBeCloseTo((0.02 - 0.1 + 0.3) / 3);
  const ahead = bands['2']!;
  expect(ahead.n).toBe(2);
  expect(ahead.cov80).toBe(0.5);
  expect(ahead.cov95).toBe(1);
  expect(ahead.width80).toBeCloseTo((0.19 + 0.5) / 2);
  expect(ahead.bias).toBeCloseTo((-0.01 + 0.2) / 2);
});

test('chances are worth what came of them', () => {
  const chances: Record<number, number> = { 1: 0.8, 2: 0.85, 3: 1 };
  const said = (day: number): Partial<Judgement> => (day in chances ? { pHit: chances[day]! } : {});
  const reached = made({ days: [0, 1, 2, 3], hit: true, said });
  const missed = made({ days: [1, 3], hit: false, said });
  const { hits } = score([reached, missed]);
  expect(hits?.n).toBe(5);
  expect(hits?.brier).toBeCloseTo((0.04 + 0.0225 + 0 + 0.64 + 1) / 5);
  expect(hits?.brierOfShare).toBeCloseTo(0.24);
  // −ln 0.8, −ln 0.85, −ln 1, −ln 0.2, and −ln 0.005 where it was said to be sure
  expect(hits?.log).toBeCloseTo((0.22314 + 0.16252 + 0 + 1.60944 + 5.29832) / 5, 4);
  expect(hits?.bins.map(({ from, n }) => [from, n])).toEqual([
    [0.8, 3],
    [0.9, 2],
  ]);
  expect(hits?.bins[0]?.said).toBeCloseTo(2.45 / 3);
  expect(hits?.bins[0]?.came).toBeCloseTo(2 / 3);
  expect(hits?.bins[1]).toMatchObject({ said: 1, came: 0.5 });
});

test('what is not said is counted, and scores nothing', () => {
  const { none, hits, bands } = score([made({ days: [0, 1, 2, 3], noneOn: [0, 1, 2], level: [1, 1, 1, 1] })]);
  expect(none).toBe(0.75);
  expect(hits).toBeUndefined();
  expect(bands).toEqual({});
});
