import type { Answers } from '../analysis/answers';
import type { LandingsFinding } from '../analysis/clientFinding';
import type { LandingQuality } from '../analysis/landingQuality';
import { LANDING_SIGNS } from '../domain/set';
import type { Picture } from './charts/picture';
import { countOf, number } from './format';
import { capital, type FoundWords, percent, type Telling, wereNot } from './otherWords';
import { DIRECTION, LANDING_SIGN, SIDE } from './setWords';
import { dayText } from './trendWords';

/*
 * Landings in words and pictures: how many in a session against the range of the level, and how many were good by side and direction.
 */

/** Returns landings in words: how many of late, or how good. */
export function landingsText(one: LandingsFinding, { today, exercise }: Telling): FoundWords {
  const name = one.exercise === undefined ? '' : `${exercise(one.exercise)}, `;
  switch (one.type) {
    case 'below':
    case 'within':
    case 'above': {
      return {
        number: countOf(one.landings, 'landing'),
        sentence: `On ${dayText(one.day, today)}${sinceText(one.hoursSince)}: ${againstText(one.against)}.`,
      };
    }
    case 'no-level':
      return {
        number: countOf(one.landings, 'landing'),
        sentence: `On ${dayText(one.day, today)}${sinceText(one.hoursSince)}; no level is noted to set them against.`,
      };
    case 'good':
    case 'weaker-side': {
      const sides = one.sides.filter(({ side }) => side);
      const told = (sides.length > 0 ? sides : one.sides).map((part) => `${partText(part)} ${part.good} of ${part.of}`);
      const weaker = one.type === 'weaker-side' && one.side ? `; the ${SIDE[one.side]} is less often good` : '';
      const open = one.unjudged > 0 ? `; ${wereNot(one.unjudged, 'judged')}` : '';
      const good = one.sides.reduce((sum, part) => sum + part.good, 0);
      const of = one.sides.reduce((sum, part) => sum + part.of, 0);
      return {
        number: `${percent(of > 0 ? good / of : 0)} good`,
        sentence: `${name === '' ? 'Good' : `${name}good`} since ${dayText(one.since, today)}: ${told.join(', ')}${weaker}${open}.`,
      };
    }
    case 'too-few':
      return {
        number: 'not enough judged',
        sentence: `${name}${countOf(one.has, 'landing')} ${one.has === 1 ? 'was' : 'were'} judged, ${number(one.needs)} are needed; ${wereNot(one.unjudged, 'judged')}.`,
      };
  }
}

/** Fewer than a range to plan by is nothing that is owed. */
function againstText({ type, from, to, off }: Against): string {
  const range = `${from}–${to} a session`;
  switch (type) {
    case 'below':
      return `the range for the level is ${range}; fewer is no reason to add`;
    case 'within':
      return `within the range for the level, ${range}`;
    case 'above':
      return `${off} above the range for the level, ${range}`;
  }
}

type Against = Extract<LandingsFinding, { readonly type: 'below' | 'within' | 'above' }>['against'];

const sinceText = (hours: number | undefined): string =>
  hours === undefined ? '' : `, ${countOf(hours, 'hour')} after the last session with landings`;

/** Said without a number, which would ask to be made up for. */
const FEWER = 'fewer, none to add';

const partText = ({ side, direction }: Pick<LandingQuality, 'side' | 'direction'>): string =>
  [side ? SIDE[side] : 'both feet', ...(direction ? [DIRECTION[direction]] : [])].join(', ');

/** Returns landings by session, and how good they were. */
export function landingPictures({ others }: Answers, { today }: Telling): readonly Picture[] {
  const { sessions, quality } = others.landings;
  const against = sessions.findLast((one) => one.against)?.against;
  const counts: Picture = {
    id: 'counts',
    title: 'By session',
    as: 'days',
    caption: 'landings in a session',
    measure: 'reps',
    series: ['bar'],
    ...(against ? { range: { low: against.from, high: against.to } } : {}),
    columns: ['Day', 'Landings', 'Range for the level', 'Against it', 'Hours since the last'],
    points: sessions.map(({ session, day, landings, against: own, hoursSince }) => {
      const off = own ? (own.type === 'above' ? `${own.off} above` : own.type === 'below' ? FEWER : 'within') : '';
      return {
        key: session,
        day,
        marks: [{ series: 0, value: landings }],
        said: [
          `${dayText(day, today)}: ${countOf(landings, 'landing')}${own ? `, range ${own.from}–${own.to}` : ''}`,
          [off, hoursSince === undefined ? '' : `${countOf(hoursSince, 'hour')} after the last`]
            .filter((text) => text !== '')
            .join(', '),
        ],
        cells: [
          dayText(day, today),
          number(landings),
          own ? `${own.from}–${own.to}` : '',
          off,
          hoursSince === undefined ? '' : number(hoursSince),
        ],
      };
    }),
    notes: against
      ? ['Tint: the published range for the level, a guide to plan by. Fewer are nothing to be made up for.']
      : [],
  };
  const { parts } = quality;
  if (parts.length === 0) return [counts];
  const good: Picture = {
    id: 'good',
    title: 'By side and direction',
    as: 'rows',
    caption: 'good ones of those judged, %',
    measure: 'good',
    series: ['disc'],
    columns: [
      'Side and direction',
      'Good',
      'Judged',
      'Good, %',
      'Likely between, %',
      ...LANDING_SIGNS.map((sign) => `Not ${LANDING_SIGN[sign]}`),
    ],
    points: parts.map((part) => {
      const name = partText(part);
      const between = `${Math.round(part.low * 100)}–${Math.round(part.high * 100)}`;
      const missing = LANDING_SIGNS.flatMap((sign) =>
        (part.missing[sign] ?? 0) > 0 ? [`${part.missing[sign]} not ${LANDING_SIGN[sign]}`] : [],
      );
      return {
        key: name,
        name: capital(name),
        beside: `${part.good} of ${part.of}`,
        marks: [{ series: 0, value: part.share * 100, low: part.low * 100, high: part.high * 100 }],
        said: [
          `${capital(name)}: ${part.good} of ${part.of} good (${percent(part.share)}), likely ${between} %`,
          missing.join(', '),
        ],
        cells: [
          capital(name),
          number(part.good),
          number(part.of),
          number(Math.round(part.share * 100)),
          between,
          ...LANDING_SIGNS.map((sign) => (part.missing[sign] === undefined ? '' : number(part.missing[sign]))),
        ],
      };
    }),
    notes: [
      'Over all sessions, whatever the window. The range holds 19 times in 20.',
      ...(quality.unjudged > 0
        ? [`${countOf(quality.unjudged, 'landing')} nobody judged ${quality.unjudged === 1 ? 'is' : 'are'} left out.`]
        : []),
    ],
  };
  return [counts, good];
}
