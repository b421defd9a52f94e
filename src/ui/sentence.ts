import type { Entry, Field, Fields } from '../domain/entry';
import { fieldsFrom, fieldsOf, mayBeEmpty } from '../domain/entry';
import type { Exercise } from '../domain/exercise';
import type { Plan } from '../domain/plan';
import type { BodyWay, Hold, SetRecord } from '../domain/set';
import type { SetUp } from '../domain/setUp';
import { countOf, number, typedNumber } from './format';
import { BODY_WAY, DIRECTION, KINDS, SIDE } from './setWords';

/** A part of the sentence that is the next set: a word that can be tapped, or one that only joins. */
export type Piece =
  | { readonly type: 'field'; readonly field: Field; readonly part: number; readonly text: string }
  | { readonly type: 'choice'; readonly choice: Choice; readonly text: string }
  | { readonly type: 'joint'; readonly text: string };

/** What of the sentence is chosen rather than typed. */
export type Choice = 'body' | 'side' | 'kind' | 'direction' | 'smooth';

/** Returns the next set as a sentence: `57.5 kg × 5, left working`. An empty field shows what it waits for. */
export function sentenceOf(entry: Entry, exercise: Exercise): readonly Piece[] {
  const pieces: Piece[] = [...partPieces(entry, entry, exercise, 0)];
  if (entry.kind === 'drop' || entry.kind === 'cluster') {
    for (const [index, part] of entry.parts.entries()) {
      pieces.push({ type: 'joint', text: 'then' }, ...partPieces(part, entry, exercise, index + 1));
    }
  }
  if (exercise.holds === 'landings') {
    pieces.push({
      type: 'choice',
      choice: 'direction',
      text: entry.direction ? DIRECTION[entry.direction] : 'direction?',
    });
  }
  if (exercise.holds === 'tries') {
    pieces.push({
      type: 'choice',
      choice: 'smooth',
      text: entry.smooth === null ? 'smooth?' : `smooth ${entry.smooth}`,
    });
  }
  if (exercise.holds === 'tick') pieces.push({ type: 'joint', text: 'done,' });
  if (entry.side) pieces.push({ type: 'choice', choice: 'side', text: SIDE[entry.side] });
  pieces.push({ type: 'choice', choice: 'kind', text: KINDS[entry.kind] });
  return pieces;
}

/** Returns the next set as one short text, without what is chosen; empty where something is still to be said, and of a set in parts. */
export function saidText(entry: Entry, exercise: Exercise): string {
  if (entry.parts.length > 0) return '';
  const pieces = sentenceOf(entry, exercise).filter((piece) => piece.type !== 'choice');
  const isOpen = (piece: Piece): boolean => piece.type === 'field' && entry[piece.field].trim() === '';
  if (pieces.some((piece) => piece.type === 'field' && isOpen(piece) && !mayBeEmpty(piece.field, exercise.holds)))
    return '';
  const said = pieces.filter((piece) => !isOpen(piece));
  // a joint says nothing without what it joins
  const joined = said.filter((piece, at) => piece.type === 'field' || said[at + 1]?.type === 'field');
  return joined.map((piece) => piece.text).join(' ');
}

function partPieces(fields: Fields, entry: Entry, exercise: Exercise, part: number): Piece[] {
  const pieces: Piece[] = [];
  if (exercise.holds === 'body' && part === 0)
    pieces.push({ type: 'choice', choice: 'body', text: bodyWord(entry.body) });
  const names = fieldsOf(exercise.holds, entry.body);
  for (const field of names) {
    if (field === 'load' && exercise.holds === 'time') {
      continue;
    }
    if (field === 'reps' || field === 'distance') pieces.push({ type: 'joint', text: '×' });
    if (field === 'seconds' && exercise.holds === 'carry') pieces.push({ type: 'joint', text: 'in' });
    pieces.push({ type: 'field', field, part, text: fieldText(field, fields[field], entry, exercise) });
  }
  if (exercise.holds === 'time') {
    pieces.push(
      { type: 'joint', text: 'with' },
      { type: 'field', field: 'load', part, text: fieldText('load', fields.load, entry, exercise) },
    );
  }
  return pieces;
}

const bodyWord = (body: BodyWay): string =>
  body === 'alone'
    ? BODY_WAY.alone
    : body === 'added'
      ? `${BODY_WAY.alone} +`
      : body === 'assist'
        ? `${BODY_WAY.alone} −`
        : `${BODY_WAY.alone},`;

const WAITS: Readonly<Record<Field, string>> = {
  load: 'load?',
  reps: 'reps?',
  band: 'band?',
  pin: 'pin?',
  seconds: 'time?',
  distance: 'distance?',
  landings: 'landings?',
  tries: 'tries?',
  good: 'good?',
  degrees: 'degrees?',
};

