import type { Answers } from '../analysis/answers';
import type { CuesFinding } from '../analysis/clientFinding';
import type { CueEffect } from '../analysis/cueEffect';
import type { CueAgainstNone, FaultGone } from '../analysis/cueUses';
import type { Picture } from './charts/picture';
import { countOf, number } from './format';
import { FOCUS } from './libraryWords';
import { type FoundWords, percent, type Telling, wereNot } from './otherWords';

/*
 * What cues do, in words and pictures: how often the next reps were better, and what became of the fault without one.
 */

/** Returns which cue works, or that there is too little to tell. */
export function cuesText(one: CuesFinding, telling: Telling): FoundWords {
  if (one.type === 'too-few')
    return {
      number: 'too few to tell',
      sentence: `The cue used most has ${countOf(one.has, 'answered use')}, ${one.needs} are needed${one.unanswered > 0 ? `; ${wereNot(one.unanswered, 'answered')}` : ''}.`,
    };
  if (one.type === 'not-clear') {
    const used = one.cues.reduce((sum, { uses }) => sum + uses.used, 0);
    const [only] = one.cues;
    if (only && one.cues.length === 1)
      return {
        number: `${only.uses.worked} of ${only.uses.used} better`,
        sentence: `“${telling.cue(only.uses.cue)}” is the only cue that was answered: one alone cannot be compared.`,
      };
    return {
      number: countOf(used, 'answered use'),
      sentence: `Of ${countOf(one.cues.length, 'cue')} none is clearly the best, and none clearly of no use.`,
    };
  }
  const { uses, low, high } = one.cue;
  const words = `“${telling.cue(uses.cue)}”`;
  const counted = `${uses.worked} of ${uses.used}`;
  const against = one.against ? ` ${againstText(one.against)}` : '';
  const likely = `likely ${rangeText({ low, high })} of the time`;
  const sentence =
    one.type === 'best'
      ? `${words} works best of the ${one.of} cues for that fault: ${likely}.`
      : one.type === 'no-help'
        ? `${words} does not seem to help.`
        : `${words} ${one.type === 'often' ? 'mostly' : 'seldom'} makes the next reps better: ${likely}.`;
  return { number: `${counted} better`, sentence: `${sentence}${against}` };
}

const rangeText = ({ low, high }: Pick<CueEffect, 'low' | 'high'>): string =>
  `${Math.round(low * 100)}\u00a0to\u00a0${Math.round(high * 100)}\u00a0%`;

const goneText = ({ gone, of }: FaultGone): string => (of === 0 ? 'never seen' : `${gone} of ${of}`);

/** Fewer sets than these show nothing beside each other. */
const FEWEST_BESIDE = 5;

/** `The fault was gone in the next set 6 of 8 with it, 3 of 5 without a cue.` */
function againstText({ with: own, without }: CueAgainstNone): string {
  if (own.of < FEWEST_BESIDE || without.of < FEWEST_BESIDE)
    return `Too few sets to set it beside no cue: ${own.of} with it, ${without.of} without.`;
  return `The fault was gone in the next set ${goneText(own)} with it, ${goneText(without)} without a cue.`;
}

/** Returns every cue that was used and answered. */
export function cuePictures({ others }: Answers, telling: Telling): readonly Picture[] {
  const { cues, without } = others.cues;
  if (cues.length === 0) return [];
  return [
    {
      id: 'cues',
      title: 'Every cue that was answered',
      as: 'rows',
      caption: 'next reps better, %',
      measure: 'good',
      series: ['disc'],
      columns: [
        'Cue',
        'Better',
        'Answered uses',
        'Not answered',
        'Likely, %',
        'Likely between, %',
        'On bad days, better of used',
        'Fault gone with it',
        'Fault gone without a cue',
        'Sends attention to',
      ],
      points: cues.map(({ cue, uses, share, low, high, focus }) => {
        const words = telling.cue(cue);
        const against = without.find((one) => one.cue === cue);
        return {
          key: cue,
          name: `“${words}”`,
          beside: `${uses.worked} of ${uses.used}`,
          marks: [{ series: 0, value: share * 100, low: low * 100, high: high * 100 }],
          said: [
            `“${words}”: better on ${uses.worked} of ${uses.used}, likely ${percent(share)} (${rangeText({ low, high })})`,
            against ? againstText(against) : '',
          ],
          cells: [
            words,
            number(uses.worked),
            number(uses.used),
            number(uses.unanswered),
            number(Math.round(share * 100)),
            `${Math.round(low * 100)}–${Math.round(high * 100)}`,
            uses.badUsed > 0 ? `${uses.badWorked} of ${uses.badUsed}` : '',
            against ? goneText(against.with) : '',
            against ? goneText(against.without) : '',
            focus ? FOCUS[focus] : '',
          ],
        };
      }),
      notes: [
        'Over all sessions, whatever the window. The range holds four times in five; few uses lean on what the cue does with others.',
        'Where a cue sends attention is told, and not scored.',
      ],
    },
  ];
}
