import { describe, expect, test } from 'vitest';
import { exposureOf, type Top } from '../../src/domain/exposure';
import { charted, measureOf } from '../../src/domain/measure';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { instantIn, kg, sessionOf, set, shipped } from './made';

const SQUAT = 'lib-back-squat';
const session = (sets: readonly SetRecord[]): SessionRecord => ({ ...sessionOf({}), sets });
const exposure = (sets: readonly SetRecord[], exercise = SQUAT) => exposureOf(session(sets), exercise);
const tops = (sets: readonly SetRecord[], exercise = SQUAT) => exposure(sets, exercise)?.tops;

describe('a session as an exposure of an exercise', () => {
  test('has the heaviest set, by itself, and how many counted', () => {
    const sets = [
      set({ ...kg(40), reps: 5, kind: 'warm-up' }),
      set({ ...kg(100), reps: 5, effort: { value: 2, as: 'left' } }),
      set({ ...kg(105), reps: 3 }),
      set({ ...kg(80), reps: 8, kind: 'back-off' }),
      set({ exercise: 'lib-deadlift', ...kg(180), reps: 1 }),
    ];
    expect(exposure(sets)).toEqual({
      session: 'r1',
      at: instantIn(0).at,
      day: '2026-11-24',
      sets: 3,
      tops: [{ ...kg(105), reps: 3 }],
      cues: [],
      clean: 0,
      noted: 0,
      // what a trend is judged by: the back-off tells how tired one is
      tried: [
        { kg: 100, reps: 5, left: 2 },
        { kg: 105, reps: 3 },
      ],
      untried: 1,
    });
  });

  test('is none of warm-ups alone, of a helping hand, or of another exercise', () => {
    expect(exposure([set({ ...kg(40), kind: 'warm-up' })])).toBeUndefined();
    expect(exposure([set({ reps: 5, kind: 'assisted' })])).toBeUndefined();
    expect(exposure([set(kg(40))], 'lib-deadlift')).toBeUndefined();
    expect(exposure([set({ reps: 5, kind: 'assisted', assist: { value: 20, unit: 'kg' } })])?.sets).toBe(1);
  });

  test('of equal loads the more reps; pounds and kilograms are compared as loads', () => {
    expect(tops([set({ ...kg(100), reps: 5 }), set({ ...kg(100), reps: 6 })])).toEqual([{ ...kg(100), reps: 6 }]);
    // 225 lb are 102.06 kg, 220 lb 99.79 kg (methods book, section 15: 225 lb 102.05828325)
    const lb = (value: number) => ({ load: { value, unit: 'lb' as const } });
    expect(tops([set(kg(100)), set(lb(225))])).toEqual([lb(225)]);
    expect(tops([set(kg(100)), set(lb(220))])).toEqual([kg(100)]);
  });

  test('of carries of one load the longer way, feet and metres compared as ways: 100 ft are 30.48 m', () => {
    const way = (value: number, unit: 'm' | 'ft') => ({ ...kg(24), distance: { value, unit } });
    expect(tops([set(way(30, 'm')), set(way(100, 'ft'))])).toEqual([way(100, 'ft')]);
    expect(tops([set(way(40, 'm')), set(way(100, 'ft'))])).toEqual([way(40, 'm')]);
  });

  test('less help is more, body mass alone more than help, load more than that', () => {
    const unit = 'kg' as const;
    const help = [20, 10].map((value) => set({ assist: { value, unit }, reps: 5 }));
    const alone = set({ reps: 3 });
    const added = set({ added: { value: 5, unit }, reps: 2 });
    expect(tops(help)?.[0]?.assist?.value).toBe(10);
    expect(tops([...help, alone])).toEqual([{ reps: 3 }]);
    expect(tops([...help, alone, added])).toEqual([{ added: { value: 5, unit }, reps: 2 }]);
  });

  test('a missed set, a back-off, or one that needs mending is no top; the exposure stays', () => {
    const bad = set({ ...kg(120), unread: [{ type: 'no-instant', path: 'sets/x' }] });
    const sets = [set({ ...kg(130), ended: 'missed' }), bad, set({ ...kg(125), kind: 'back-off' }), set(kg(100))];
    expect(exposure(sets)).toMatchObject({ sets: 4, tops: [kg(100)] });
    expect(exposure([bad])).toMatchObject({ sets: 1, tops: [] });
  });

  test('each side has its own', () => {
    const side = (which: 'left' | 'right', load: number) => set({ side: which, ...kg(load), reps: 8 });
    expect(tops([side('left', 20), side('right', 24), side('left', 22)])).toEqual([
      { side: 'left', ...kg(22), reps: 8 },
      { side: 'right', ...kg(24), reps: 8 },
    ]);
  });

  test('landings and tries add up, parts too, and good ones of those that were judged', () => {
    const marks = [
      { n: 1, good: true },
      { n: 2, good: false },
    ];
    const sets = [
      set({ landings: 6, marks }),
      set({ landings: 4, kind: 'cluster', parts: [{ id: '1a', landings: 3 }] }),
    ];
    expect(tops(sets)).toEqual([{ landings: 13, good: 1, of: 2 }]);
    expect(tops([set({ tries: 8, good: 6 }), set({ tries: 8 })])).toEqual([{ tries: 16, good: 6, of: 8 }]);
  });

  test('pain is the most told of, in warm-ups too', () => {
    const sets = [set({ kind: 'warm-up', pain: { value: 3 } }), set({ pain: { value: 1 } }), set({})];
    expect(exposure(sets)?.pain).toBe(3);
    expect(exposure([set({})])).not.toHaveProperty('pain');
  });

  test('cues: how often given, what they did, and the form of their sets', () => {
    const use = (cue: string, answer: 'better' | 'same' | 'worse' | null) => ({ id: cue, cue, answer });
    const sets = [
      set({ cues: [use('tall', 'better'), use('push', null)], form: 'clean' }),
      set({ cues: [use('tall', 'worse')], form: 'slipping' }),
      set({ cues: [use('tall', 'better')] }),
    ];
    expect(exposure(sets)).toMatchObject({
      clean: 1,
      noted: 2,
      cues: [
        { cue: 'push', given: 1, better: 0, same: 0, worse: 0, clean: 1, noted: 1 },
        { cue: 'tall', given: 3, better: 2, same: 0, worse: 1, clean: 1, noted: 2 },
      ],
    });
  });
});

