import { describe, expect, test } from 'vitest';
import { holdsOn, parseRestriction, type RestrictionFields, readRestriction } from '../../src/domain/restriction';
import { instantIn } from './made';

const typed: RestrictionFields = { who: ' Dr A. ', what: ' no deep knee bend ', from: '2026-11-24', until: '' };
const parse = (fields: Partial<RestrictionFields>) => parseRestriction({ ...typed, ...fields });

describe('a restriction as typed', () => {
  test('has who, what and from when; without an end it holds until it is removed', () => {
    expect(parse({})).toEqual({
      ok: true,
      value: { who: 'Dr A.', what: 'no deep knee bend', from: '2026-11-24', until: null },
    });
    expect(parse({ until: '2026-11-24' })).toMatchObject({ ok: true, value: { until: '2026-11-24' } });
  });

  test.each<[Partial<RestrictionFields>, object]>([
    [{ who: ' ' }, { type: 'empty', field: 'who' }],
    [{ what: '' }, { type: 'empty', field: 'what' }],
    [{ who: 'x'.repeat(61) }, { type: 'too-long', field: 'who', most: 60, has: 61 }],
    [{ what: 'x'.repeat(201) }, { type: 'too-long', field: 'what', most: 200, has: 201 }],
    [{ from: '' }, { type: 'not-a-day', field: 'from', text: '' }],
    [{ from: '2026-02-30' }, { type: 'not-a-day', field: 'from', text: '2026-02-30' }],
    [{ until: 'Friday' }, { type: 'not-a-day', field: 'until', text: 'Friday' }],
    [{ until: '2026-11-23' }, { type: 'ends-before', field: 'until' }],
  ])('%j is refused by its field', (fields, error) => {
    expect(parse(fields)).toEqual({ ok: false, error });
  });
});

describe('a restriction as read', () => {
  const values = { who: 'Dr A.', what: 'no jumps', from: '2026-11-24', at: instantIn(0) };

  test('names the exercises it hides', () => {
    const hides = { 'hides/lib-box-jump': true, 'hides/lib-back-squat': true, 'hides/lib-deadlift': null };
    expect(readRestriction('x', { ...values, until: '2026-12-01', ...hides })).toEqual({
      id: 'x',
      who: 'Dr A.',
      what: 'no jumps',
      from: '2026-11-24',
      until: '2026-12-01',
      hides: ['lib-back-squat', 'lib-box-jump'],
    });
  });

  test.each([{}, { ...values, who: null }, { ...values, what: '' }, { ...values, from: '2026-02-30' }])(
    'is none where it was undone or cannot be read: %j',
    (undone) => {
      expect(readRestriction('x', undone)).toBeUndefined();
    },
  );

  test('[M8] with an end of a newer app it holds on: what hides is not lifted by what nobody can read', () => {
    const read = readRestriction('x', { ...values, until: { after: 'the scan' } });
    expect(read && holdsOn(read, '2030-01-01')).toBe(true);
  });

  test('holds from its first to its last day, both included', () => {
    const read = readRestriction('x', { ...values, until: '2026-11-26' });
    if (!read) throw new Error('none');
    const days = ['2026-11-23', '2026-11-24', '2026-11-26', '2026-11-27'];
    expect(days.map((day) => holdsOn(read, day))).toEqual([false, true, true, false]);
  });
});
