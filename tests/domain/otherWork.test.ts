import { describe, expect, test } from 'vitest';
import { readOtherWork } from '../../src/domain/otherWork';
import { instantIn, T } from './made';

const values = { work: 'rehearsal', day: '2026-11-23', at: instantIn(0) };

describe('other work as it is read', () => {
  test('has kind, hours and effort; what was not noted is not there', () => {
    const noted = { hours: 4.5, effort: { value: 0, as: 'session' }, note: 'fights' };
    expect(readOtherWork('w', { ...values, ...noted })).toEqual({
      id: 'w',
      work: 'rehearsal',
      day: '2026-11-23',
      hours: 4.5,
      effort: 0,
      note: 'fights',
      notedAt: T,
    });
    expect(readOtherWork('w', { ...values, hours: null, effort: null, note: null })).toEqual({
      id: 'w',
      work: 'rehearsal',
      day: '2026-11-23',
      notedAt: T,
    });
  });

  test.each([{}, { ...values, work: null }, { ...values, day: '2026-02-30' }, { ...values, at: null }])(
    'is none where it was undone or cannot be read: %j',
    (undone) => {
      expect(readOtherWork('w', undone)).toBeUndefined();
    },
  );

  test.each<[string, unknown]>([
    ['hours', 25],
    ['hours', 'all night'],
    ['effort', { value: 8, as: 'rpe' }],
    ['effort', { value: 11, as: 'session' }],
    ['note', 5],
  ])('[M8] a %s of %j is left out, and takes nothing else with it', (path, value) => {
    const read = readOtherWork('w', { ...values, hours: 2, [path]: value });
    expect(read).toMatchObject({ work: 'rehearsal', day: '2026-11-23' });
    expect(read).not.toHaveProperty(path);
  });
});

test('a day of rest has no hours and no effort, whatever stands in its row; its note stays', () => {
  const noted = { work: 'rest day', hours: 3, effort: { value: 6, as: 'session' }, note: 'slept till noon' };
  expect(readOtherWork('w', { ...values, ...noted })).toEqual({
    id: 'w',
    work: 'rest day',
    day: '2026-11-23',
    note: 'slept till noon',
    notedAt: T,
  });
});

test('[M8] a kind that this version does not know, as a day of rest is to an older one, is left out', () => {
  expect(readOtherWork('w', { ...values, work: 'half a rest day' })).toBeUndefined();
});
