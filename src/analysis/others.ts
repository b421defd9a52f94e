import { addDays, type Day } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import { cameInOf, daysBelow, daysOf } from './cameIn';
import { carries } from './carries';
import { cueEffect } from './cueEffect';
import { type CueUses, cueUses } from './cueUses';
import { timeWeeks, volumeWeeks } from './exerciseWeeks';
import { hardSets } from './hardSets';
import { landingLoad, landingWeeks } from './landingLoad';
import { landingQuality } from './landingQuality';
import { sideLearning } from './learningCurve';
import { maxLately } from './maxLately';
import { movedIn } from './moved';
import { rangeChange } from './realChange';
import { dayLoads, loadLines, loadWeeks, restDays } from './sessionLoad';
import { FEWEST_PAIRS, knownError, ownError, type SidesError, sides, sideUnit } from './sides';
import type { ClientRecord, Studio } from './studio';
import { tonnage, totalTonnage } from './tonnage';
import { partialWeeks, usualWeek } from './usualWeek';
import { inOrder, weekOf } from './weeks';

/*
 * What the other methods say of one client, as data: tonnage and hard sets by week, carries, time under tension, relative volume, whole-session load, how
 * they came in, landings, sides, cues, ranges, learning.
 */

type InSteps = ReturnType<typeof othersInSteps>;
export type Others = InSteps extends Generator<undefined, infer T> ? T : never;

/**
 * Returns it as of a day, of a client as was known by then (`knownBy`); `pool` holds the cues of the coach's other clients (`usesOf`), which own ones are
 * pooled with. A day that was confirmed to be of rest is known; one that nothing was logged of is not.
 */
export const othersOf = (
  client: ClientRecord,
  pool: readonly (readonly CueUses[])[],
  studio: Pick<Studio, 'exercises' | 'firstDay'>,
  asOf: Day,
): Others => whole(othersInSteps(client, pool, studio, asOf));

