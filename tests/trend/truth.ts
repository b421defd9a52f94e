import type { Chance } from '../../fixtures/demo/chance';
import type { TrendKind } from '../../src/analysis/trendModel';
import type { Preset, Range } from './preset';

/** What really is, day by day: nobody who trains or judges ever sees it. */
export type Truth = {
  /** Kg, reps or degrees of each day. */
  readonly level: readonly number[];
  /** A letter a day: P progresses by 0.5 u a week or more, G by 0.15 or more, S stalls, L is away or coming back. */
  readonly state: string;
  readonly plateau_day: number | null;
  readonly resume_day: number | null;
  /** First day away, and first day back. */
  readonly layoff: readonly [number, number] | null;
  readonly deload_weeks: readonly number[];
  readonly bad_days: readonly number[];
  /** Of each week's first day, u a week. */
  readonly rate: readonly number[];
  readonly kappa: number;
  /** Whether the level reaches the target on its day. */
  readonly hit: boolean;
};

/** What is drawn before anybody trains. `units` is the level in u. */
export type Course = Omit<Truth, 'hit' | 'bad_days' | 'kappa' | 'level'> & {
  readonly weeks: number;
  readonly units: readonly number[];
};

/** Returns a number between two, every one as likely. */
export const between = (chance: Chance, [from, to]: Range): number => from + (to - from) * chance.next();

/** Returns kg, reps or degrees of a level in u. */
export function amountOf(kind: TrendKind, units: number): number {
  if (kind === 'deg') return units;
  return kind === 'e1rm' ? Math.exp(units / 100) : 30 * (Math.exp(units / 100) - 1);
}

/** Returns how a capacity goes over 6 to 30 weeks: gains that wear off, a stall perhaps, lighter weeks and a time away. */
export function drawCourse(chance: Chance, kind: TrendKind, preset: Preset): Course {
  const weeks = chance.whole(6, 30);
  const days = weeks * 7 + 1;
  const gain = between(chance, preset.gain[kind]);
  const tau = between(chance, preset.tau[kind]);
  const stallAt = chance.is(preset.plateaus) ? Math.floor(7 * between(chance, [3, weeks - 2])) : null;
  const stallGain = between(chance, [-0.1, 0.1]);
  const resumesAt =
    stallAt !== null && chance.is(0.3) ? stallAt + Math.floor(7 * between(chance, [5, 9])) : Number.POSITIVE_INFINITY;
  const resume = resumesAt < days ? resumesAt : null;
  const lighter = chance.is(preset.deloads) ? everySoManyWeeks(chance.whole(4, 6), weeks) : [];
  const layoff = weeks >= 8 && chance.is(preset.layoffs) ? drawLayoff(chance, days) : null;
  const depth = between(chance, [1.5, 3]);

  const rateOn = (day: number): number => {
    const worn = gain * Math.exp(-day / 7 / tau);
    if (stallAt === null || day < stallAt) return worn;
    return resume !== null && day >= resume ? 0.8 * worn : stallGain;
  };
  let units = startOf(chance, kind);
  const levels: number[] = [];
  const states: string[] = [];
  for (let day = 0; day < days; day += 1) {
    levels.push(units - dipOn(day, layoff, depth));
    const isAway = layoff !== null && day >= layoff[0] && day < layoff[1];
    const isStalled = stallAt !== null && day >= stallAt && (resume === null || day < resume);
    const isComingBack = layoff !== null && day >= layoff[0] && day < layoff[1] + 21;
    states.push(isComingBack ? 'L' : isStalled || rateOn(day) < 0.15 ? 'S' : rateOn(day) >= 0.5 ? 'P' : 'G');
    if (!isAway) units += (rateOn(day) / 7) * (lighter.includes(Math.floor(day / 7)) ? 0.5 : 1);
  }
  return {
    weeks,
    units: levels,
    state: states.join(''),
    plateau_day: stallAt,
    resume_day: resume,
    layoff,
    deload_weeks: lighter,
    rate: Array.from({ length: weeks + 1 }, (_, week) => rateOn(7 * week)),
  };
}

const everySoManyWeeks = (period: number, weeks: number): number[] =>
  Array.from({ length: weeks }, (_, week) => week).filter((week) => (week + 1) % period === 0);

function drawLayoff(chance: Chance, days: number): [number, number] {
  const first = chance.whole(21, days - 22);
  return [first, first + chance.whole(7, 12)];
}

/** What the time away takes: more with each day, and back within two weeks. */
function dipOn(day: number, layoff: readonly [number, number] | null, depth: number): number {
  if (!layoff || day < layoff[0]) return 0;
  const [first, back] = layoff;
  if (day <= back) return (depth * (day - first)) / (back - first);
  return Math.max(0, depth * (1 - (day - back) / 14));
}

/** A lift of 40 to 180 kg, 2 to 6 reps, or 20 to 60 degrees. */
function startOf(chance: Chance, kind: TrendKind): number {
  if (kind === 'e1rm') return 100 * between(chance, [Math.log(40), Math.log(180)]);
  return kind === 'reps' ? 100 * Math.log(1 + between(chance, [2, 6]) / 30) : between(chance, [20, 60]);
}
