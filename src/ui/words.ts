import type { MassFault } from '../domain/bodyMass';
import type { ClientFault } from '../domain/client';
import type { EntryFault } from '../domain/entry';
import type { Holds } from '../domain/exercise';
import type { ShippedFault } from '../domain/library';
import type { Attendance } from '../domain/session';
import type { Effort, SetKind, SetRecord, Side, Unread } from '../domain/set';
import type { NameFault } from '../log/libraryActs';
import type { OpenFault } from '../log/open';
import type { SaveFault } from '../log/queue';
import type { EndFault } from '../log/sessionActs';
import type { NoteFault } from '../log/setActs';
import type { ActName } from '../log/undo';
import { countOf, duration, number } from './format';

/*
 * Every English word on the screens. Findings, faults and states come here as data; only here do they become sentences.
 */

export const APP = 'Cuewright';
export const CAUTION =
  'General training records, not medical advice: a licensed practitioner and local rules come first. Everything you log stays on this phone until you save a file.';
export const PAIN_CAUTION =
  'Pain of 4 or more, or a stop sign: close this exercise for today and refer. Chest pain, unusual breathlessness, fainting, a pop with swelling, numbness or weakness: stop, and call emergency help or a physician as apt.';

export const KINDS: Readonly<Record<SetKind, string>> = {
  'warm-up': 'warm-up',
  working: 'working',
  test: 'test',
  'back-off': 'back-off',
  drop: 'drop',
  cluster: 'cluster',
  assisted: 'assisted',
};
export const SIDE: Readonly<Record<Side, string>> = { left: 'left', right: 'right' };
export const FORM = { clean: 'clean', slipping: 'slipping' } as const;
export const ENDED = { made: 'made', missed: 'missed', stopped: 'stopped', pain: 'pain' } as const;
export const ANSWER = { better: 'better', same: 'same', worse: 'worse' } as const;
export const ATTENDANCE: Readonly<Record<Attendance, string>> = {
  done: 'done',
  'cut-short': 'cut short',
  cancelled: 'cancelled',
  'no-show': 'no-show',
};
export const BODY_WAY = { alone: 'body mass', added: '+ load', assist: '− assist', band: 'band' } as const;
export const HOLDS: Readonly<Record<Holds, string>> = {
  load: 'load and reps',
  body: 'body mass and reps',
  band: 'band and reps',
  pin: 'pin and reps',
  time: 'time',
};
export const SIDES = { both: 'both sides at once', each: 'each side apart' } as const;
export const FAULTS: Readonly<Record<ShippedFault, string>> = {
  'lib-heel-up': 'heel up',
  'lib-knee-in': 'knee in',
  'lib-back-round': 'back rounding',
  'lib-shrug': 'shrug',
  'lib-early-arm': 'early arm',
  'lib-short-range': 'short range',
};

const FIELD: Readonly<Record<string, string>> = {
  load: 'load',
  reps: 'reps',
  band: 'band',
  pin: 'pin',
  seconds: 'time',
  setUp: 'set-up',
  effort: 'effort',
  rpe: 'RPE',
  minutes: 'minutes',
  mass: 'body mass',
  alias: 'name',
  short: 'short name',
  dayName: 'name of the day',
  day: 'day',
  name: 'name',
  words: 'cue',
  note: 'note',
  why: 'why',
  side: 'side',
  parts: 'parts',
  pain: 'pain',
};

/** Returns what a field is called on the screen. */
export const fieldName = (field: string): string => FIELD[field] ?? field;

export type AnyFault =
  | EntryFault
  | ClientFault
  | NameFault
  | NoteFault
  | EndFault
  | MassFault
  | { type: 'off-step'; field: 'rpe'; step: number };

/** Returns the house sentence of a fault: what must hold, and what was found. */
export function faultSentence(fault: AnyFault): string {
  const field = fieldName(fault.field) + ('part' in fault && fault.part !== undefined ? ` of part ${fault.part}` : '');
  switch (fault.type) {
    case 'empty':
      return `${field} must say something`;
    case 'not-a-number':
      return `${field} must be a number, such as 57.5; this is “${clipped(fault.text)}”`;
    case 'out-of-range':
      return `${field} must be between ${number(fault.min)} and ${number(fault.max)}${fault.unit ? ` ${fault.unit}` : ''}`;
    case 'off-step':
      return fault.step === 1 ? `${field} must be a whole number` : `${field} goes in steps of ${number(fault.step)}`;
    case 'too-fine':
      return `${field} takes at most ${fault.decimals} decimals`;
    case 'too-long':
    case 'label-too-long':
      return `${field} takes at most ${number(fault.most)} characters; this has ${number(fault.has)}`;
    case 'not-a-day':
      return `day must be a day that exists, such as 2027-02-28; this is “${clipped(fault.text)}”`;
    case 'no-side':
      return 'side must be left or right';
    case 'parts-missing':
      return 'a drop set or cluster needs a second part';
    case 'too-many-parts':
      return `a set takes at most ${fault.most} parts`;
  }
}

