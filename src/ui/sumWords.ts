import type { Answers } from '../analysis/answers';
import type { SumFinding } from '../analysis/weekFinding';
import type { Picture } from './charts/picture';
import { countOf, duration, number } from './format';
import {
  carried,
  carryUnit,
  type FoundWords,
  inUnit,
  metresIn,
  PICTURE,
  type Telling,
  tenths,
  tooFewText,
  weekText,
} from './otherWords';
import { atLeast, isRunning, weekHead } from './pastWeekWords';
import { dayText } from './trendWords';

/*
 * Sums of a week of one exercise, in words and pictures: carries, time under tension, relative volume (reps at full load).
 */

/** Returns a week's sum of an exercise in words, against the middle of the own weeks before. */
export function sumText(one: SumFinding, telling: Telling): FoundWords {
  const where = `${telling.exercise(one.exercise)}, ${weekText(one.day, telling.today)}`;
  const not = one.not > 0 ? `; ${countOf(one.not, 'set')} not counted` : '';
  const far = one.metres === undefined ? '' : `, over ${number(metresIn(one.metres, telling))} ${telling.distance}`;
  return {
    number:
      one.value === undefined
        ? 'not known'
        : atLeast(one.type === 'partly-known', one.value, valueText(one, one.value, telling)),
    sentence: `${where}${far}: ${againstText(one, telling)}${not}.`,
  };
}

function againstText(one: SumFinding, telling: Telling): string {
  switch (one.type) {
    case 'week':
      return `usually ${valueText(one, one.usual, telling)} (the middle of ${countOf(one.weeks.length, 'week')} before)`;
    case 'too-few':
      return `${tooFewText(one, 'week')} to tell what is usual`;
    case 'partly-known':
      return 'not set against other weeks, since too much of it is not known';
    case 'set-apart':
      return 'a week cut short or missed in part, so no usual one';
  }
}

function valueText({ topic }: SumFinding, value: number, telling: Telling): string {
  switch (topic) {
    case 'carries':
      return `${number(carried(value, telling))}\u00a0${carryUnit(telling)}`;
    case 'time':
      return `${duration(Math.round(value))}\u00a0min`;
    case 'volume':
      return `${tenths(value)} reps at full load`;
  }
}

/** Returns the carries of each exercise by week. */
export function carryPictures({ others, asOf }: Answers, telling: Telling): readonly Picture[] {
  const unit = carryUnit(telling);
  return [...new Set(others.carries.map(({ exercise }) => exercise))].map(
    (id): Picture => ({
      id,
      title: telling.exercise(id),
      of: telling.exercise(id),
      as: 'weeks',
      caption: `${unit} a week`,
      measure: 'load',
      series: ['bar'],
      columns: [
        'Week from',
        `Load × distance, ${unit}`,
        `Distance, ${telling.distance}`,
        'Carries counted',
        'Not counted',
      ],
      points: others.carries
        .filter(({ exercise }) => exercise === id)
        .map(({ week, kgM, metres, sets, not }) => {
          const value = kgM === undefined ? undefined : carried(kgM, telling);
          return {
            key: week,
            day: week,
            sum: value === undefined ? 'not known' : `${number(value)}\u00a0${unit}`,
            marks: value === undefined ? [] : [{ series: 0, value, least: not > 0 || isRunning(week, asOf) }],
            said: [
              `${weekHead(week, telling.today)}: ${value === undefined ? 'not known' : `${number(value)} ${unit}`}`,
              `${number(metresIn(metres, telling))} ${telling.distance}, ${sets === 1 ? '1 carry' : `${number(sets)} carries`}${not > 0 ? `, ${not} not counted` : ''}`,
            ],
            cells: [
              dayText(week, telling.today),
              value === undefined ? 'not known' : number(value),
              number(metresIn(metres, telling)),
              number(sets),
              number(not),
            ],
          };
        }),
      notes: [PICTURE.least],
    }),
  );
}

/** Returns the weeks of each exercise: seconds under tension, or reps at full load. */
export function sumPictures({ others, asOf }: Answers, topic: 'time' | 'volume', telling: Telling): readonly Picture[] {
  const isTime = topic === 'time';
  const weeks = isTime
    ? others.time.map((one) => ({ ...one, value: Math.round(one.seconds) }))
    : others.volume.map((one) => ({ ...one, value: Math.round(one.reps * 10) / 10 }));
  const unit = isTime ? 's' : 'reps at full load';
  return [...new Set(weeks.map(({ exercise }) => exercise))].map((id): Picture => {
    const own = weeks.filter(({ exercise }) => exercise === id);
    return {
      id,
      title: telling.exercise(id),
      of: telling.exercise(id),
      as: 'weeks',
      caption: isTime ? 'seconds under tension a week' : 'reps at full load a week',
      measure: 'load',
      series: ['bar'],
      columns: [
        'Week from',
        isTime ? 'Time under tension, s' : 'Reps at full load',
        `Load × time, ${telling.unit}·s`,
        'Sets counted',
        'Not counted',
      ],
      points: own.map((one) => {
        const held = 'kgSeconds' in one && one.kgSeconds !== undefined ? one.kgSeconds : undefined;
        const kgSeconds = held === undefined ? '' : number(inUnit(held, telling));
        return {
          key: one.week,
          day: one.week,
          sum: `${isTime ? duration(one.value) : number(one.value)} ${isTime ? 'min' : unit}`,
          marks: [{ series: 0, value: one.value, least: one.not > 0 || isRunning(one.week, asOf) }],
          said: [
            `${weekHead(one.week, telling.today)}: ${number(one.value)} ${unit}`,
            `${countOf(one.sets, 'set')} counted${one.not > 0 ? `, ${one.not} not` : ''}${kgSeconds === '' ? '' : `; ${kgSeconds} ${telling.unit}·s`}`,
          ],
          cells: [dayText(one.week, telling.today), number(one.value), kgSeconds, number(one.sets), number(one.not)],
        };
      }),
      notes: [PICTURE.least],
    };
  });
}
