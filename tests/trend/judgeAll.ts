import { judgeTrend } from '../../src/analysis/trend';
import { MODEL, type TrendModel } from '../../src/analysis/trendModel';
import type { Judged } from './promise';
import type { History } from './world';

/** Returns each history with the engine's judgements of it; the engine is shown nothing of the truth. */
export function judgeAll(all: readonly History[], model: TrendModel = MODEL): Judged[] {
  return all.map((history) => {
    const { kind, exposures, target } = history;
    return { history, answers: judgeTrend({ kind, exposures, target }, { model }) };
  });
}
