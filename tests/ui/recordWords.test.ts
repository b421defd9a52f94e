import { describe, expect, test } from 'vitest';
import type { Exercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { Json, Row } from '../../src/merge/row';
import {
  backupsWords,
  deviceWords,
  leftOutWords,
  type Names,
  pathWords,
  stampWords,
  valueWords,
  waitingWords,
  whereWords,
} from '../../src/ui/recordWords';

const squat = SHIPPED_EXERCISES.find(({ name }) => name === 'Front squat') as Exercise;
const names: Names = {
  client: (stream) => (stream === 'k' ? 'Client K' : undefined),
  exercise: (id) => (id === squat.id ? squat : undefined),
};

function row(kind: string, stream: string, values: Readonly<Record<string, Json>>, id = 'a'): Row {
  const body = Object.entries(values).map(([path, value]) => [path, [{ value, stamp: { l: 1, writer: 'w-1' } }]]);
  return { id, kind, stream, seen: { 'w-1': 1 }, body: Object.fromEntries(body) };
}

const at = (time: string) => ({ at: Date.parse(`2026-11-24T${time}Z`), day: '2026-11-24', zone: 'UTC' });
const session = row('session', 'k', {
  start: at('10:00'),
  'sets/s1/exercise': squat.id,
  'sets/s1/load': { value: 57.5, unit: 'kg' },
  'sets/s1/reps': 5,
  'sets/s1/at': at('10:04'),
  'blocks/b1/name': 'B',
});

describe('paths in words', () => {
  test.each([
    ['session', 'sets/s1/load', 'load'],
    ['session', 'sets/s1/assist', 'load taken off'],
    ['session', 'sets/s1/parts/p2/reps', 'reps of a later part'],
    ['session', 'sets/s1/marks/3', 'landing 3'],
    ['session', 'effort', 'whole-session effort'],
    ['session', 'sets/s1/effort', 'effort'],
    ['session', 'blocks/b1/stations/x/plan', 'plan of a station'],
    ['session', 'pauses/p/to', 'pause: end'],
    ['session', 'arrival/sleep', 'before we start: sleep'],
    ['client', 'alias', 'name'],
    ['client', 'setUps/e1/height', 'set-up: height'],
    ['settings', 'devices/abc/name', 'name of a device'],
    ['settings', 'load', 'load'],
    ['role', 'targets/t1', 'target'],
    ['role', 'targets/t1/goal', 'target: goal'],
    ['role', 'targets/t1/from', 'target: begin'],
  ])('%s %s is “%s”', (kind, path, said) => expect(pathWords(kind, path)).toBe(said));

  test.each([
    ['session', 'sets/s1/barSpeed'],
    ['session', 'constructor'],
    ['session', 'weather'],
    ['role', 'demands/d1/toString'],
    ['client', 'setUps/e1/constructor'],
  ])('what a newer app wrote is told as it is: %s %s', (kind, path) => expect(pathWords(kind, path)).toBe(path));
});

describe('values in words', () => {
  test.each<[string, Json, string]>([
    ['sets/s/load', { value: 57.5, unit: 'kg' }, '57.5 kg'],
    ['sets/s/reps', 5, '5'],
    ['sets/s/effort', { value: 1.5, as: 'left' }, '1½ left'],
    ['sets/s/effort', { atLeast: 4 }, '4 or more left'],
    ['sets/s/form', null, 'not noted'],
    ['sets/s/tally', true, 'yes'],
    ['sets/s/exercise', squat.id, 'Front squat'],
    ['sets/s/note', '', 'empty'],
    ['date', { name: 'opening', day: '2026-12-01' }, 'opening, 1 Dec'],
    ['sets/s/barSpeed', { from: 'sensor', raw: [1, null] }, '{"from":"sensor","raw":[1,null]}'],
  ])('%s %j is “%s”', (path, value, said) => {
    // the order of day and month is the phone's language's
    const words = valueWords(names, path, value).replace('Dec 1', '1 Dec');
    expect(words).toBe(said);
  });

  test('an endless text is cut, and a time no calendar knows is said to be unknown', () => {
    expect(valueWords(names, 'note', 'x'.repeat(2000))).toHaveLength(200);
    expect(valueWords(names, 'x', { long: 'x'.repeat(2000) })).toHaveLength(80);
    expect(valueWords(names, 'at', { at: 9e15, day: '9999-99-99', zone: 'UTC' })).toBe('an unknown time');
    expect(valueWords(names, 'at', { at: 1, day: '1970-01-01', zone: 'Nowhere/At-all' })).toBe('an unknown time');
    expect(stampWords({ l: 8.7e15, writer: 'a-b' }, 'UTC')).toBe('an unknown time');
  });
});

describe('where something stands', () => {
  test('from whose it is to the set', () => {
    expect(whereWords(names, session, 'sets/s1/load')).toMatch(
      /^Client K · session of (24 Nov|Nov 24) · Front squat 57\.5 kg × 5 at 10:04$/,
    );
    expect(whereWords(names, session, 'blocks/b1')).toMatch(/ · block B$/);
    expect(whereWords(names, session, `exercises/${squat.id}/tally`)).toMatch(/ · Front squat$/);
    expect(whereWords(names, session, 'sets/gone/load')).toMatch(/ · a set$/);
    expect(whereWords(names, session, 'weather')).toMatch(/^Client K · session of (24 Nov|Nov 24)$/);
  });

  test('of rows of every kind, and of clients who are gone', () => {
    expect(whereWords(names, { ...session, stream: 'z' }, '')).toMatch(/^a client who was removed · session of /);
    expect(whereWords(names, row('client', 'z', { alias: 'Vale' }, 'z'), '')).toBe('Vale');
    expect(whereWords(names, row('client', 'z', { alias: 7 }, 'z'), '')).toBe('a client without a name');
    expect(whereWords(names, row('restriction', 'k', { what: 'nothing overhead' }), '')).toBe(
      'Client K · restriction nothing overhead',
    );
    expect(whereWords(names, row('otherWork', 'k', { work: 'rehearsal', day: '2026-11-24' }), '')).toMatch(
      /^Client K · rehearsal on (24 Nov|Nov 24)$/,
    );
    expect(whereWords(names, row('exercise', 'main', {}, squat.id), '')).toBe('exercise Front squat');
    expect(whereWords(names, row('role', 'k', {}), 'demands/d1')).toBe('Client K · role');
  });
});

test('a device is called by its name, and this one is told to be this one', () => {
  const devices = new Map([['phone12', 'Gym phone']]);
  expect(deviceWords('phone12', devices, 'other')).toBe('Gym phone');
  expect(deviceWords('phone12', devices, 'phone12')).toBe('Gym phone (this device)');
  expect(deviceWords('lapt123', devices, 'lapt123')).toBe('this device');
  expect(deviceWords('lapt123', devices, 'phone12')).toBe('a device without a name (lapt)');
});

test('Today is told only of what waits', () => {
  expect(waitingWords({ beside: 0, both: 0, mending: 0 })).toBeUndefined();
  expect(waitingWords({ beside: 1, both: 2, mending: 0 })).toBe('Records: 3 to settle');
  expect(waitingWords({ beside: 1, both: 0, mending: 4 })).toBe('Records: 1 to settle, 4 to mend');
});

test('one and many, known and not known', () => {
  expect(leftOutWords(1)).toMatch(/^1 value is left out/);
  expect(leftOutWords(2)).toMatch(/^2 values are left out/);
  expect(backupsWords(null)).toContain('none is known');
  expect(backupsWords('2026-11-24')).toMatch(/the last one saved on (24 Nov|Nov 24)$/);
});