/** Returns why the log's database is not open. */
export function openFaultSentence(fault: OpenFault | null): string {
  switch (fault?.type) {
    case 'no-storage':
      return 'This browser keeps nothing for this page (a private window does that). Open it in an ordinary window.';
    case 'open-timeout':
      return 'The browser’s storage did not answer. Reload; if that does not help, restart the phone. Nothing is deleted.';
    case 'blocked':
      return 'Another tab holds an older version open. Close the other tabs of this app, then reload.';
    case 'newer':
      return 'These records were written by a newer version of the app. Reload to get it; until then a backup can be saved.';
    default:
      return `The browser’s storage could not be opened${fault ? ` (${fault.name})` : ''}. Reload; nothing is deleted.`;
  }
}

/** Returns why something is not saved. */
export function saveFaultSentence(fault: SaveFault | null): string {
  switch (fault?.type) {
    case 'storage-full':
      return 'this phone’s storage is full: free some space, or save a backup file';
    case 'connection-lost':
      return 'the browser dropped its storage: try again, or reload after saving a backup file';
    case 'write-failed':
      return `the browser refused the write (${fault.name})`;
    case 'not-the-writer':
      return 'another tab is the one that writes';
    case undefined:
      return 'the browser is slow to answer';
  }
}

const NOT_NOTED = 'not noted';

/** Returns effort as it was told: `2 left`, `1½ left`, `nothing left`, `4 or more left`, `RPE 8.5`. */
export function effortText(effort: Effort): string {
  if ('atLeast' in effort) return '4 or more left';
  if (effort.as === 'rpe') return `RPE ${number(effort.value)}`;
  return effort.value === 0 ? 'nothing left' : `${halves(effort.value)} left`;
}

/** Returns a number of halves as it is spoken: 1½, ½, 3. */
export function halves(value: number): string {
  const whole = Math.floor(value);
  return value === whole ? number(whole) : `${whole === 0 ? '' : number(whole)}½`;
}

/** Returns what was observed of a set, in a line; "not noted" where nothing was. */
export function observedText(set: SetRecord, cueWords: (id: string) => string | undefined): string {
  const said = [
    set.effort && effortText(set.effort),
    set.form,
    set.ended && set.ended !== 'made' ? ENDED[set.ended] : set.ended,
    ...set.cues.map((use) =>
      use.answer ? `cue ${ANSWER[use.answer]}` : `cue “${clipped(cueWords(use.cue) ?? 'not in this library')}”`,
    ),
    ...set.faults.map((fault) => `${FAULTS[fault.id as ShippedFault] ?? fault.id}${fault.gone ? ', gone' : ''}`),
    set.pain && `pain ${set.pain.value}`,
    set.note && 'note',
  ].filter((text) => typeof text === 'string');
  return said.length === 0 ? NOT_NOTED : said.join(' · ');
}

/** Returns what is at odds or newer in a set, or undefined where nothing is. */
export function unreadSentence(unread: readonly Unread[]): string | undefined {
  const [first] = unread;
  switch (first?.type) {
    case undefined:
      return undefined;
    case 'from-a-newer-app':
      return `from a newer app: ${clipped(JSON.stringify(first.value))}; kept, not counted`;
    case 'no-exercise':
      return 'needs mending: no exercise is noted';
    case 'no-instant':
      return 'needs mending: no time is noted';
    case 'added-and-assist':
      return 'needs mending: load added and load taken off are both noted';
    case 'parts-missing':
      return 'needs mending: its later parts are not noted';
    case 'parts-unasked':
      return 'needs mending: it has parts but is no drop set or cluster';
  }
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
    'add-client': 'new client',
    'edit-client': 'client',
    'add-exercise': 'new exercise',
    'add-cue': 'new cue',
    'set-up': 'set-up',
    'body-mass': 'body mass',
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

const clipped = (text: string): string => (text.length > 24 ? `${text.slice(0, 23)}…` : text);