function fieldText(field: Field, text: string, entry: Entry, exercise: Exercise): string {
  if (text.trim() === '') return field === 'load' && exercise.holds === 'time' ? 'no load' : WAITS[field];
  switch (field) {
    case 'load':
      return `${exercise.perHand ? '2 × ' : ''}${typedNumber(text)} ${entry.unit}`;
    case 'reps':
      return typedNumber(text);
    case 'band':
      return `${text} band`;
    case 'pin':
      return `pin ${text}`;
    case 'seconds':
      return `${typedNumber(text)} s`;
    case 'distance':
      return `${typedNumber(text)} ${entry.distanceUnit}`;
    case 'landings':
      return `${typedNumber(text)} landing${text.trim() === '1' ? '' : 's'}`;
    case 'tries':
      return `${typedNumber(text)} ${text.trim() === '1' ? 'try' : 'tries'}`;
    case 'good':
      return `${typedNumber(text)} good`;
    case 'degrees':
      return `${typedNumber(text)}°`;
  }
}

/** Returns what a logged set held, as a line of the record: `57.5 kg × 5`, `body mass + 10 kg × 5, then …`. */
export function heldText(set: SetRecord, exercise: Exercise | undefined): string {
  const parts = [heldPart(set, exercise, true), ...set.parts.map((part) => heldPart(part, exercise, false))];
  return parts.join(' then ');
}

/** Returns the load or its like of a set alone, for lines that give it once: `57.5 kg`. */
export function loadText(held: Hold, exercise: Exercise | undefined): string {
  const { load, unit, band, pin, body } = fieldsFrom(held);
  if (band) return `${band} band`;
  if (pin) return `pin ${pin}`;
  if (load === '') return exercise?.holds === 'body' ? BODY_WAY.alone : '';
  const weight = `${exercise?.perHand ? '2 × ' : ''}${typedNumber(load)} ${unit ?? ''}`;
  return body === 'added' ? `+${weight}` : body === 'assist' ? `−${weight}` : weight;
}

/** Returns the count of a set alone: reps, seconds, metres, landings, tries or degrees. */
export function countText(held: Hold & { readonly direction?: SetRecord['direction'] }): string {
  const { seconds, distance, landings, tries, degrees, reps, direction } = held;
  if (distance) {
    const far = `${number(distance.value)} ${distance.unit}`;
    return seconds === undefined ? far : `${far} in ${number(seconds)} s`;
  }
  if (seconds !== undefined) return `${number(seconds)} s`;
  if (landings !== undefined) return countOf(landings, 'landing') + (direction ? ` ${DIRECTION[direction]}` : '');
  if (tries !== undefined) return tries === 1 ? '1 try' : `${number(tries)} tries`;
  if (degrees !== undefined) return `${number(degrees)}°`;
  return reps === undefined ? '–' : number(reps);
}

function heldPart(held: Hold, exercise: Exercise | undefined, first: boolean): string {
  const load = loadText(held, exercise);
  const count = countText(held);
  if (exercise?.holds === 'tick') return 'done';
  if (held.distance === undefined && held.seconds !== undefined) {
    if (exercise?.holds === 'carry') return `${load} for ${count}`;
    return load && load !== BODY_WAY.alone ? `${count} with ${load}` : count;
  }
  if (held.landings !== undefined || held.tries !== undefined || held.degrees !== undefined) return count;
  const body = first && exercise?.holds === 'body' && load !== BODY_WAY.alone ? `${BODY_WAY.alone} ${load}` : load;
  return body ? `${body} × ${count}` : `× ${count}`;
}

/** Returns what is planned, in a few words: `pin 7 × 8`, `2 × 20 kg × 40 m`, `30 s`; empty where nothing is. */
export function planText(plan: Plan, exercise: Exercise | undefined): string {
  const { load, unit = 'kg', reps, band, pin, seconds, distance, distanceUnit = 'm', landings, tries, degrees } = plan;
  const weight = load === undefined ? undefined : `${exercise?.perHand ? '2 × ' : ''}${typedNumber(load)} ${unit}`;
  const held = band !== undefined ? `${band} band` : pin !== undefined ? `pin ${pin}` : weight;
  const count =
    distance !== undefined
      ? `${typedNumber(distance)} ${distanceUnit}`
      : seconds !== undefined
        ? `${typedNumber(seconds)} s`
        : landings !== undefined
          ? `${landings} landings`
          : tries !== undefined
            ? `${tries} tries`
            : degrees !== undefined
              ? `${degrees}°`
              : reps;
  const what = [held, count].filter((text) => text !== undefined).join(' × ');
  return plan.sets === undefined ? what : `${countOf(plan.sets, 'set')}${what === '' ? '' : ` of ${what}`}`;
}

/** Returns a set-up in a line: `low bar · tempo 3-1-1-0 · 40 cm · 2 s pause`. */
export function setUpText({ setUp, tempo, height, pause }: SetUp): string {
  return [
    setUp,
    tempo === undefined ? undefined : `tempo ${tempo}`,
    height && `${number(height.value)} ${height.unit}`,
    pause === undefined ? undefined : `${number(pause)} s pause`,
  ]
    .filter((text) => text !== undefined)
    .join(' · ');
}
