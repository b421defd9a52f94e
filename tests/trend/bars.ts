import type { Judged } from './promise';
import { isStalled, type Score, type Share, score, stallScore } from './score';
import { atFalseAlarms, noNewBest } from './simpleRule';

/*
 * What the trend engine must reach. The bars stand below (above) what it reached where it was chosen, by about twice the standard error of a
 * false alarm share or coverage there, so those need no more room here. Shares of plateaus that were called are of few plateaus: their bars stood
 * two and a half standard errors off at 115 of them, the engine's true share may lie one of those lower, and a bar of so many plateaus has
 * one standard error of their share taken off. So it is with being ahead of a rule.
 */

/** One figure, and what it must be between. */
export type Bar = { readonly what: string; readonly is: number; readonly least: number; readonly most: number };

/** Returns the names and figures of the bars that are not met; a figure that is missing meets none. */
export function missed(bars: readonly Bar[]): string[] {
  return bars
    .filter(({ is, least, most }) => !(least <= is && is <= most))
    .map(({ what, is }) => `${what}: ${is.toFixed(4)}`);
}

/** Returns the bars of the base world: false alarms, calls, coverage, chances, and saying enough. */
export function baseBars(judged: readonly Judged[]): Bar[] {
  const scored = score(judged);
  const { stalled, watch, bands, hits, none } = scored;
  return [
    most('base stalled, false alarms', stalled.falseAlarms.share, 0.08),
    detected('base stalled, called in 4 weeks', stalled.detected[4], 0.18),
    detected('base stalled, called in 6 weeks', stalled.detected[6], 0.4),
    most('base watch, false alarms', watch.falseAlarms.share, 0.32),
    detected('base watch, called in 4 weeks', watch.detected[4], 0.5),
    detected('base watch, called in 6 weeks', watch.detected[6], 0.75),
    ...coverageBars('base', scored, [0.73, 0.87], [0.91, 0.98]),
    most('base chances, Brier', hits?.brier, 0.115),
    most('base chances, log', hits?.log, 0.36),
    ...(hits?.bins ?? [])
      .filter(({ n }) => n >= 300)
      .map(({ from, said, came }) => most(`base chances from ${from}, off by`, Math.abs(said - came), 0.18)),
    most('base, not enough data', none, 0.25),
    most('base, width now', bands['now']?.width80, 0.135),
    between('base, bias now', bands['now']?.bias, -0.02, 0.02),
  ];
}

/** Returns the bars of the easy world at two sessions a week. */
export function easyTwiceBars(judged: readonly Judged[]): Bar[] {
  const scored = score(judged);
  const { stalled, watch } = scored;
  return [
    most('easy stalled, false alarms', stalled.falseAlarms.share, 0.05),
    detected('easy stalled, called in 6 weeks', stalled.detected[6], 0.4),
    most('easy watch, false alarms', watch.falseAlarms.share, 0.17),
    detected('easy watch, called in 4 weeks', watch.detected[4], 0.45),
    detected('easy watch, called in 6 weeks', watch.detected[6], 0.78),
    ...coverageBars('easy', scored, [0.72, 0.93]),
  ];
}

/** Returns the bars of the easy world at three sessions a week. */
export function easyThriceBars(judged: readonly Judged[]): Bar[] {
  const scored = score(judged);
  return [
    detected('easy, thrice a week, called in 6 weeks', scored.stalled.detected[6], 0.58),
    ...coverageBars('easy, thrice a week', scored, [0.72, 0.93]),
  ];
}

/** Returns the bars of the hard world. */
export function hardBars(judged: readonly Judged[]): Bar[] {
  return coverageBars('hard', score(judged), [0.6, 1]);
}

/** Returns by how much more plateaus are called than by "no new best in 28 days", at no more false alarms. */
export function ruleBars(judged: readonly Judged[]): Bar[] {
  const rule = stallScore(noNewBest(judged, 28), isStalled);
  const engine = atFalseAlarms(judged, rule.falseAlarms.share ?? 0)?.score;
  return ([4, 6] as const).map((weeks) => {
    const [ours, theirs] = [engine?.detected[weeks].share ?? Number.NaN, rule.detected[weeks]];
    const its = theirs.share ?? Number.NaN;
    // as if they were called of different plateaus; of the same ones it is a little less
    const room = Math.sqrt((ours * (1 - ours) + its * (1 - its)) / theirs.of);
    return between(`ahead of the rule of 28 days at ${weeks} weeks`, ours - its, 0.1 - room, 1);
  });
}

type Limits = readonly [least: number, most: number];

function coverageBars(world: string, { bands }: Score, in80: Limits, in95?: Limits): Bar[] {
  return ['now', '2', '4', '8'].flatMap((when) => [
    between(`${world}, 80 % band ${when}`, bands[when]?.cov80, ...in80),
    ...(in95 ? [between(`${world}, 95 % band ${when}`, bands[when]?.cov95, ...in95)] : []),
  ]);
}

const between = (what: string, is: number | undefined, least: number, most: number): Bar => ({
  what,
  is: is ?? Number.NaN,
  least,
  most,
});
const most = (what: string, is: number | undefined, limit: number): Bar => between(what, is, 0, limit);
const detected = (what: string, { share, of }: Share, bar: number): Bar =>
  between(what, share, bar - Math.sqrt((bar * (1 - bar)) / of), 1);
