import { addDays, type Day } from '../domain/day';
import type { Picture, PicturePoint } from './charts/picture';
import { capital, type FoundWords, weekText } from './otherWords';

/*
 * Weeks that run, and topics of which nothing was found in the last week that is over.
 */

/** Returns whether a week, given its first day, still runs on a day. */
export const isRunning = (week: Day, today: Day): boolean => today <= addDays(week, 6);

/** Returns how the numbers of a week begin: `The week from 16 Nov`, `This week so far, from 23 Nov`. */
export const weekHead = (week: Day, today: Day): string =>
  isRunning(week, today)
    ? `This week so far, ${weekText(week, today).replace(/^the week /, '')}`
    : capital(weekText(week, today));

/** Returns what is at least so much; of what may be anything from 0 on it is not known. */
export const atLeast = (isLeast: boolean, value: number, text: string): string =>
  !isLeast ? text : value > 0 ? `at least ${text}` : 'not known';

type Last = { readonly picture: Picture; readonly point: PicturePoint; readonly day: Day; readonly runs: boolean };

/** Returns what is said where nothing is found of the last week: what this week comes to so far, else what was last noted. */
export function quietWords(pictures: readonly Picture[], today: Day): FoundWords {
  const last = pictures
    .flatMap((picture): readonly Last[] => {
      const point = picture.as === 'weeks' || picture.as === 'days' ? picture.points.at(-1) : undefined;
      if (point?.day === undefined) return [];
      const runs = picture.as === 'weeks' && point.sum !== undefined && isRunning(point.day, today);
      return [{ picture, point, day: point.day, runs }];
    })
    // a week that runs holds its days
    .sort((a, b) => Number(b.runs) - Number(a.runs) || (a.day < b.day ? 1 : a.day > b.day ? -1 : 0))[0];
  if (!last) return { number: 'nothing of late', sentence: '' };
  const { picture, point, day, runs } = last;
  if (!runs) return { number: 'nothing of late', sentence: `Last noted: ${point.said[0]}.` };
  const of = picture.of === undefined ? '' : `, ${picture.of}`;
  return { number: point.sum ?? '', sentence: `${weekHead(day, today)}${of}.` };
}
