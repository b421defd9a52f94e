import { describe, expect, test } from 'vitest';
import { heaviestOffered, painLevel, setsOfSigns } from '../../src/domain/pain';
import type { SetRecord } from '../../src/domain/set';
import { instantIn, kg, set, T } from './made';

const at = (seconds: number, held: Partial<SetRecord>) => set({ at: instantIn(seconds), ...held });
const hurt = (value: number, seconds = 0, more: object = {}) => at(seconds, { pain: { value, ...more } });
const sign = (seconds: number) => ({ id: 'x', sign: 'chest' as const, at: T + seconds * 1000 });
const cleared = (seconds: number) => ({ who: 'Dr A.', at: T + seconds * 1000, day: '2026-11-24' });
const level = (
  today: SetRecord[],
  {
    before = [],
    signs = [],
    clearance,
  }: { before?: SetRecord[]; signs?: ReturnType<typeof sign>[]; clearance?: ReturnType<typeof cleared> } = {},
) => painLevel(today, before, signs, clearance);

// the three levels of PRODUCT.md, "Cautions": note 1–3; adapt when rising in the set or two sessions running; stop at 4 or more or a sign
describe('what pain asks for', () => {
  test('nothing where none was told, and none where it was told to be 0', () => {
    expect(level([])).toEqual({ level: 'none' });
    expect(level([set({}), hurt(0)])).toEqual({ level: 'none' });
  });

  test.each([1, 2, 3])('%d of 10 is noted, and nothing changes', (value) => {
    expect(level([hurt(value)])).toEqual({ level: 'note', pain: value });
  });

  test.each([4, 5, 10])('%d of 10 stops the exercise', (value) => {
    expect(level([hurt(value)])).toEqual({ level: 'stop', why: 'pain', pain: value });
    expect(level([hurt(value), hurt(1, 60), set({})]), 'a later set without pain opens nothing').toMatchObject({
      level: 'stop',
      pain: value,
    });
  });

  test('rising in the set asks for an easier step', () => {
    expect(level([hurt(2, 0, { rising: true })])).toEqual({ level: 'adapt', pain: 2, why: 'rising' });
    expect(level([hurt(2, 0, { rising: false })])).toEqual({ level: 'note', pain: 2 });
    expect(level([hurt(5, 0, { rising: true })])).toMatchObject({ level: 'stop' });
  });

  test('two sessions running asks for an easier step', () => {
    expect(level([hurt(1)], { before: [hurt(3, -86_400)] })).toEqual({ level: 'adapt', pain: 1, why: 'two-sessions' });
    expect(level([hurt(1)], { before: [hurt(0, -86_400), set({})] })).toEqual({ level: 'note', pain: 1 });
    expect(level([set({})], { before: [hurt(3, -86_400)] }), 'none told today').toEqual({ level: 'none' });
  });

  test('a set that ended in pain stops it, with no number told', () => {
    expect(level([at(0, { ended: 'pain' })])).toEqual({ level: 'stop', why: 'ended-in-pain' });
  });

  test('a stop sign stops it, whatever else was told', () => {
    expect(level([hurt(1)], { signs: [sign(30)] })).toEqual({ level: 'stop', why: 'sign', sign: sign(30) });
    expect(level([], { signs: [sign(30)] })).toMatchObject({ level: 'stop', why: 'sign' });
  });

  test('a clearance noted after it lifts it, and not what comes after', () => {
    expect(level([hurt(6, 0)], { clearance: cleared(60) })).toEqual({ level: 'none' });
    expect(level([], { signs: [sign(0)], clearance: cleared(60) })).toEqual({ level: 'none' });
    expect(level([hurt(6, 120)], { clearance: cleared(60) })).toMatchObject({ level: 'stop' });
    expect(level([], { signs: [sign(120)], clearance: cleared(60) })).toMatchObject({ level: 'stop' });
    expect(level([hurt(1, 120)], { before: [hurt(3, -86_400)], clearance: cleared(60) })).toEqual({
      level: 'note',
      pain: 1,
    });
  });
});

describe('nothing heavier than', () => {
  test('no bound where nothing stopped it', () => {
    expect(heaviestOffered([set(kg(60)), at(0, { ...kg(80), pain: { value: 3 } })], undefined)).toBeUndefined();
  });

  test('the lightest load at which it stopped, in kilograms', () => {
    const sets = [
      at(0, { ...kg(80), pain: { value: 5 } }),
      at(60, { ...kg(70), ended: 'pain' }),
      at(120, { ...kg(40), pain: { value: 2 } }),
    ];
    expect(heaviestOffered(sets, undefined)).toBe(70);
    // 135 lb is 61.23496995 kg (methods book, section 15)
    expect(heaviestOffered([at(0, { load: { value: 135, unit: 'lb' }, ended: 'pain' })], undefined)).toBeCloseTo(
      61.234_969_95,
      8,
    );
    expect(heaviestOffered([at(0, { added: { value: 10, unit: 'kg' }, ended: 'pain' })], undefined)).toBe(10);
  });

  test('null where it stopped with no load to tell', () => {
    expect(heaviestOffered([at(0, { reps: 8, pain: { value: 6 } })], undefined)).toBeNull();
  });

  test('until a clearance is noted', () => {
    const sets = [at(0, { ...kg(80), pain: { value: 5 } })];
    expect(heaviestOffered(sets, cleared(60))).toBeUndefined();
    expect(heaviestOffered([...sets, at(120, { ...kg(90), pain: { value: 4 } })], cleared(60))).toBe(90);
  });
});

describe('a stop sign of an earlier session', () => {
  const sets = [at(0, kg(60)), at(300, kg(80)), at(600, kg(40))];
  const sign = { id: 's', sign: 'joint', at: T + 400_000 } as const;

  test('holds back what is heavier than the set it was seen in, until a clearance', () => {
    expect(heaviestOffered(sets, undefined, setsOfSigns(sets, [sign], undefined))).toBe(80);
    const cleared = { who: 'the physiotherapist', at: T + 500_000, day: '2026-11-24' };
    expect(setsOfSigns(sets, [sign], cleared)).toEqual([]);
    expect(heaviestOffered(sets, cleared, [])).toBeUndefined();
  });

  test('seen before the first set, it holds back that set', () => {
    expect(setsOfSigns(sets, [{ ...sign, at: T - 1000 }], undefined)).toEqual([sets[0]]);
    expect(setsOfSigns([], [sign], undefined)).toEqual([]);
  });
});
