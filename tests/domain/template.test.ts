import { describe, expect, test } from 'vitest';
import { plannedValues, readTemplate, weekDayOf } from '../../src/domain/template';
import { instantIn } from './made';

describe('a template as it is read', () => {
  test('has its name and days, Monday first', () => {
    expect(readTemplate('t', { name: 'Legs', 'days/sun': true, 'days/mon': true, 'days/tue': null })).toEqual({
      id: 't',
      name: 'Legs',
      days: ['mon', 'sun'],
    });
  });

  test.each([{}, { name: null }, { name: '' }, { name: 'x'.repeat(41) }])('is none without a name: %j', (values) => {
    expect(readTemplate('t', values)).toBeUndefined();
  });
});

test.each([
  ['2026-11-23', 'mon'],
  ['2026-11-24', 'tue'],
  ['2026-11-29', 'sun'],
  ['2000-01-01', 'sat'],
  ['2028-02-29', 'tue'],
])('%s is a %s', (day, name) => {
  expect(weekDayOf(day)).toBe(name);
});

test('a plan is the list and the blocks, and nothing of what happened', () => {
  const planned = {
    'exercises/e1/order': 'g',
    'exercises/e1/plan': { reps: '5', sets: 3 },
    'exercises/e1/tally': 30,
    'blocks/b/order': 'h',
    'blocks/b/kind': 'rounds',
    'blocks/b/rounds': 3,
    'blocks/b/rest': 60,
    'blocks/b/stations/s/order': 'g',
    'blocks/b/stations/s/exercise': 'e2',
    'blocks/b/stations/s/plan': { reps: '8' },
  };
  const happened = {
    start: instantIn(0),
    end: instantIn(3600),
    note: 'private',
    template: 't',
    plannedDay: '2026-11-24',
    place: 'gym',
    'arrival/sleep': 2,
    'arrival/pain': { value: 3 },
    'signs/x': { sign: 'chest', at: instantIn(5) },
    'pauses/p/from': instantIn(5),
    'exercises/e1/skipped': { why: 'late' },
    'exercises/e3/swappedFor': { exercise: 'e1' },
    'exercises/e4/order': null,
    'blocks/b/started': instantIn(60),
    'blocks/b/stopped': instantIn(90),
    'blocks/b/done': instantIn(90),
    'blocks/b/skipped': { why: '' },
    'blocks/b/stations/s/was': 'e9',
    'blocks/b/stations/s/skipped': { why: '' },
    'sets/s1/exercise': 'e1',
    'sets/s1/reps': 5,
  };
  expect(plannedValues({ ...happened, ...planned })).toEqual(planned);
});
