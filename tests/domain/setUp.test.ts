import { describe, expect, test } from 'vitest';
import { parseSetUp, type SetUpTexts, secondsOfTempo, setUpTexts } from '../../src/domain/setUp';
import { NO_SET_UP } from './made';

const parse = (texts: Partial<SetUpTexts>) => parseSetUp({ ...NO_SET_UP, ...texts });

describe('a set-up as typed', () => {
  test.each<[Partial<SetUpTexts>, object]>([
    [{}, {}],
    [{ setUp: '  ', tempo: ' ', height: ' ', pause: ' ' }, {}],
    [{ setUp: ' neutral grip ' }, { setUp: 'neutral grip' }],
    [{ tempo: '3-1-1-0' }, { tempo: '3-1-1-0' }],
    [{ tempo: '31X0' }, { tempo: '31X0' }],
    [{ height: '45,5' }, { height: { value: 45.5, unit: 'cm' } }],
    [{ height: '18', heightUnit: 'in' }, { height: { value: 18, unit: 'in' } }],
    [
      { height: '0', pause: '0' },
      { height: { value: 0, unit: 'cm' }, pause: 0 },
    ],
    [{ pause: '2.5' }, { pause: 2.5 }],
  ])('%j', (texts, value) => {
    expect(parse(texts)).toEqual({ ok: true, value });
  });

  test.each<[Partial<SetUpTexts>, object]>([
    [{ setUp: 'x'.repeat(201) }, { type: 'label-too-long', field: 'setUp', most: 200, has: 201 }],
    [{ tempo: '3-1' }, { type: 'not-a-tempo', field: 'tempo', text: '3-1' }],
    [{ tempo: '3-1-1-0-2' }, { type: 'not-a-tempo', field: 'tempo', text: '3-1-1-0-2' }],
    [{ tempo: 'slow' }, { type: 'not-a-tempo', field: 'tempo', text: 'slow' }],
    [{ tempo: '10-1-1-0' }, { type: 'not-a-tempo', field: 'tempo', text: '10-1-1-0' }],
    [{ height: 'high' }, { type: 'not-a-number', field: 'height', text: 'high' }],
    [{ height: '401' }, { type: 'out-of-range', field: 'height', min: 0, max: 400, unit: 'cm' }],
    [
      { height: '158', heightUnit: 'in' },
      { type: 'out-of-range', field: 'height', min: 0, max: 157, unit: 'in' },
    ],
    [{ pause: '61' }, { type: 'out-of-range', field: 'pause', min: 0, max: 60, unit: 's' }],
    [{ pause: '1.2345' }, { type: 'too-fine', field: 'pause', decimals: 3 }],
  ])('%j is refused by its field', (texts, error) => {
    expect(parse(texts)).toEqual({ ok: false, error });
  });

  test('goes back to the texts that enter it', () => {
    const texts = { setUp: 'bench 3', tempo: '3-1-x-0', height: '45.5', heightUnit: 'in' as const, pause: '2' };
    const parsed = parseSetUp(texts);
    expect(parsed.ok && setUpTexts(parsed.value)).toEqual(texts);
    expect(setUpTexts({})).toEqual(NO_SET_UP);
  });
});

describe('time under a tempo (methods book, section 3)', () => {
  test.each([
    ['3-1-1-0', 8, 40],
    ['4-0-1-0', 10, 50],
    ['4010', 10, 50],
    ['0-0-0-0', 8, 0],
  ])('%s, %d reps: %d s', (tempo, reps, seconds) => {
    expect((secondsOfTempo(tempo) ?? Number.NaN) * reps).toBe(seconds);
  });

  test.each(['3-1-x-0', '31X0', 'xxxx'])('%s takes as long as it takes', (tempo) => {
    expect(secondsOfTempo(tempo)).toBeUndefined();
  });
});
