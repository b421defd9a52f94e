import type { PainLevel } from '../domain/pain';
import type { PainBefore } from '../domain/painBefore';
import { SIGNS } from './careWords';
import { dayShort } from './format';

/* What pain and stop signs close and hold back: one rule in one wording, on the floor and on the client's page. */

/** Returns what holds of an exercise that was stopped and is not cleared; `than` is a load with its unit, where there was one. */
export const heldBack = (than = 'then'): string =>
  `nothing heavier than ${than} is offered until a clearance is noted; a licensed practitioner is to be asked.`;

/** Returns why an exercise is closed, and what to do. */
export function closedSentence(level: Extract<PainLevel, { readonly level: 'stop' }>): string {
  const why =
    level.why === 'sign' && level.sign
      ? SIGNS[level.sign.sign]
      : level.why === 'pain'
        ? `pain ${level.pain} of 10`
        : 'a set ended in pain';
  return `Closed for this session: ${why}. Stop and refer: ${heldBack('this')}`;
}

/** Returns what was noted that holds an exercise back, and how far; `load` is a text with its unit. */
export const heldSentence = (held: PainBefore | undefined, load: string | null): string =>
  `${held ? `${capital(noted(held))} on ${dayShort(held.day)}. ` : ''}Refer: ${heldBack(load ?? undefined)}`;

/** Returns what to ask before the first set; `day` where the line does not tell it yet. */
export const askSentence = (before: PainBefore, day: boolean): string =>
  `${capital(noted(before))}${day ? ` last time, ${dayShort(before.day)}` : ''}: ask before the first set.`;

/** Returns what to ask before a session, where the client came in with pain the last time. */
export const arrivalSentence = (before: PainBefore): string =>
  `Last time, ${dayShort(before.day)}, came in with ${noted(before)}: ask about it.`;

const noted = ({ pain, sign }: PainBefore): string =>
  sign ? SIGNS[sign.sign] : pain === undefined ? 'a set ended in pain' : `pain ${pain} of 10`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
