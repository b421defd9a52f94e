import { type Day, instantAt, isDay } from './day';
import type { SessionRecord } from './session';
import { type Effort, goodOf, type SetRecord, type Side } from './set';
import { type Tried, triedIn, variantOf } from './tried';
import { type Distance, type Load, toKg, toMetres } from './units';

/*
 * One exercise in one session, as charts and series keep it: the set that stands for it on each side, and what the cues did. Derived
 * [M7]; what was not noted is not there.
 */

/** The set that stands for a side: the heaviest, longest or widest one that was worked with. */
export type Top = {
  readonly side?: Side;
  readonly load?: Load;
  readonly added?: Load;
  readonly assist?: Load;
  readonly band?: string;
  readonly pin?: string;
  readonly reps?: number;
  readonly seconds?: number;
  readonly degrees?: number;
  readonly distance?: Distance;
  readonly effort?: Effort;
  /** Landings and tries of the session, on this side. */
  readonly landings?: number;
  readonly tries?: number;
  /** Of these: how many were good, of how many that were judged. */
  readonly good?: number;
  readonly of?: number;
};

/** How often a cue was given, what it did, and in how many of its sets the form was clean, of those where it was noted. */
export type CueCount = {
  readonly cue: string;
  readonly given: number;
  readonly better: number;
  readonly same: number;
  readonly worse: number;
  readonly clean: number;
  readonly noted: number;
};

export type Exposure = {
  readonly session: string;
  readonly at: number;
  readonly day: string;
  /** Sets that count: no warm-ups, and assisted ones only where the help was told in numbers. */
  readonly sets: number;
  readonly tops: readonly Top[];
  readonly cues: readonly CueCount[];
  /** Sets with clean form, and sets whose form was noted. */
  readonly clean: number;
  readonly noted: number;
  /** The most pain told of in it. */
  readonly pain?: number;
  /** The sets that a trend is judged by, all of one variant, and how many of its working sets are not among them. */
  readonly tried?: readonly Tried[];
  readonly untried?: number;
  readonly variant?: string;
};

/** Returns a session as an exposure of one exercise; undefined where no set of it counts. */
export function exposureOf(session: SessionRecord, exercise: string): Exposure | undefined {
  const sets = session.sets.filter((set) => set.exercise === exercise && counts(set));
  const when = session.start ?? sets[0]?.at;
  if (!when || sets.length === 0) return undefined;
  const pains = session.sets.flatMap((set) => (set.exercise === exercise && set.pain ? [set.pain.value] : []));
  return {
    session: session.id,
    at: when.at,
    day: when.day,
    sets: sets.length,
    tops: topsOf(sets),
    cues: cueCounts(sets),
    ...formOf(sets),
    ...(pains.length > 0 ? { pain: Math.max(...pains) } : {}),
    ...judgedBy(sets),
  };
}

function judgedBy(sets: readonly SetRecord[]): Pick<Exposure, 'tried' | 'untried' | 'variant'> {
  const last = sets.findLast((set) => set.kind !== 'back-off') ?? sets.at(-1);
  const variant = last ? variantOf(last) : '';
  const { tried, untried } = triedIn(sets.filter((set) => variantOf(set) === variant));
  const others = sets.filter((set) => variantOf(set) !== variant).length;
  return {
    ...(tried.length > 0 ? { tried } : {}),
    ...(untried + others > 0 ? { untried: untried + others } : {}),
    ...(variant === '' ? {} : { variant }),
  };
}

// with a helping hand nobody knows what was lifted; with 20 kg taken off one does
const counts = (set: SetRecord): boolean =>
  set.kind !== 'warm-up' && (set.kind !== 'assisted' || set.assist !== undefined);

function topsOf(sets: readonly SetRecord[]): readonly Top[] {
  const worked = sets.filter((set) => set.kind !== 'back-off' && set.ended !== 'missed' && set.unread.length === 0);
  const sides = [...new Set(worked.map((set) => set.side))];
  return sides.flatMap((side) => {
    const own = worked.filter((set) => set.side === side);
    // of equal ones the last of which effort was noted
    const top = own.reduce((best, set) => {
      const apart = weigh(set, best);
      return apart > 0 || (apart === 0 && set.effort) ? set : best;
    });
    const judged = own.flatMap((set) => goodOf(set) ?? []);
    const { load, added, assist, band, pin, reps, seconds, degrees, distance, effort } = top;
    const known = { side, load, added, assist, band, pin, reps, seconds, degrees, distance, effort };
    const held = own.flatMap((set) => [set, ...set.parts]);
    const total = { landings: totalOf(held, 'landings'), tries: totalOf(held, 'tries') };
    const all = { ...known, ...total, good: totalOf(judged, 'good'), of: totalOf(judged, 'of') };
    return [Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as Top];
  });
}

/** Returns the sum of what was noted under a name; undefined where nothing was. */
function totalOf<Name extends string>(
  things: readonly { readonly [N in Name]?: number | undefined }[],
  name: Name,
): number | undefined {
  const noted = things.flatMap((thing) => thing[name] ?? []);
  return noted.length === 0 ? undefined : noted.reduce((sum, one) => sum + one, 0);
}

/** Returns above 0 where `a` is the more: by load (help taken off), then pin, degrees, seconds, distance and reps. */
function weigh(a: SetRecord, b: SetRecord): number {
  const measures: readonly ((set: SetRecord) => number)[] = [
    (set) => kgOf(set),
    (set) => Number(set.pin ?? 0) || 0,
    (set) => set.degrees ?? 0,
    (set) => (set.distance ? toMetres(set.distance) : 0),
    (set) => set.seconds ?? 0,
    (set) => set.reps ?? 0,
  ];
  return measures.map((of) => of(a) - of(b)).find((apart) => apart !== 0) ?? 0;
}

const kgOf = ({ load, added, assist }: SetRecord): number =>
  load ? toKg(load) : added ? toKg(added) : assist ? -toKg(assist) : 0;

function cueCounts(sets: readonly SetRecord[]): readonly CueCount[] {
  const cues = [...new Set(sets.flatMap((set) => set.cues.map((use) => use.cue)))].sort();
  return cues.map((cue) => {
    const own = sets.filter((set) => set.cues.some((use) => use.cue === cue));
    const answers = own.flatMap((set) => set.cues.filter((use) => use.cue === cue).map((use) => use.answer));
    const count = (answer: string): number => answers.filter((one) => one === answer).length;
    return {
      cue,
      // two copies that were merged may each hold a use in one set
      given: answers.length,
      better: count('better'),
      same: count('same'),
      worse: count('worse'),
      ...formOf(own),
    };
  });
}

const formOf = (sets: readonly SetRecord[]): { readonly clean: number; readonly noted: number } => ({
  clean: sets.filter((set) => set.form === 'clean').length,
  noted: sets.filter((set) => set.form !== undefined).length,
});

/** Returns the day an exposure bears; where no such day exists, that of its instant. */
export const dayOf = ({ day, at }: Pick<Exposure, 'day' | 'at'>): Day => (isDay(day) ? day : instantAt(at, 'UTC').day);

/** Returns exposures in the order of their days: after a flight the later session may bear the earlier day. */
export function byDay<T extends Pick<Exposure, 'day' | 'at'>>(exposures: readonly T[]): readonly T[] {
  // a day is read once, not at every comparison
  const dated = exposures.map((one) => ({ one, day: dayOf(one) }));
  dated.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.one.at - b.one.at));
  return dated.map(({ one }) => one);
}
