import type { TrendExposure } from '../../src/analysis/trendObserve';
import type { Judged } from './promise';
import { type Flag, type StallScore, stallScore } from './score';

/*
 * The rule that every trainer knows, "no new best in so many days", as a measure for whatever calls itself better.
 */

/** Returns the histories with answers that call a stall where the best is so many days old; lighter weeks that were noted are left out. */
export function noNewBest(judged: readonly Judged[], days: number): Judged[] {
  return judged.map(({ history, answers }) => {
    let best = Number.NEGATIVE_INFINITY;
    let bestDay = history.exposures[0]?.day ?? 0;
    return {
      history,
      answers: history.exposures.map((exposure, n) => {
        const reached = exposure.deload ? Number.NEGATIVE_INFINITY : bestOf(exposure);
        if (reached > best) [best, bestDay] = [reached, exposure.day];
        return { ...answers[n]!, status: exposure.day - bestDay >= days ? 'stalled' : 'ok' };
      }),
    };
  });
}

/** Load times 1 + reps/30, what was left counted in; the reps themselves without a load; degrees. */
function bestOf(exposure: TrendExposure): number {
  if ('value' in exposure) return exposure.value;
  return Math.max(
    ...exposure.sets.map(({ load, reps, rir }) => (load > 0 ? load * (1 + (reps + rir) / 30) : reps + rir)),
  );
}

/** Returns the score of the lowest threshold of P(stall) that raises no more false alarms than were given, and the threshold. */
export function atFalseAlarms(
  judged: readonly Judged[],
  most: number,
): { readonly threshold: number; readonly score: StallScore } | undefined {
  for (let hundredths = 20; hundredths < 100; hundredths += 1) {
    const threshold = hundredths / 100;
    const flag: Flag = ({ status, pStall }) => status !== 'none' && pStall >= threshold;
    const score = stallScore(judged, flag);
    if ((score.falseAlarms.share ?? 1) <= most) return { threshold, score };
  }
  return undefined;
}
