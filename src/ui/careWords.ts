import type { ArrivalItem } from '../domain/arrival';
import type { LandingLevel } from '../domain/client';
import type { PainLevel } from '../domain/pain';
import type { StopSign } from '../domain/stopSigns';

/* What is asked before a session, and what stops one. */

/** The five questions, each with its ends in words; 5 is best in all of them. */
export const ARRIVAL: Readonly<
  Record<ArrivalItem, { readonly asks: string; readonly worst: string; readonly best: string }>
> = {
  sleep: { asks: 'Sleep', worst: 'hardly slept', best: 'slept through' },
  energy: { asks: 'Energy', worst: 'worn out', best: 'full of it' },
  body: { asks: 'Body', worst: 'sore all over', best: 'nothing sore' },
  calm: { asks: 'Mind', worst: 'very tense', best: 'at ease' },
  mood: { asks: 'Mood', worst: 'low', best: 'bright' },
};

/** Stop signs, in our own words (METHODS §14). */
export const SIGNS: Readonly<Record<StopSign, string>> = {
  chest: 'chest pain or pressure',
  breath: 'unusual breathlessness',
  faint: 'fainting or dizziness',
  palpitations: 'heart racing or skipping',
  headache: 'sudden severe headache',
  joint: 'acute joint pain, or a pop with swelling',
  numb: 'numbness or weakness',
  bladder: 'loss of bladder or bowel control',
  confusion: 'confusion',
  urine: 'dark urine',
};
export const SIGNS_CAUTION =
  'At any of these: stop. Call emergency help or send to a physician, as apt; local rules and licensed practice come first. The app does not grade them.';
export const LEVEL: Readonly<Record<LandingLevel, string>> = {
  beginner: 'beginner',
  intermediate: 'intermediate',
  advanced: 'advanced',
};

/** Returns why an easier step is offered. */
export function adaptSentence(level: Extract<PainLevel, { readonly level: 'adapt' }>): string {
  return level.why === 'rising'
    ? `Pain ${level.pain} of 10, rising in the set: an easier step would do.`
    : `Pain ${level.pain} of 10, two sessions running: an easier step would do.`;
}
