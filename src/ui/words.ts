import type { ActName } from '../log/undo';
import { countOf, duration } from './format';

/*
 * Every English word on the screens is here or in the files beside it named …Words; what the first screen needs is here. Findings, faults and states come here as data; only here do they become sentences.
 */

export const APP = 'Cuewright';
export const CAUTION =
  'General training records, not medical advice: a licensed practitioner and local rules come first. Everything you log stays on this phone until you save a file.';

/** What stands where a part of the app could not be loaded. */
export const LOST_PART = {
  missing: 'This part of the app could not be loaded. What was logged is kept. With a network, try again.',
  old: 'This part belongs to an older version, and a newer one is on the server. What was logged, and what is typed in the pad, is kept.',
};

/** Returns what Today says of a newer version of the app. */
export function updateSentence(state: 'ready' | 'old'): string {
  return state === 'ready'
    ? 'A new version of the app is ready. What you logged stays as it is.'
    : 'A new version of the app has taken over. This page goes over to it by itself, when no session runs and nothing is half typed.';
}

/** Returns the days to a named day: `41 days to opening`, `opening is today`, `opening was 3 days ago`. */
export function daysTo(days: number, name: string): string {
  if (days === 0) return `${name} is today`;
  return days > 0 ? `${countOf(days, 'day')} to ${name}` : `${name} was ${countOf(-days, 'day')} ago`;
}

/** Returns what an undo button takes back. */
export function undoText(act: ActName, who: string): string {
  const what: Readonly<Record<string, string>> = {
    'log-set': 'set',
    'log-ramp': 'ramp',
    'touch-up': 'note',
    'edit-set': 'edit',
    'remove-set': 'removal',
    'move-set': 'move',
    'start-session': 'start',
    'end-session': 'end',
    'resume-session': 'going on',
    'remove-session': 'removal',
    'list-exercise': 'exercise',
    'log-round': 'round',
    'log-together': 'the same again',
    'add-tally': 'count',
    pause: 'pause',
    'end-pause': 'end of the pause',
    'missed-session': 'session',
    skip: 'skip',
    'take-up': 'taking up',
    swap: 'swap',
    reorder: 'order',
    tally: 'count',
    'add-block': 'block',
    'edit-block': 'block',
    'add-station': 'station',
    plan: 'plan',
    'remove-thing': 'removal',
    'start-clock': 'clock',
    'stop-clock': 'stop',
    tick: 'tick',
    cut: 'cut',
    'keep-template': 'template',
    'remove-template': 'removal',
    'repeat-last': 'repeat',
    arrival: 'answer',
    'stop-sign': 'stop sign',
    clearance: 'clearance',
    'add-target': 'target',
    'remove-target': 'removal',
    'add-restriction': 'restriction',
    'remove-restriction': 'removal',
    'remove-client': 'removal',
    'other-work': 'other work',
    'rest-day': 'rest day',
    'remove-other-work': 'removal',
    place: 'place',
    'choose-place': 'place',
    'add-client': 'new client',
    'edit-client': 'client',
    'add-exercise': 'new exercise',
    'edit-exercise': 'exercise',
    'add-cue': 'new cue',
    'set-up': 'set-up',
    setting: 'setting',
    'body-mass': 'body mass',
    settle: 'choice',
    'bring-back': 'bringing back',
    'remove-again': 'removal',
    'name-device': 'name',
    import: 'taking in',
    'keep-stub': 'stub',
    'remove-stub': 'removal',
  };
  return `Undo ${what[act.type] ?? 'last'}${who ? ` · ${who}` : ''}`;
}

/** Returns what an undo did. */
export function undoneSentence(changedSince: number): string {
  return changedSince === 0 ? 'Undone.' : `Undone, but for ${countOf(changedSince, 'value')} changed since.`;
}

/** Returns when the last backup was made. */
export function backupText(days: number | null): string {
  if (days === null) return 'no backup yet';
  return days === 0 ? 'backup today' : `last backup ${countOf(days, 'day')} ago`;
}

/** Returns how long ago something was saved: `saved 0:48 ago`. */
export const savedAgo = (seconds: number): string => `saved ${duration(seconds)} ago`;
