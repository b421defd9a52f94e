import { type Entry, FIELDS, type Field, type Fields, fieldsFrom, NO_TEXTS } from './entry';
import type { Exercise } from './exercise';
import type { BodyWay, SetKind, SetRecord, Side } from './set';
import type { SetUpTexts } from './setUp';
import type { DistanceUnit, LoadUnit } from './units';

/** What the pad has of its own: the exercise in hand, and whatever was changed since the last set. All else is prefilled. */
export type PadDraft = Partial<Omit<Entry, 'setUp'>> & { readonly exercise: string };

/** What a load and a distance are typed in where nothing says otherwise. */
export type Units = { readonly load: LoadUnit; readonly distance: DistanceUnit };

export type Past = {
  /** Today's sets of the exercise, in order. */
  readonly today: readonly SetRecord[];
  /** The sets of the last session that held it, in order; empty where there is none. */
  readonly lastTime: readonly SetRecord[];
};

/**
 * Returns the next set as the pad shows it before anything is typed: what the last set of the same kind and side held today, else last
 * time; and over it what the draft says. Only what a set holds is prefilled, never what has to be observed.
 *
 * With sides apart, the side that is behind comes next. It takes the numbers of the side just done, unless the two were unequal on
 * the round before: then it keeps its own.
 */
export function prefill(exercise: Exercise, draft: PadDraft, past: Past, setUp: SetUpTexts, units: Units): Entry {
  const kind = draft.kind ?? past.today.at(-1)?.kind ?? 'working';
  const side = exercise.sides === 'each' ? (draft.side ?? nextSide(past, kind)) : null;
  const source = sourceOf(past, kind, side);
  const held = fieldsFrom(source ?? {});
  const body = draft.body ?? (source ? held.body : bodyFor(kind));
  // what is seen of a set is never prefilled
  const fields: Record<Field, string> = { ...NO_TEXTS };
  for (const field of FIELDS) fields[field] = draft[field] ?? (field === 'good' ? '' : held[field]);
  const parts = draft.parts ?? (source?.kind === kind ? source.parts.map((part) => fieldsFrom(part)) : []);
  return {
    ...fields,
    exercise: exercise.id,
    kind,
    side,
    unit: draft.unit ?? held.unit ?? units.load,
    distanceUnit: draft.distanceUnit ?? held.distanceUnit ?? units.distance,
    body,
    direction: draft.direction === undefined ? (source?.direction ?? null) : draft.direction,
    marks: draft.marks ?? [],
    smooth: draft.smooth ?? null,
    parts: parts.map(textsOf),
    setUp,
    in: draft.in ?? null,
  };
}

/** Returns the side whose turn it is: the one that is behind today in sets of the kind, else the one that began. */
export function nextSide(past: Past, kind: SetKind): Side {
  const own = past.today.filter((set) => set.kind === kind);
  const left = own.filter((set) => set.side === 'left').length;
  const right = own.filter((set) => set.side === 'right').length;
  if (left !== right) return left < right ? 'left' : 'right';
  return own.find((set) => set.side)?.side ?? past.lastTime.find((set) => set.side)?.side ?? 'left';
}

/** Returns whether a side is done and the other is due, so that no rest lies between. */
export function otherSideDue(exercise: Exercise, today: readonly SetRecord[]): boolean {
  const last = today.at(-1);
  if (exercise.sides !== 'each' || !last?.side) return false;
  return (
    nextSide({ today, lastTime: [] }, last.kind ?? 'working') !== last.side && isUneven(today, last.kind ?? 'working')
  );
}

/**
 * Returns the `count` values that a number's control offers, ascending: the current one, then the latest different ones of today and last
 * time, filled up with steps around the current one.
 */
export function offeredValues(
  current: number | null,
  recent: readonly number[],
  step: number,
  min: number,
  count: number,
  max = Number.POSITIVE_INFINITY,
): readonly number[] {
  const values = new Set<number>();
  const add = (value: number): void => {
    if (values.size < count && value >= min && value <= max) values.add(Math.round(value * 1000) / 1000);
  };
  const centre = current ?? recent[0] ?? min;
  add(centre);
  for (const value of recent) add(value);
  for (let n = 1; values.size < count && (centre - n * step >= min || centre + n * step <= max); n += 1) {
    add(centre + n * step);
    add(centre - n * step);
  }
  return [...values].sort((a, b) => a - b);
}

