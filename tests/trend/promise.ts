import type { Judgement } from '../../src/analysis/trend';
import type { History } from './world';

/** A history and a judgement for each of its exposures. */
export type Judged = { readonly history: History; readonly answers: readonly Judgement[] };

/** How often a band of 80 and 95 % holds the truth. */
export type Covered = {
  readonly n: number;
  readonly cov80: number;
  readonly cov95: number;
  /** Width of the 80 % band and error of the level, as shares of the truth. */
  readonly width80: number;
  readonly bias: number;
};

export type Bin = { readonly from: number; readonly n: number; readonly said: number; readonly came: number };

/** What chances of a target were worth. */
export type Foretold = {
  readonly n: number;
  /** The mean square of what was said against what came, and what it would be with the share of hits said each time. */
  readonly brier: number;
  readonly brierOfShare: number;
  /** The mean of −ln of the chance that was given to what came, no chance below 0.005. */
  readonly log: number;
  /** By tenths of what was said; the empty left out. */
  readonly bins: readonly Bin[];
};

/** Returns how the bands of now and of 2, 4 and 8 weeks ahead hold the truth, where both are known. */
export function coverage(judged: readonly Judged[]): Record<string, Covered> {
  const tallies: Record<string, Tally> = { now: tally(), 2: tally(), 4: tally(), 8: tally() };
  for (const { history, answers } of judged) {
    for (const [n, answer] of answers.entries()) {
      const { day } = history.exposures[n]!;
      for (const [when, into] of Object.entries(tallies)) {
        const truth = history.truth.level[when === 'now' ? day : day + 7 * Number(when)];
        const band = bandOf(answer, when);
        if (truth !== undefined && band) add(into, truth, band);
      }
    }
  }
  return Object.fromEntries(
    Object.entries(tallies)
      .filter(([, { n }]) => n > 0)
      .map(([when, { n, ...sums }]) => [
        when,
        { n, cov80: sums.in80 / n, cov95: sums.in95 / n, width80: sums.width80 / n, bias: sums.bias / n },
      ]),
  );
}

type Tally = { n: number; in80: number; in95: number; width80: number; bias: number };
const tally = (): Tally => ({ n: 0, in80: 0, in95: 0, width80: 0, bias: 0 });

type Band = {
  readonly mean: number;
  readonly lo80: number;
  readonly hi80: number;
  readonly lo95: number;
  readonly hi95: number;
};

function bandOf({ level, lo80, hi80, lo95, hi95, ahead }: Judgement, when: string): Band | undefined {
  if (when !== 'now') return ahead?.[when];
  if (level === undefined || lo80 === undefined || hi80 === undefined || lo95 === undefined || hi95 === undefined)
    return undefined;
  return { mean: level, lo80, hi80, lo95, hi95 };
}

function add(into: Tally, truth: number, { mean, lo80, hi80, lo95, hi95 }: Band): void {
  into.n += 1;
  if (lo80 <= truth && truth <= hi80) into.in80 += 1;
  if (lo95 <= truth && truth <= hi95) into.in95 += 1;
  into.width80 += (hi80 - lo80) / truth;
  into.bias += mean / truth - 1;
}

/** Returns what the chances of the targets were worth; undefined where none were said. */
export function foretelling(judged: readonly Judged[]): Foretold | undefined {
  const said = judged.flatMap(({ history, answers }) =>
    answers.flatMap(({ pHit }) => (pHit === undefined ? [] : [{ chance: pHit, came: history.truth.hit ? 1 : 0 }])),
  );
  if (said.length === 0) return undefined;
  const mean = (of: readonly number[]): number => of.reduce((sum, each) => sum + each, 0) / of.length;
  const share = mean(said.map(({ came }) => came));
  const bins = Array.from({ length: 10 }, (_, n) => {
    const within = said.filter(({ chance }) => Math.min(9, Math.floor(10 * chance)) === n);
    return {
      from: n / 10,
      n: within.length,
      said: mean(within.map(({ chance }) => chance)),
      came: mean(within.map(({ came }) => came)),
    };
  });
  return {
    n: said.length,
    brier: mean(said.map(({ chance, came }) => (chance - came) ** 2)),
    brierOfShare: share * (1 - share),
    log: mean(said.map(({ chance, came }) => -Math.log(Math.max(0.005, came === 1 ? chance : 1 - chance)))),
    bins: bins.filter(({ n }) => n > 0),
  };
}
