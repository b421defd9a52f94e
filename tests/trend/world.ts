import { type Chance, chanceOf } from '../../fixtures/demo/chance';
import type { TrendKind } from '../../src/analysis/trendModel';
import type { TrendExposure } from '../../src/analysis/trendObserve';
import { PRESETS, type Preset, type PresetName } from './preset';
import { drawHabit, train } from './training';
import { amountOf, between, type Course, drawCourse, type Truth } from './truth';

/** A history as a file of histories has it, with its truth. */
export type History = {
  readonly id: string;
  readonly kind: TrendKind;
  readonly per_week: number;
  readonly target: { readonly value: number; readonly day: number };
  readonly exposures: readonly TrendExposure[];
  readonly truth: Truth;
};

export type Histories = {
  readonly format: 'capacity-histories/1';
  readonly seed: number;
  readonly preset: PresetName;
  readonly histories: readonly History[];
};

export type Asked = {
  readonly seed: number;
  readonly preset: PresetName;
  readonly count: number;
  readonly perWeek?: number;
  readonly kind?: TrendKind;
};

/** Returns invented histories, the same for the same seed. One is drawn by its place alone: more of them begin with the same ones. */
export function histories({ seed, preset, count, perWeek, kind }: Asked): Histories {
  const { kinds } = PRESETS[preset];
  return {
    format: 'capacity-histories/1',
    seed,
    preset,
    histories: Array.from({ length: count }, (_, n) => {
      const chance = chanceOf(Math.imul(seed, 0x9e3779b1) ^ Math.imul(n + 1, 0x85ebca6b));
      return history(chance, `${preset}-${seed}-${n}`, kind ?? kinds[n % kinds.length]!, PRESETS[preset], perWeek);
    }),
  };
}

function history(chance: Chance, id: string, kind: TrendKind, preset: Preset, perWeek?: number): History {
  const course = drawCourse(chance, kind, preset);
  const habit = drawHabit(chance, kind, preset, course.weeks, perWeek);
  const { exposures, badDays } = train(chance, kind, preset, course, habit);
  const { weeks, units, ...told } = course;
  const level = units.map((each) => amountOf(kind, each));
  const target = { value: drawTarget(chance, kind, preset, course, habit.grain), day: 7 * weeks };
  // a history with next to nothing in it is nobody's question
  if (exposures.length < 3) return history(chance, id, kind, preset, perWeek);
  const hit = level[target.day]! >= target.value;
  return {
    id,
    kind,
    per_week: habit.perWeek,
    target,
    exposures,
    truth: { ...told, level, bad_days: badDays, kappa: habit.kappa, hit },
  };
}

/** What is wished for by the last day, in ignorance of all that comes: a usual gain for the time, more or less, from where it is thought to start. */
function drawTarget(chance: Chance, kind: TrendKind, preset: Preset, course: Course, grain: number): number {
  const usual = 30 * (1 - Math.exp(-course.weeks / 30));
  const start = course.units[0]! + (kind === 'e1rm' ? chance.around(preset.guess) : 0);
  const wished = amountOf(kind, start + usual * between(chance, [0.15, 1.15]));
  const step = kind === 'e1rm' ? grain : 1;
  return step * Math.round(wished / step);
}
