import type { Answers } from '../analysis/answers';
import type { SetsFinding } from '../analysis/weekFinding';
import type { Picture } from './charts/picture';
import { countOf, number } from './format';
import { AREA } from './libraryWords';
import { capital, type FoundWords, PICTURE, type Telling, tooFewText, weekText } from './otherWords';
import { atLeast, isRunning, weekHead } from './pastWeekWords';
import { dayText } from './trendWords';

/*
 * Hard sets by area in words and pictures.
 */

/** Returns a week's hard sets in words. */
export function setsText(one: SetsFinding, { today }: Telling): FoundWords {
  const areas = mostOf(one.areas)
    .map(({ area, fractional }) => `${AREA[area]} ${number(fractional)}`)
    .join(', ');
  const untold =
    one.untold > 0 ? `; ${countOf(one.untold, 'more set')} could not be judged, reps left or load not noted` : '';
  const cut = one.setApart ? '; a week cut short or missed in part, so no usual one' : '';
  const few = one.type === 'too-few' ? `; ${tooFewText(one, 'week')} to tell what is usual` : '';
  return {
    number: hardText(one),
    sentence: `${capital(weekText(one.day, today))}${areas === '' ? '' : `, most for ${areas}`}${untold}${cut}${few}.`,
  };
}

/** The two areas with the most. */
const mostOf = (areas: SetsFinding['areas']): SetsFinding['areas'] =>
  areas.toSorted((a, b) => b.fractional - a.fractional).slice(0, 2);

/** Sets that nobody could judge may have been hard too. */
const hardText = ({ hard, untold }: { readonly hard: number; readonly untold: number }): string =>
  atLeast(untold > 0, hard, countOf(hard, 'hard set'));

/** Returns hard sets by week, and by area in the last whole week against what is usual. */
export function setsPictures({ others, found, asOf }: Answers, { today }: Telling): readonly Picture[] {
  const told = found.find((one) => one.topic === 'sets');
  const { weeks } = others.hardSets;
  const weekly: Picture = {
    id: 'weeks',
    ...(told ? { opens: told.day } : {}),
    title: 'By week',
    as: 'weeks',
    caption: 'hard sets a week',
    measure: 'reps',
    series: ['bar'],
    columns: ['Week from', 'Hard sets', 'Known to be easier', 'Not judged', 'Of no known area'],
    points: weeks.map(({ week, hard, easy, untold, unplaced }) => ({
      key: week,
      day: week,
      sum: hardText({ hard, untold }),
      marks: [{ series: 0, value: hard, least: untold > 0 || isRunning(week, asOf) }],
      said: [
        `${weekHead(week, today)}: ${hardText({ hard, untold })}`,
        `${number(easy)} known to be easier, ${number(untold)} not judged`,
      ],
      cells: [
        dayText(week, today),
        atLeast(untold > 0, hard, number(hard)),
        number(easy),
        number(untold),
        number(unplaced),
      ],
    })),
    notes: [PICTURE.least],
  };
  if (told?.topic !== 'sets' || told.areas.length === 0) return [weekly];
  const [most] = mostOf(told.areas);
  const least = told.untold > 0 ? ', at least' : '';
  const byArea: Picture = {
    id: 'areas',
    ...(most ? { opens: most.area } : {}),
    title: 'By area',
    as: 'rows',
    caption: `hard sets, ${weekText(told.day, today)}`,
    measure: 'load',
    series: ['bar', 'bar', 'square'],
    columns: ['Area', `Direct${least}`, `Indirect${least}`, `Direct and half of indirect${least}`, 'Usual'],
    points: told.areas.map(({ area, direct, indirect, fractional, usual }) => ({
      key: area,
      name: AREA[area],
      beside: number(fractional),
      marks: [
        { series: 0, value: direct },
        { series: 1, from: direct, value: fractional },
        ...(usual === undefined ? [] : [{ series: 2, value: usual }]),
      ],
      said: [
        `${capital(AREA[area])}: ${number(fractional)}${usual === undefined ? '' : `, usually ${number(usual)}`}`,
        `${number(direct)} direct, ${number(indirect)} indirect`,
      ],
      cells: [
        capital(AREA[area]),
        number(direct),
        number(indirect),
        number(fractional),
        usual === undefined ? '' : number(usual),
      ],
    })),
    notes: [
      'Full bar: direct. Pale bar: half of the indirect.',
      ...(told.untold > 0 ? [`At least so many: ${countOf(told.untold, 'set')} could not be judged.`] : []),
      ...(told.weeks.length > 0 ? ['Square: the middle of the weeks before.'] : []),
    ],
  };
  return [byArea, weekly];
}
