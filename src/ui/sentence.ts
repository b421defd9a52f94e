import type { BodyWay, Entry, Field, Fields } from '../domain/entry';
import { fieldsFrom, fieldsOf } from '../domain/entry';
import type { Exercise } from '../domain/exercise';
import type { Hold, SetRecord } from '../domain/set';
import { typedNumber } from './format';
import { BODY_WAY, KINDS, SIDE } from './words';

/** A part of the sentence that is the next set: a word that can be tapped, or one that only joins. */
export type Piece =
  | { readonly type: 'field'; readonly field: Field; readonly part: number; readonly text: string }
  | { readonly type: 'choice'; readonly choice: 'body' | 'side' | 'kind'; readonly text: string }
  | { readonly type: 'joint'; readonly text: string };

/** Returns the next set as a sentence: `57.5 kg × 5, left working`. An empty field shows what it waits for. */
export function sentenceOf(entry: Entry, exercise: Exercise): readonly Piece[] {
  const pieces: Piece[] = [...partPieces(entry, entry, exercise, 0)];
  if (entry.kind === 'drop' || entry.kind === 'cluster') {
    for (const [index, part] of entry.parts.entries()) {
      pieces.push({ type: 'joint', text: 'then' }, ...partPieces(part, entry, exercise, index + 1));
    }
  }
  if (entry.side) pieces.push({ type: 'choice', choice: 'side', text: SIDE[entry.side] });
  pieces.push({ type: 'choice', choice: 'kind', text: KINDS[entry.kind] });
  return pieces;
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
    if (field === 'reps') pieces.push({ type: 'joint', text: '×' });
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

/** Returns the count of a set alone: reps, or seconds. */
export function countText(held: Hold): string {
  if (held.seconds !== undefined) return `${typedNumber(String(held.seconds))} s`;
  return held.reps === undefined ? '–' : typedNumber(String(held.reps));
}

function heldPart(held: Hold, exercise: Exercise | undefined, first: boolean): string {
  const load = loadText(held, exercise);
  const count = countText(held);
  if (held.seconds !== undefined) return load && load !== BODY_WAY.alone ? `${count} with ${load}` : count;
  const body = first && exercise?.holds === 'body' && load !== BODY_WAY.alone ? `${BODY_WAY.alone} ${load}` : load;
  return body ? `${body} × ${count}` : `× ${count}`;
}
