import type { Holds, Pattern } from '../domain/exercise';
import type { ShippedFault } from '../domain/library';
import type { Attendance } from '../domain/session';
import type { Direction, Effort, LandingSign, Mark, SetKind, SetRecord, Side, Unread } from '../domain/set';
import { goodOf } from '../domain/set';
import { clipped, number } from './format';
import { FAULTS } from './libraryWords';

/* What sets, exercises and what was seen of them are called, and what is said of one set. */

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
  carry: 'carry: load, distance, time',
  landings: 'landings',
  tries: 'tries: throws, strikes, skills',
  degrees: 'degrees',
  tick: 'done, nothing counted',
};
export const PATTERNS: Readonly<Record<Pattern, string>> = {
  squat: 'squat',
  hinge: 'hinge',
  push: 'push',
  pull: 'pull',
  carry: 'carry',
  landing: 'jump and land',
  throw: 'throw and strike',
  skill: 'skill',
  trunk: 'trunk',
  range: 'range',
};
export const DIRECTION: Readonly<Record<Direction, string>> = {
  ahead: 'ahead',
  diagonal: 'diagonal out',
  out: 'out',
  'back-out': 'back-out',
  across: 'across',
};
export const LANDING_SIGN: Readonly<Record<LandingSign, string>> = {
  quiet: 'quiet',
  knee: 'knee over foot',
  held: 'held',
};
export const SIDES = { both: 'both sides at once', each: 'each side apart' } as const;

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
    goodText(set),
    set.smooth !== undefined && `smooth ${set.smooth} of 5`,
    set.effort && effortText(set.effort),
    set.form,
    set.ended && set.ended !== 'made' ? ENDED[set.ended] : set.ended,
    ...set.cues.map((use) =>
      use.answer ? `cue ${ANSWER[use.answer]}` : `cue “${clipped(cueWords(use.cue) ?? 'not in this library')}”`,
    ),
    ...set.faults.map((fault) => `${FAULTS[fault.id as ShippedFault] ?? fault.id}${fault.gone ? ', gone' : ''}`),
    set.pain && `pain ${set.pain.value}${set.pain.rising ? ', rising' : ''}`,
    set.note && 'note',
  ].filter((text) => typeof text === 'string');
  return said.length === 0 ? NOT_NOTED : said.join(' · ');
}

/** Returns how many landings or tries were good, of those that were judged; undefined where none was. */
export function goodText(set: SetRecord): string | undefined {
  const judged = goodOf(set);
  if (!judged) return undefined;
  const total = set.landings ?? set.tries ?? judged.of;
  const open = total - judged.of;
  const missing = missingSigns(set.marks);
  return `${judged.good} of ${judged.of} good${open > 0 ? `, ${open} not noted` : ''}${missing ? ` (${missing})` : ''}`;
}

/** What was missing of the landings that were not good, with how often. */
function missingSigns(marks: readonly Mark[]): string {
  const signs: readonly LandingSign[] = ['quiet', 'knee', 'held'];
  return signs
    .flatMap((sign) => {
      const count = marks.filter((mark) => mark[sign] === false).length;
      return count > 0 ? [`not ${LANDING_SIGN[sign]} ${count}`] : [];
    })
    .join(', ');
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
    case 'more-good-than-done':
      return 'needs mending: more good ones are noted than were done';
    case 'ended-before-start':
      return 'needs mending: it ends before it starts';
    case 'pause-backwards':
      return 'needs mending: a pause ends before it begins';
    case 'parts-unasked':
      return 'needs mending: it has parts but is no drop set or cluster';
  }
}
