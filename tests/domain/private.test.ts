import { expect, test } from 'vitest';
import { ARRIVAL_ITEMS, SORE_PLACES, sorePath } from '../../src/domain/arrival';
import { type PrivateTopic, privateTopics } from '../../src/domain/private';
import { setSchemas } from '../../src/domain/set';

/** Registers of a set that another trainer needs, by name: one that is new has to be put here, or judged private. */
const TRAINING = [
  'added',
  'assist',
  'at',
  'band',
  'degrees',
  'direction',
  'distance',
  'effort',
  'exercise',
  'form',
  'good',
  'height',
  'in',
  'kind',
  'landings',
  'load',
  'movedTo',
  'noRest',
  'pause',
  'pin',
  'reps',
  'seconds',
  'setUp',
  'side',
  'smooth',
  'tally',
  'tempo',
  'tries',
];

test('of a set the note and the pain are private, and an ending that was pain; every other register was judged to be training', () => {
  const topics = (name: string, value: unknown) => privateTopics('session', `sets/s1/${name}`, value);
  const free = Object.keys(setSchemas).filter((name) => topics(name, 'x').length === 0);
  expect(free.filter((name) => name !== 'ended').sort()).toEqual(TRAINING);
  expect([topics('note', 'x'), topics('pain', { value: 2 })]).toEqual([['notes'], ['pain']]);
  expect(['made', 'missed', 'stopped', 'pain', null].map((value) => topics('ended', value))).toEqual([
    [],
    [],
    [],
    ['pain'],
    [],
  ]);
});

test('how a client came in is private as a whole; of it what hurts is pain as well', () => {
  for (const item of [...ARRIVAL_ITEMS, 'usual', 'answer', 'of-a-newer-app'])
    expect(privateTopics('session', `arrival/${item}`, 3)).toEqual(['arrival']);
  for (const place of ['pain', ...SORE_PLACES.map(sorePath)])
    expect(privateTopics('session', `arrival/${place}`, true)).toEqual(['pain', 'arrival']);
});

test.each<[kind: string, path: string, topics: readonly PrivateTopic[]]>([
  ['session', 'note', ['notes']],
  ['session', 'why', ['notes']],
  ['session', 'exercises/e1/skipped', ['notes']],
  ['session', 'blocks/b1/stations/t1/skipped', ['notes']],
  ['session', 'signs/g1', ['pain']],
  ['session', 'exercises/e1/plan', []],
  ['session', 'effort', []],
  ['client', 'question', ['arrival']],
  ['client', 'clearances/e1', ['pain']],
  ['client', 'setUps/e1/setUp', []],
  ['client', 'alias', []],
  ['otherWork', 'note', ['notes']],
  ['restriction', 'what', []],
  ['restriction', 'hides/e1', []],
  ['fromANewerApp', 'deep/notes/1', ['notes']],
  ['fromANewerApp', 'deep/pain', ['pain']],
  ['fromANewerApp', 'keynote', []],
])('%s %s: %j', (kind, path, topics) => expect(privateTopics(kind, path, 'x')).toEqual(topics));