/** Returns what steps come to, all done at once. */
export function whole<T>(steps: Generator<undefined, T>): T {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** Returns the same as `othersOf`, worked out in steps with room between them. */
export function* othersInSteps(
  client: ClientRecord,
  pool: readonly (readonly CueUses[])[],
  studio: Pick<Studio, 'exercises' | 'firstDay'>,
  asOf: Day,
) {
  const { sessions, otherWork, masses, level } = client;
  const { exercises, firstDay } = studio;
  const weeks = tonnage({ sessions, exercises, body: { masses }, firstDay });
  const total = totalTonnage(weeks);
  const setApart = partialWeeks(sessions, firstDay);
  const week = addDays(weekOf(asOf, firstDay), -7);
  const usual = { week, today: asOf, setApart };
  yield;
  const cameDays = daysOf(sessions);
  const came = cameDays.at(-1);
  const days = dayLoads({ sessions, otherWork, rests: restDays(otherWork) }, firstDayIn(client) ?? asOf, asOf);
  const own = idsIn(client).flatMap((id) => exercises.get(id) ?? []);
  yield;
  const sidesOf: ReturnType<typeof sidesIn>[number][] = [];
  const maxes = new Map<string, (day: Day) => number | undefined>();
  const time: ReturnType<typeof timeWeeks>[number][] = [];
  const volume: ReturnType<typeof volumeWeeks>[number][] = [];
  const learning: ReturnType<typeof learningIn>[number][] = [];
  for (const one of own) {
    sidesOf.push(...sidesIn(client, one));
    learning.push(...learningIn(client, one));
    yield;
    time.push(...timeWeeks(sessions, one, firstDay));
    const maxOn = maxLately(sessions, one, { masses });
    maxes.set(one.id, maxOn);
    volume.push(...volumeWeeks(sessions, one, { body: { masses }, maxOn, firstDay }));
    yield;
  }
  const cues = cueEffect(coached(client), pool);
  yield;
  const landed = { sessions: landingLoad(sessions, level), weeks: landingWeeks(sessions, firstDay) };
  yield;
  const quality = landingQuality(sessions);
  yield;
  const hard = hardSets(sessions, {
    firstDay,
    maxOn: (exercise, day) => maxes.get(exercise)?.(day),
    heldIn(set, day) {
      const exercise = exercises.get(set.exercise ?? '');
      const moved = exercise && movedIn(set, exercise, { masses }, day);
      return moved === undefined || typeof moved === 'string' ? undefined : moved.parts[0]?.held;
    },
  });
  yield;
  return {
    /** The first day of the latest week that is over, and of all that were cut short. */
    week,
    setApart: [...setApart].sort(),
    /** Kg × reps. `latest` sets the latest week that is over against the usual ones, the total and each exercise in it. */
    tonnage: {
      weeks,
      total,
      latest: usualWeek(total, usual),
      exercises: weeks
        .filter((one) => one.week === week)
        .map(({ exercise }) => ({
          exercise,
          latest: usualWeek(
            weeks.filter((one) => one.exercise === exercise),
            usual,
          ),
        })),
    },
    /** Kg × m. */
    carries: carries({ sessions, exercises, firstDay }),
    /** Sets; heavy ones of few reps too, where what could be lifted once lately tells that they are. */
    hardSets: hard,
    /** Seconds under tension, and kg·s, by exercise and week. */
    time,
    /** Repetitions at 100 % of what could be lifted once lately, by exercise and week. */
    volume,
    /** AU: effort 0–10 × minutes. */
    load: { days, weeks: loadWeeks(days, firstDay), lines: loadLines(days) },
    /** The last day with answers against those before; `days` holds every one. */
    ...(came ? { cameIn: { day: came.day, days: cameDays, ...cameInOf(cameDays, came.day) } } : {}),
    landings: { ...landed, quality },
    sides: sidesOf,
    cues,
    /** Degrees, from the first day to the last, of tests whose error is known. */
    ranges: own
      .filter(({ holds }) => holds === 'degrees')
      .flatMap(({ id }) => rangeChange(sessions, id).map((change) => ({ exercise: id, ...change }))),
    /** Shares of good ones, 0–1, over the sessions in which they were judged. */
    learning,
  };
}

/** Left and right of an exercise that has sets of each side, with the error of its test: a published one, else the client's own. */
function sidesIn({ sessions }: ClientRecord, exercise: Exercise) {
  if (exercise.sides !== 'each') return [];
  const unit = sideUnit(exercise);
  if (!unit) return [];
  const published = knownError(exercise.id, unit);
  const own = published ? undefined : ownError(sessions, exercise);
  const error: SidesError | undefined = published
    ? { ...published, from: 'published' }
    : own?.error && { ...own.error, from: 'own' };
  const found = sides(sessions, exercise, error);
  if (!found) return [];
  return [
    {
      exercise: exercise.id,
      ...found,
      ...(error ? { error } : {}),
      ...(own ? { pairs: { has: own.pairs, needs: FEWEST_PAIRS } } : {}),
    },
  ];
}

function learningIn({ sessions }: ClientRecord, { id, holds }: Exercise) {
  if (holds !== 'landings' && holds !== 'tries') return [];
  const learned = sideLearning(sessions, id);
  return learned.sides.length === 0 ? [] : [{ exercise: id, ...learned }];
}

const coached = ({ sessions }: ClientRecord) => ({ sessions, badDays: daysBelow(sessions) });

/** Returns how often each cue was used with a client and worked: what the cues of others are pooled with. */
export const usesOf = (client: ClientRecord): readonly CueUses[] => cueUses(coached(client));

const idsIn = ({ sessions }: ClientRecord): readonly string[] =>
  [...new Set(sessions.flatMap(({ exercises }) => exercises))].sort();

const firstDayIn = ({ sessions, otherWork }: ClientRecord): Day | undefined =>
  [...inOrder(sessions).slice(0, 1), ...otherWork].map(({ day }) => day).sort()[0];