describe('what is charted', () => {
  const exposures = (...some: Top[]) => [
    { ...(exposure([set({})]) as NonNullable<ReturnType<typeof exposure>>), tops: some },
  ];
  const kilos = { value: 10, unit: 'kg' as const };

  test.each<[exercise: string, top: Top, measure: string]>([
    ['lib-back-squat', { load: kilos, reps: 5 }, 'load'],
    ['lib-back-squat', { reps: 5 }, 'reps'],
    ['lib-farmer-carry', { distance: { value: 30, unit: 'm' } }, 'load'],
    ['lib-pull-up', { reps: 5 }, 'reps'],
    ['lib-pull-up', { added: kilos, reps: 5 }, 'added'],
    ['lib-pull-up', { assist: kilos, reps: 5 }, 'added'],
    ['lib-kneeling-cable-pull', { pin: '7', reps: 5 }, 'pin'],
    ['lib-kneeling-cable-pull', { pin: 'top', reps: 5 }, 'reps'],
    ['lib-band-pull-apart', { band: 'red', reps: 15 }, 'reps'],
    ['lib-dead-hang', { seconds: 30 }, 'seconds'],
    ['lib-ankle-range', { degrees: 40 }, 'degrees'],
    ['lib-box-jump', { landings: 10 }, 'good'],
    ['lib-ball-throw', { tries: 8 }, 'good'],
  ])('%s of %j is charted by %s', (exercise, top, measure) => {
    expect(measureOf(shipped(exercise), exposures(top))).toBe(measure);
  });

  test.each<[top: Top, measure: Parameters<typeof charted>[1], unit: 'kg' | 'lb', number: number | undefined]>([
    [{ load: { value: 57.5, unit: 'kg' } }, 'load', 'kg', 57.5],
    [{ load: { value: 45, unit: 'lb' } }, 'load', 'kg', 20.411_656_65],
    [{ load: { value: 20, unit: 'kg' } }, 'load', 'lb', 44.092_452_44],
    [{ load: { value: 45, unit: 'lb' } }, 'load', 'lb', 45],
    [{ reps: 5 }, 'load', 'kg', undefined],
    [{ added: kilos }, 'added', 'kg', 10],
    [{ assist: kilos }, 'added', 'kg', -10],
    [{ reps: 5 }, 'added', 'kg', 0],
    [{ band: 'red' }, 'added', 'kg', undefined],
    [{ good: 5, of: 6 }, 'good', 'kg', 83.333_333_33],
    [{ good: 0, of: 0 }, 'good', 'kg', undefined],
    [{ landings: 6 }, 'good', 'kg', undefined],
    [{ pin: '7' }, 'pin', 'kg', 7],
    [{ pin: 'top' }, 'pin', 'kg', undefined],
    [{ seconds: 30 }, 'seconds', 'kg', 30],
  ])('%j as %s in %s is %s', (top, measure, unit, number) => {
    const value = charted(top, measure, unit);
    if (number === undefined) expect(value).toBeUndefined();
    else expect(value).toBeCloseTo(number, 7);
  });
});
