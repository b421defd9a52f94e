import { instantAt } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import { readSet } from '../domain/set';
import type { DeviceNameFault } from '../log/deviceNames';
import { type Json, type Row, type Stamp, valueAt } from '../merge/row';
import { countOf, dayShort, number, timeOfDay } from './format';
import { heldText } from './sentence';
import { effortText } from './setWords';

/* What the rows of the log are called where they are told one by one: what someone has to settle, to mend, or may bring back. */

/** What the words need to know of others: what clients are called, and the exercises. */
export type Names = {
  readonly client: (stream: string) => string | undefined;
  readonly exercise: (id: string) => Exercise | undefined;
};

/** The last part of a path, in words; one that is called by its own name is not here. */
const FIELD: Readonly<Record<string, string>> = {
  added: 'load added',
  assist: 'load taken off',
  seconds: 'time in seconds',
  good: 'how many were good',
  smooth: 'smoothness',
  setUp: 'set-up',
  at: 'time',
  in: 'place in its block',
  ended: 'how it ended',
  noRest: 'logged without rest',
  tally: 'count over the session',
  movedTo: 'where it was moved to',
  off: 'rest by the clock',
  work: 'work',
  every: 'time of each round',
  cap: 'time limit',
  was: 'exercise before the swap',
  swappedFor: 'what it was swapped for',
  alias: 'name',
  short: 'short name',
  date: 'day to work towards',
  since: 'day added',
  landings: 'landings',
  question: 'question agreed on',
  from: 'begin',
  to: 'end',
  order: 'place in the order',
  length: 'heights and distances',
  firstDay: 'first day of the week',
  start: 'start',
};

/** Fields that are called by their own names. */
const PLAIN =
  /^(band|pin|reps|distance|tries|degrees|exercise|kind|side|direction|tempo|height|pause|effort|form|pain|note|load|plan|skipped|rounds|rest|started|stopped|done|name|words|hours|day|who|what|until|pins|bands|bars|plates|dumbbells|unit|pattern|holds|sides|value|place|template|fault|focus|share|goal)$/;

const OF_SESSION: Readonly<Record<string, string>> = {
  start: 'start',
  end: 'end',
  minutes: 'minutes',
  effort: 'whole-session effort',
  attendance: 'attendance',
  why: 'why',
  plannedDay: 'planned day',
};

// by own names only: a newer app may name a path `constructor`
const own = (words: Readonly<Record<string, string>>, name: string): string | undefined =>
  Object.hasOwn(words, name) ? words[name] : undefined;
const fieldWords = (name: string): string | undefined => own(FIELD, name) ?? (PLAIN.test(name) ? name : undefined);

/** Returns what a path of a row means, in words; the path itself where this version does not know it. */
export function pathWords(kind: string, path: string): string {
  const parts = path.split('/');
  const [head = '', , name = '', ...more] = parts;
  const last = fieldWords(parts.at(-1) ?? '');
  if (parts.length === 1) return (kind === 'session' ? own(OF_SESSION, head) : undefined) ?? last ?? path;
  if (kind === 'client' && head === 'setUps') return last ? `set-up: ${last}` : path;
  if (kind === 'client' && head === 'clearances') return 'clearance';
  if (kind === 'settings' && head === 'devices') return 'name of a device';
  if (kind === 'settings' && head === 'rest') return 'rest after a set';
  if (kind === 'settings') return last ?? path;
  if (head === 'days') return `day of the week: ${parts[1]}`;
  if (head === 'hides') return 'what is hidden';
  if (kind === 'role' && head === 'targets') return parts.length === 2 ? 'target' : `target: ${last ?? parts[2]}`;
  if (kind !== 'session' && kind !== 'template') return path;
  if (head === 'arrival') return `before we start: ${parts[1]}`;
  if (head === 'signs') return 'stop sign';
  if (head === 'pauses') return last ? `pause: ${last}` : path;
  if (head === 'exercises') return last ?? path;
  if (head === 'sets' && name === 'marks') return `landing ${more[0]}`;
  if (head === 'sets' && name === 'cues') return 'cue';
  if (head === 'sets' && name === 'faults') return 'fault';
  if (head === 'sets') return last ? (name === 'parts' ? `${last} of a later part` : last) : path;
  if (head === 'blocks') return last ? (name === 'stations' ? `${last} of a station` : last) : path;
  return path;
}

