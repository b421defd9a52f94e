import { beforeAll, describe, expect, test } from 'vitest';
import { type Judgement, judgeTrend } from '../../src/analysis/trend';
import { MODEL, type TrendModel } from '../../src/analysis/trendModel';
import { baseBars, easyThriceBars, easyTwiceBars, hardBars, missed, ruleBars } from './bars';
import { judgeAll } from './judgeAll';
import type { Judged } from './promise';
import { noNewBest } from './simpleRule';
import { type Asked, type History, histories } from './world';

/*
 * The bars of the trend engine on histories whose truth is known. The seeds were chosen before the first run; there are more histories than the bars
 * were set by, so that chance has less of a say in shares of plateaus (`bars.ts` has the room that is left to it).
 */

// a quarter of a minute is what the longest takes on a quiet machine
const MINUTES = 180_000;
const invented = (asked: Asked): readonly History[] => histories(asked).histories;
const BASE = { seed: 2101, preset: 'base', count: 2400 } as const;

test(
  'the base world: false alarms, stalls called, bands, chances, saying enough, and ahead of a simple rule',
  () => {
    const judged = judgeAll(invented(BASE));
    expect(missed(baseBars(judged))).toEqual([]);
    expect(missed(ruleBars(judged))).toEqual([]);
  },
  MINUTES,
);

test(
  'the easy world, twice a week',
  () => {
    const judged = judgeAll(invented({ seed: 2102, preset: 'easy', count: 800, perWeek: 2 }));
    expect(missed(easyTwiceBars(judged))).toEqual([]);
  },
  MINUTES,
);

test(
  'the easy world, thrice a week',
  () => {
    const judged = judgeAll(invented({ seed: 2103, preset: 'easy', count: 800, perWeek: 3 }));
    expect(missed(easyThriceBars(judged))).toEqual([]);
  },
  MINUTES,
);

test(
  'the hard world',
  () => {
    expect(missed(hardBars(judgeAll(invented({ seed: 2104, preset: 'hard', count: 400 }))))).toEqual([]);
  },
  MINUTES,
);

type Judge = (history: History, exposures: History['exposures']) => readonly Judgement[];
const engine: Judge = ({ kind, target }, exposures) => judgeTrend({ kind, exposures, target });

/** Returns the places of the exposures after which a judge says something else once more has come. */
function unlikeLater(judge: Judge, history: History): number[] {
  const all = judge(history, history.exposures);
  return history.exposures.flatMap((_, n) => {
    const then = judge(history, history.exposures.slice(0, n + 1));
    return JSON.stringify(then) === JSON.stringify(all.slice(0, n + 1)) ? [] : [n];
  });
}

describe('each judgement is by what was there', { timeout: MINUTES }, () => {
  const some = invented({ seed: 2105, preset: 'base', count: 24 });

  test('what comes later changes nothing', () => {
    expect(some.flatMap((history) => unlikeLater(engine, history))).toEqual([]);
  });

  test('the last alone is the last of all', () => {
    for (const { kind, exposures, target } of some) {
      const question = { kind, exposures, target };
      expect(judgeTrend(question, { last: true })).toEqual(judgeTrend(question).slice(-1));
    }
  });

  test('a judge who looks ahead is found', () => {
    const ahead: Judge = (history, exposures) => {
      const all = engine(history, exposures);
      return all.map((each, n) => all[n + 1] ?? each);
    };
    expect(unlikeLater(ahead, some[0]!).length).toBeGreaterThan(3);
  });
});

