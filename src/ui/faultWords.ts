import type { MassFault } from '../domain/bodyMass';
import type { ClientFault } from '../domain/client';
import type { EntryFault } from '../domain/entry';
import type { PlaceFault } from '../domain/kitFields';
import type { NumberFault } from '../domain/number';
import type { RestrictionFault } from '../domain/restriction';
import type { TargetFault } from '../domain/target';
import type { BlockFault } from '../log/blockActs';
import type { AnswerFault, ClearanceFault } from '../log/careActs';
import type { ExerciseFault, NameFault, QuestionFault } from '../log/libraryActs';
import type { EndFault } from '../log/sessionActs';
import type { NoteFault } from '../log/setActs';
import type { WorkFault } from '../log/workActs';
import { clipped, number } from './format';

/* Why something was not taken, as sentences: what must hold, and what was found. */

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
  distance: 'distance',
  landings: 'landings',
  tries: 'tries',
  good: 'good ones',
  degrees: 'degrees',
  direction: 'direction',
  tempo: 'tempo',
  height: 'height',
  pause: 'pause',
  rounds: 'rounds',
  rest: 'rest',
  step: 'step',
  work: 'work',
  off: 'rest between',
  every: 'time of a round',
  cap: 'time in all',
  stations: 'stations',
  tally: 'how many in all',
  place: 'name of the place',
  bands: 'bands',
  bars: 'bars',
  goal: 'goal',
  start: 'start',
  'target-reps': 'reps',
  'target-day': 'day',
  plates: 'plates',
  dumbbells: 'dumbbells',
  pins: 'highest pin',
  who: 'who said it',
  what: 'what was said',
  from: 'from',
  until: 'until',
  clearance: 'who cleared it',
  question: 'question',
  answer: 'answer',
};

/** Returns what a field is called on the screen. */
export const fieldName = (field: string): string => FIELD[field] ?? field;

export type AnyFault =
  | EntryFault
  | ClientFault
  | NameFault
  | ExerciseFault
  | NoteFault
  | EndFault
  | MassFault
  | PlaceFault
  | RestrictionFault
  | TargetFault
  | BlockFault
  | AnswerFault
  | ClearanceFault
  | QuestionFault
  | WorkFault
  | NumberFault<'tally'>
  | { type: 'off-step'; field: 'rpe'; step: number };

/** Fields that take whole numbers alone. */
const WHOLE: ReadonlySet<string> = new Set(['reps', 'landings', 'tries', 'good', 'rounds', 'tally', 'degrees', 'age']);

/** Returns the house sentence of a fault: what must hold, and what was found. */
export function faultSentence(fault: AnyFault): string {
  const field = fieldName(fault.field) + ('part' in fault && fault.part !== undefined ? ` of part ${fault.part}` : '');
  switch (fault.type) {
    case 'empty':
      return `${field} must say something`;
    case 'not-a-number':
      return `${field} must be a number, such as ${WHOLE.has(fault.field) ? '5' : '57.5'}; this is “${clipped(fault.text)}”`;
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
      return `${field} must be a day that exists, such as 2027-02-28; this is “${clipped(fault.text)}”`;
    case 'no-side':
      return 'side must be left or right';
    case 'parts-missing':
      return 'a drop set or cluster needs a second part';
    case 'not-a-tempo':
      return `tempo must be four parts, such as 3-1-1-0 (down, below, up, above; x is fast); this is “${clipped(fault.text)}”`;
    case 'no-distance-or-time':
      return 'a carry must say how far or how long';
    case 'more-good-than-done':
      return `good ones can be at most ${number(fault.of)}: so many were done`;
    case 'not-a-list':
      return `reps must be a list, such as 21-15-9; this is “${clipped(fault.text)}”`;
    case 'too-many-stations':
      return `a block takes at most ${fault.most} stations`;
    case 'too-many':
      return `${field}: at most ${fault.most}`;
    case 'not-weights':
      return `${field} must be numbers with a space between, such as 20 2.5; this is “${clipped(fault.text)}”`;
    case 'not-rows':
      return `${field} must be rows such as 2-20 by 2, or one weight; this is “${clipped(fault.text)}”`;
    case 'not-above':
      return 'goal must be above the start';
    case 'past-day':
      return 'the day must lie after today';
    case 'ends-before':
      return 'until must not be before from';
    case 'too-many-parts':
      return `a set takes at most ${fault.most} parts`;
  }
}