/** Returns a value at a path as a person would say it; what this version does not know as it is written. */
export function valueWords(names: Names, path: string, value: Json): string {
  if (value === null) return 'not noted';
  if (typeof value === 'number') return number(value);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const exercise = typeof value === 'string' && /(^|\/)exercise$/.test(path) ? names.exercise(value) : undefined;
  if (exercise) return exercise.name;
  if (typeof value === 'string') return value === '' ? 'empty' : value.length > 200 ? `${value.slice(0, 199)}…` : value;
  if (isRecord(value)) {
    const { at, day, zone, value: amount, unit, as, atLeast, name, cue, answer } = value;
    if (typeof at === 'number' && typeof zone === 'string') return momentWords(at, zone);
    if (typeof amount === 'number' && typeof unit === 'string') return `${number(amount)} ${unit}`;
    if (typeof amount === 'number' && (as === 'left' || as === 'rpe')) return effortText({ value: amount, as });
    if (atLeast === 4) return effortText({ atLeast });
    if (typeof amount === 'number') return number(amount);
    if (typeof name === 'string' && typeof day === 'string') return `${name}, ${dayShort(day)}`;
    if (typeof day === 'string') return dayShort(day);
    if (typeof cue === 'string') return typeof answer === 'string' ? answer : 'given';
  }
  const text = JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 79)}…` : text;
}

const KIND: Readonly<Record<string, string>> = {
  session: 'session',
  client: 'client',
  template: 'template',
  restriction: 'restriction',
  otherWork: 'other work',
  result: 'body mass',
  exercise: 'exercise',
  cue: 'cue',
  stub: 'a client handed over',
  kit: 'place',
  settings: 'settings',
};

/** Returns whose a row is and what it is: `Client K · session of 24 Nov`. */
export function rowWords(names: Names, row: Row): string {
  const what = own(KIND, row.kind) ?? row.kind;
  const text = (path: string): string => {
    const value = valueAt(row, path);
    return typeof value === 'string' ? value : '';
  };
  const day = dayOf(row);
  const told =
    row.kind === 'session' || row.kind === 'result'
      ? `${what}${day ? ` of ${dayShort(day)}` : ''}`
      : row.kind === 'otherWork'
        ? `${text('work') || what}${day ? ` on ${dayShort(day)}` : ''}`
        : [what, text('name') || text('what') || text('words') || names.exercise(row.id)?.name]
            .filter(Boolean)
            .join(' ');
  if (row.stream === 'main') return told;
  const who = names.client(row.stream) ?? (row.kind === 'client' ? text('alias') : '');
  if (row.kind === 'client') return who === '' ? 'a client without a name' : who;
  return `${who === '' || who === undefined ? 'a client who was removed' : who} · ${told}`;
}

/** Returns what a thing inside a row is, `''` for the row itself: `Front squat 60 kg × 5 at 10:04`, `block`. */
export function thingWords(names: Names, row: Row, path: string): string {
  const [head = '', id = ''] = path.split('/');
  if (path === '') return '';
  if (head === 'sets') return setWordsOf(names, row, id);
  const exercise = names.exercise(id)?.name;
  if (head === 'exercises' || head === 'setUps' || head === 'clearances' || head === 'hides')
    return exercise ?? 'an exercise';
  if (head !== 'blocks') return '';
  const name = valueAt(row, `blocks/${id}/name`);
  return typeof name === 'string' && name !== '' ? `block ${name}` : 'a block';
}

/** Returns where something is, from whose it is to the thing: `Client K · session of 24 Nov · Front squat 60 kg × 5 at 10:04`. */
export function whereWords(names: Names, row: Row, path: string): string {
  return [rowWords(names, row), thingWords(names, row, path)].filter((part) => part !== '').join(' · ');
}

/** Returns what a device is called: its name, or that it is this one, or the letters it is told apart by. */
export function deviceWords(device: string, names: ReadonlyMap<string, string>, own: string): string {
  const name = names.get(device);
  if (device === own) return name === undefined ? 'this device' : `${name} (this device)`;
  return name ?? `a device without a name (${device.slice(0, 4)})`;
}

/** Returns when a stamp says it was, by the clock of the device that wrote it: `24 Nov, 10:04`. */
export const stampWords = ({ l }: Stamp, zone: string): string => momentWords(l, zone);

function momentWords(at: number, zone: string): string {
  // a clock, or a zone, that no calendar knows
  try {
    return `${dayShort(instantAt(at, zone).day)}, ${timeOfDay(at, zone)}`;
  } catch {
    return 'an unknown time';
  }
}

/** Returns how much is left out of what is counted: `2 values are left out of what is counted.` */
export const leftOutWords = (count: number): string =>
  `${countOf(count, 'value')} ${count === 1 ? 'is' : 'are'} left out of what is counted until mended; nothing is deleted.`;

/** Returns what Today says of what waits on the Records page; undefined where nothing does. */
export function waitingWords({ beside, both, mending }: { beside: number; both: number; mending: number }) {
  const settle = beside + both;
  const parts = [settle > 0 ? `${number(settle)} to settle` : '', mending > 0 ? `${number(mending)} to mend` : ''];
  const said = parts.filter((part) => part !== '').join(', ');
  return said === '' ? undefined : `Records: ${said}`;
}

export const RECORDS = {
  intro: 'What was written on two devices, what does not go together, and what was removed. Nothing here is urgent.',
  beside: 'Written on two devices',
  besideHint:
    'Neither had seen the other. One tap settles it for all devices. The other value stays below for a while, to be chosen after all.',
  said: 'Settled. The Records page keeps the other value for a while.',
  settled: 'Settled lately',
  settledHint: 'What was chosen, and what was let go. A tap on another one chooses that.',
  both: 'Removed here, edited there',
  bothHint: 'Whoever removed it had not seen the edit, so it is still there.',
  mending: 'Needs mending',
  removed: 'Removed in the last thirty days',
  nothing: 'Nothing to settle, nothing to mend.',
  noneRemoved: 'Nothing was removed in the last thirty days.',
  unread: 'The store could not be read just now. Try again; nothing is lost.',
  follower: 'Another tab of this app is the one that writes: settle things there.',
  onTwo: 'Written on two devices; tap the one that is right.',
} as const;

export const DEVICE = {
  label: 'This device’s name',
  hint: 'Such as “Gym phone”. Where two devices wrote different things, each is told by its name. Your other devices learn it with the records.',
} as const;

/** Returns why a name was not taken for a device. */
export const deviceNameSentence = ({ most, has }: DeviceNameFault): string =>
  `a device’s name must have at most ${number(most)} characters; this has ${number(has)}`;

/** What erasing wipes, what it does not reach, and that it is for good. */
export const ERASE = {
  begin: 'Erase this client for good…',
  wipes:
    'This wipes the client from this device: all sessions, sets, results, notes, pain, restrictions, templates, drafts, the second copy, and every undo that touched them. Your other devices wipe them too, once a backup from here is taken in there.',
  reaches: 'It does not reach files that were made before. Find them and delete them by hand:',
  copies: 'copies that were sent to another device or person',
  disk: 'What a browser has deleted can lie on the disk until it is written over; the phone’s own encryption covers it.',
  final: 'There is no undo.',
  different: 'This is not the client’s name as it stands above.',
  done: 'Erased.',
  stub: 'One line stays: what the client was called, to whom the record was handed over, and when.',
} as const;

/** Returns which backup files may hold the client: `backup files (cuewright-….jsonl), the last one saved on 24 Nov`. */
export const backupsWords = (lastDay: string | null): string =>
  `backup files (cuewright-….age, cuewright-….jsonl)${lastDay === null ? '; none is known to have been saved on this device' : `, the last one saved on ${dayShort(lastDay)}`}`;

function setWordsOf(names: Names, row: Row, id: string): string {
  const prefix = `sets/${id}/`;
  const values = Object.entries(row.body).flatMap(([path, [held]]) =>
    path.startsWith(prefix) && path !== `${prefix}removed` ? [[path.slice(prefix.length), held.value] as const] : [],
  );
  const set = readSet(id, Object.fromEntries(values));
  if (!set) return 'a set';
  const exercise = set.exercise === undefined ? undefined : names.exercise(set.exercise);
  const held = heldText(set, exercise);
  const when = set.at ? ` at ${timeOfDay(set.at.at, set.at.zone)}` : '';
  return `${[exercise?.name ?? 'a set', held].filter((part) => part !== '').join(' ')}${when}`;
}

function dayOf(row: Row): string | undefined {
  const value = valueAt(row, row.kind === 'session' ? 'start' : 'day') ?? valueAt(row, 'plannedDay');
  if (typeof value === 'string') return value;
  return isRecord(value) && typeof value['day'] === 'string' ? value['day'] : undefined;
}

const isRecord = (value: Json | undefined): value is { readonly [key: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