describe('bars can be missed', { timeout: MINUTES }, () => {
  const few = invented({ ...BASE, count: 600 });
  let judged: readonly Judged[] = [];
  beforeAll(() => {
    judged = judgeAll(few);
  }, MINUTES);
  const missedBy = (model: Partial<TrendModel>): string[] =>
    named(missed(baseBars(judgeAll(few, { ...MODEL, ...model }))));
  const missedSaying = (say: (answer: Judgement) => Judgement): string[] =>
    named(missed(baseBars(judged.map(({ history, answers }): Judged => ({ history, answers: answers.map(say) })))));
  const named = (bars: readonly string[]): string[] => bars.map((bar) => bar.replace(/: [^:]*$/, ''));

  test('without a personal rep curve bands are too narrow', () => {
    expect(missedBy({ repCurveSd: 0 })).toEqual(
      expect.arrayContaining(['base, 80 % band now', 'base, 80 % band 2', 'base, 95 % band now']),
    );
  });

  test('with too little noise believed, stalls are seen everywhere and bands are too narrow', () => {
    const noise = { e1rm: [0.4, 0.6, 0.8], reps: [0.4, 0.6, 0.8], deg: [0.6, 0.8, 1] };
    expect(missedBy({ noise })).toEqual(
      expect.arrayContaining(['base stalled, false alarms', 'base, 80 % band now', 'base, 95 % band now']),
    );
  });

  test('an engine that knows no stalls calls none', () => {
    expect(missedBy({ toStall: 0, firstProgress: 1 })).toEqual(
      expect.arrayContaining([
        'base stalled, called in 4 weeks',
        'base stalled, called in 6 weeks',
        'base watch, called in 4 weeks',
        'base watch, called in 6 weeks',
      ]),
    );
  });

  test('one that expects a stall every other week cries wolf', () => {
    expect(missedBy({ toStall: 0.5 })).toEqual(
      expect.arrayContaining(['base stalled, false alarms', 'base watch, false alarms']),
    );
  });

  test('no new best in 21 days is mostly a false alarm', () => {
    expect(named(missed(baseBars(noNewBest(judged, 21))))).toContain('base stalled, false alarms');
  });

  test('a rule is not ahead of itself', () => {
    const asRule = noNewBest(judged, 28).map(({ history, answers }) => ({
      history,
      answers: answers.map((answer) => ({ ...answer, pStall: answer.status === 'stalled' ? 0.9 : 0.1 })),
    }));
    expect(named(missed(ruleBars(asRule)))).toEqual([
      'ahead of the rule of 28 days at 4 weeks',
      'ahead of the rule of 28 days at 6 weeks',
    ]);
  });

  test('chances that are always sure, or always half, are worth less', () => {
    const sure = ({ pHit, ...rest }: Judgement): Judgement =>
      pHit === undefined ? rest : { ...rest, pHit: pHit > 0.5 ? 1 : 0 };
    expect(missedSaying(sure)).toEqual(expect.arrayContaining(['base chances, Brier', 'base chances, log']));
    const half = ({ pHit, ...rest }: Judgement): Judgement => (pHit === undefined ? rest : { ...rest, pHit: 0.5 });
    expect(missedSaying(half)).toEqual(expect.arrayContaining(['base chances, Brier', 'base chances, log']));
  });

  test('chances that are the wrong way round are found in every bin', () => {
    const wrong = ({ pHit, ...rest }: Judgement): Judgement =>
      pHit === undefined ? rest : { ...rest, pHit: 1 - pHit };
    expect(missedSaying(wrong)).toEqual(
      expect.arrayContaining(['base chances from 0, off by', 'base chances from 0.9, off by']),
    );
  });

  test('saying little is no way out', () => {
    const shy = (answer: Judgement): Judgement => (answer.slopeSd > 0.35 ? { ...answer, status: 'none' } : answer);
    expect(missedSaying(shy)).toContain('base, not enough data');
  });

  test('nor are bands as wide as a house, or levels that flatter', () => {
    const wide = (answer: Judgement): Judgement =>
      answer.level === undefined
        ? answer
        : { ...answer, lo80: answer.level * 0.8, hi80: answer.level * 1.2, level: answer.level * 1.05 };
    expect(missedSaying(wide)).toEqual(
      expect.arrayContaining(['base, width now', 'base, bias now', 'base, 80 % band now']),
    );
  });

  test('what is not said at all meets no bar', () => {
    const silent = ({ status, pStall, slopePerWeek, slopeSd }: Judgement): Judgement => ({
      status,
      pStall,
      slopePerWeek,
      slopeSd,
    });
    expect(missedSaying(silent)).toEqual(
      expect.arrayContaining(['base, 80 % band now', 'base, 95 % band 8', 'base chances, Brier', 'base, width now']),
    );
  });
});
