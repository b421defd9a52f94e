import type { Day } from '../domain/day';
import { cameIn, daysBelow, daysOf } from './cameIn';
import { carries } from './carries';
import { cueEffect } from './cueEffect';
import { type CueUses, cueUses } from './cueUses';
import { hardSets } from './hardSets';
import { landingLoad } from './landingLoad';
import { landingQuality } from './landingQuality';
import { dayLoads, loadLines, loadWeeks } from './sessionLoad';
import { sides } from './sides';
import type { ClientRecord, Studio } from './studio';
import { tonnage, totalTonnage } from './tonnage';
import { partialWeeks, usualWeek } from './usualWeek';
import { weekOf } from './weeks';

/*
 * What the other methods say of one client, as data: tonnage and hard sets by week, whole-session load, how they came in, landings, sides, cues.
 */

export type Others = ReturnType<typeof othersOf>;

/**
 * Returns it as of a day, of a client as was known by then (`knownBy`); `pool` holds the cues of the coach's other clients (`usesOf`), which own ones are
 * pooled with. Rest days that were confirmed are not in the records yet: without them a day that was not logged is not known.
 */
export function othersOf(
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
  const came = daysOf(sessions).at(-1);
  const days = dayLoads({ sessions, otherWork, rests: new Set() }, firstDayIn(client) ?? asOf, asOf);
  return {
    tonnage: { weeks, total, latest: usualWeek(total, { week: weekOf(asOf, firstDay), today: asOf, setApart }) },
    carries: carries({ sessions, exercises, firstDay }),
    hardSets: hardSets(sessions, { firstDay }),
    load: { days, weeks: loadWeeks(days, firstDay), lines: loadLines(days) },
    ...(came ? { cameIn: { day: came.day, ...cameIn(sessions, came.day) } } : {}),
    landings: { sessions: landingLoad(sessions, level), quality: landingQuality(sessions) },
    sides: idsIn(client).flatMap((id) => {
      const exercise = exercises.get(id);
      const found = exercise?.sides === 'each' ? sides(sessions, exercise) : undefined;
      return found ? [{ exercise: id, ...found }] : [];
    }),
    cues: cueEffect(coached(client), pool),
  };
}

const coached = ({ sessions }: ClientRecord) => ({ sessions, badDays: daysBelow(sessions) });

/** Returns how often each cue was used with a client and worked: what the cues of others are pooled with. */
export const usesOf = (client: ClientRecord): readonly CueUses[] => cueUses(coached(client));

const idsIn = ({ sessions }: ClientRecord): readonly string[] =>
  [...new Set(sessions.flatMap(({ exercises }) => exercises))].sort();

const firstDayIn = ({ sessions, otherWork }: ClientRecord): Day | undefined =>
  [...sessions.flatMap(({ start }) => start?.day ?? []), ...otherWork.map(({ day }) => day)].sort()[0];
