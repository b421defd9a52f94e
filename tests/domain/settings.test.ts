import { describe, expect, test } from 'vitest';
import { DEFAULT_SETTINGS, distanceUnitOf, readSettings, weekFrom, withRest } from '../../src/domain/settings';
import { shipped } from './made';

describe('settings', () => {
  test('nothing chosen is kilograms, centimetres, reps left, a week from Monday and the rests of the library', () => {
    expect(readSettings({})).toEqual({ load: 'kg', length: 'cm', firstDay: 'mon', effort: 'left', rest: {} });
  });

  test('what a newer app wrote is left at the default, each by itself', () => {
    const read = readSettings({
      load: 'stone',
      effort: 'rpe',
      'rest/loads': -5,
      'rest/body': 45,
      'rest/new': 10,
      firstDay: 'wed',
    });
    expect(read).toEqual({ ...DEFAULT_SETTINGS, effort: 'rpe', rest: { body: 45 } });
  });

  test('a choice taken back is the default again', () => {
    expect(readSettings({ load: null, 'rest/loads': null })).toEqual(DEFAULT_SETTINGS);
  });

  test('distances follow lengths', () => {
    expect(distanceUnitOf({ ...DEFAULT_SETTINGS, length: 'cm' })).toBe('m');
    expect(distanceUnitOf({ ...DEFAULT_SETTINGS, length: 'in' })).toBe('ft');
  });

  test('a rest holds for its like alone; none chosen leaves the library’s', () => {
    const chosen = { ...DEFAULT_SETTINGS, rest: { loads: 75 } };
    expect(withRest(shipped('lib-front-squat'), chosen).rest).toBe(75);
    expect(withRest(shipped('lib-push-up'), chosen)).toBe(shipped('lib-push-up'));
  });

  test('a week in its order from each of its days', () => {
    expect(weekFrom('mon')).toEqual(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']);
    expect(weekFrom('sun')).toEqual(['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat']);
    expect(weekFrom('sat')[0]).toBe('sat');
  });
});