/** Returns what a field held in these sets, the latest first, as numbers. */
export function recentOf(field: Field, sets: readonly SetRecord[]): readonly number[] {
  const values = [...sets].reverse().flatMap((set) => {
    const text = fieldsFrom(set)[field];
    return text === '' || Number.isNaN(Number(text)) ? [] : [Number(text)];
  });
  return [...new Set(values)];
}

/** Shares of the working load and the reps of a warm-up ramp; common practice, light and few. */
const RAMP = [
  { share: 0.4, reps: 5 },
  { share: 0.6, reps: 3 },
  { share: 0.8, reps: 2 },
] as const;

/**
 * Returns the warm-up ramp up to an entry's load, each step rounded to what the exercise can be loaded by; empty where the entry holds no
 * load to ramp up to. Last time's own ramp is taken instead where it led to the same load.
 */
export function rampTo(entry: Entry, exercise: Exercise, lastTime: readonly SetRecord[]): readonly Entry[] {
  const load = Number(entry.load.replace(',', '.'));
  if (exercise.holds !== 'load' || entry.load.trim() === '' || !(load > 0)) return [];
  const step = (fields: Partial<Fields>): Entry => ({ ...entry, ...fields, kind: 'warm-up', parts: [] });
  const own = lastTime.filter(
    (set) => set.kind === 'warm-up' && set.load?.unit === entry.unit && set.reps !== undefined,
  );
  const ledTo = lastTime.find((set) => set.kind === 'working')?.load;
  if (own.length > 0 && ledTo?.value === load && ledTo.unit === entry.unit) {
    return own.map((set) => step({ load: String(set.load?.value), reps: String(set.reps) }));
  }
  const loads = RAMP.map(({ share, reps }) => ({ load: rounded(load * share, exercise.step), reps }));
  const rising = loads.filter(({ load: one }, index) => one > (loads[index - 1]?.load ?? 0) && one < load);
  return rising.map(({ load: one, reps }) => step({ load: String(one), reps: String(reps) }));
}

/** Returns a load less a share, rounded to what the exercise can be loaded by: 57.5 less 30 % by 2.5 is 40. */
export function lessShare(load: number, share: number, step: number): number {
  return rounded(load * (1 - share), step);
}

const rounded = (load: number, step: number): number => Math.round(Math.round(load / step) * step * 1000) / 1000;

const bodyFor = (kind: SetKind): BodyWay => (kind === 'assisted' ? 'assist' : 'alone');

const textsOf = (from: Fields): Fields =>
  Object.fromEntries(FIELDS.map((field) => [field, field === 'good' ? '' : from[field]])) as Fields;

const isUneven = (today: readonly SetRecord[], kind: SetKind): boolean => {
  const own = today.filter((set) => set.kind === kind && set.side);
  return own.filter((set) => set.side === 'left').length * 2 !== own.length;
};

function sourceOf({ today, lastTime }: Past, kind: SetKind, side: Side | null): SetRecord | undefined {
  const same = (set: SetRecord): boolean => set.kind === kind && (side === null || set.side === side);
  const own = today.filter(same).at(-1) ?? lastTime.find(same);
  const justDone = today.at(-1);
  const inRound = side !== null && justDone?.kind === kind && justDone.side !== side && isUneven(today, kind);
  if (inRound && justDone.side) {
    const round = [...lastTime, ...today.slice(0, -1)].filter((set) => set.kind === kind && set.side === justDone.side);
    const other = round.at(-1);
    return own && other && !holdTheSame(own, other) ? own : justDone;
  }
  if (own) return own;
  // nothing of this kind yet: the nearest thing is what was worked with
  const worked = (set: SetRecord): boolean => set.kind !== 'warm-up' && (side === null || set.side === side);
  return today.filter(worked).at(-1) ?? lastTime.find(worked);
}

function holdTheSame(a: SetRecord, b: SetRecord): boolean {
  const [one, other] = [fieldsFrom(a), fieldsFrom(b)];
  return (Object.keys(one) as (keyof typeof one)[]).every((field) => one[field] === other[field]);
}
