import { describe, expect, test } from 'vitest';
import { NO_TEXTS } from '../../src/domain/entry';
import type { Exercise } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { lessShare, nextSide, offeredValues, otherSideDue, prefill, rampTo, recentOf } from '../../src/domain/prefill';
import type { SetRecord } from '../../src/domain/set';
import { METRIC, NO_SET_UP } from './made';

const shipped = (id: string): Exercise => {
  const found = SHIPPED_EXERCISES.find((one) => one.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};
const squat = shipped('lib-front-squat');
const row = shipped('lib-one-arm-row');
const pullUp = shipped('lib-pull-up');

let made = 0;
const set = (held: Partial<SetRecord>): SetRecord => ({
  id: `s${++made}`,
  exercise: squat.id,
  kind: 'working',
  at: { at: made * 1000, day: '2026-11-24', zone: 'UTC' },
  parts: [],
  cues: [],
  marks: [],
  faults: [],
  unread: [],
  ...held,
});
const kg = (value: number) => ({ load: { value, unit: 'kg' as const } });
const none = { today: [], lastTime: [] };

describe('the next set', () => {
  test('is empty where nothing was ever noted: nothing is made up', () => {
    const entry = prefill(squat, { exercise: squat.id }, none, NO_SET_UP, METRIC);
    expect(entry).toMatchObject({
      load: '',
      reps: '',
      kind: 'working',
      side: null,
      unit: 'kg',
      parts: [],
      setUp: NO_SET_UP,
    });
  });

  test('holds what the last set of the same kind held today, not what was observed of it', () => {
    const today = [
      set({ ...kg(57.5), reps: 5, effort: { value: 2, as: 'left' }, form: 'clean', note: 'heels' }),
      set({ ...kg(40), reps: 8, kind: 'back-off' }),
    ];
    const setUp = { ...NO_SET_UP, setUp: 'heels flat' };
    const entry = prefill(squat, { exercise: squat.id, kind: 'working' }, { today, lastTime: [] }, setUp, METRIC);
    expect(entry).toMatchObject({ load: '57.5', reps: '5', kind: 'working', setUp });
    expect(Object.keys(entry).sort()).toEqual(
      (
        'exercise kind side unit distanceUnit body parts setUp in direction marks smooth ' +
        'load reps band pin seconds distance landings tries good degrees'
      )
        .split(' ')
        .sort(),
    );
    // what is seen of a set begins empty
    expect(entry).toMatchObject({ good: '', marks: [], smooth: null });
  });

  test('goes on with the kind of the set before', () => {
    const today = [set({ ...kg(57.5), reps: 5 }), set({ ...kg(40), reps: 8, kind: 'back-off' })];
    expect(prefill(squat, { exercise: squat.id }, { today, lastTime: [] }, NO_SET_UP, METRIC)).toMatchObject({
      kind: 'back-off',
      load: '40',
    });
  });

  test('holds what last time began with where today has none of the kind', () => {
    const lastTime = [
      set({ ...kg(20), reps: 5, kind: 'warm-up' }),
      set({ ...kg(55), reps: 6 }),
      set({ ...kg(50), reps: 8 }),
    ];
    expect(prefill(squat, { exercise: squat.id }, { today: [], lastTime }, NO_SET_UP, METRIC)).toMatchObject({
      load: '55',
      reps: '6',
    });
  });

  test('takes no warm-up for a working set', () => {
    const today = [set({ ...kg(20), reps: 5, kind: 'warm-up' })];
    expect(
      prefill(squat, { exercise: squat.id, kind: 'working' }, { today, lastTime: [] }, NO_SET_UP, METRIC),
    ).toMatchObject({
      load: '',
    });
  });

  test('keeps pounds pounds, and what the draft says over everything', () => {
    const today = [set({ load: { value: 45, unit: 'lb' }, reps: 5 })];
    const past = { today, lastTime: [] };
    expect(prefill(squat, { exercise: squat.id }, past, NO_SET_UP, METRIC)).toMatchObject({ load: '45', unit: 'lb' });
    expect(prefill(squat, { exercise: squat.id, load: '', reps: '4' }, past, NO_SET_UP, METRIC)).toMatchObject({
      load: '',
      reps: '4',
    });
  });

  test('goes on with load added to the body, or with body mass alone', () => {
    const loaded = [set({ exercise: pullUp.id, added: { value: 10, unit: 'kg' }, reps: 5 })];
    const alone = [set({ exercise: pullUp.id, reps: 7 })];
    expect(prefill(pullUp, { exercise: pullUp.id }, { today: loaded, lastTime: [] }, NO_SET_UP, METRIC)).toMatchObject({
      body: 'added',
      load: '10',
    });
    expect(prefill(pullUp, { exercise: pullUp.id }, { today: alone, lastTime: [] }, NO_SET_UP, METRIC)).toMatchObject({
      body: 'alone',
      reps: '7',
    });
  });

  test('repeats the parts of a drop set', () => {
    const today = [set({ ...kg(40), reps: 8, kind: 'drop', parts: [{ id: '1a', ...kg(32.5), reps: 6 }] })];
    expect(prefill(squat, { exercise: squat.id }, { today, lastTime: [] }, NO_SET_UP, METRIC).parts).toEqual([
      { ...NO_TEXTS, load: '32.5', reps: '6' },
    ]);
  });
});

describe('sides', () => {
  const side = (which: 'left' | 'right', load: number): SetRecord =>
    set({ exercise: row.id, side: which, ...kg(load), reps: 8 });
  const next = (today: SetRecord[], lastTime: SetRecord[] = []) => {
    const { side: which, load } = prefill(row, { exercise: row.id }, { today, lastTime }, NO_SET_UP, METRIC);
    return [which, load];
  };

  test('flip by themselves, with the same numbers', () => {
    expect(next([])).toEqual(['left', '']);
    expect(next([side('left', 20)])).toEqual(['right', '20']);
    expect(next([side('left', 20), side('right', 20)])).toEqual(['left', '20']);
    expect(next([side('left', 20), side('right', 20), side('left', 22)])).toEqual(['right', '22']);
  });

  test('begin with the side that began last time', () => {
    expect(next([], [side('right', 18), side('left', 18)])).toEqual(['right', '18']);
  });

  test('keep their own numbers where they were unequal on the round before', () => {
    const lastTime = [side('left', 16), side('right', 20)];
    expect(next([side('left', 16)], lastTime)).toEqual(['right', '20']);
    expect(next([side('left', 16), side('right', 20), side('left', 18)], lastTime)).toEqual(['right', '20']);
    // a round that begins has the first one before it, with no last time needed
    expect(next([side('left', 16), side('right', 20)])).toEqual(['left', '16']);
  });

  test('have no rest between them, and one after both', () => {
    expect(otherSideDue(row, [side('left', 20)])).toBe(true);
    expect(otherSideDue(row, [side('left', 20), side('right', 20)])).toBe(false);
    expect(otherSideDue(row, [side('left', 20), side('right', 20), side('right', 20)])).toBe(true);
    expect(otherSideDue(squat, [set(kg(50))])).toBe(false);
    expect(otherSideDue(row, [])).toBe(false);
  });

  test('count by kind: a warm-up on one side makes no working set due', () => {
    const today = [set({ exercise: row.id, side: 'left', kind: 'warm-up', ...kg(10), reps: 5 })];
    expect(nextSide({ today, lastTime: [] }, 'working')).toBe('left');
    expect(nextSide({ today, lastTime: [] }, 'warm-up')).toBe('right');
  });
});

describe('what a control offers', () => {
  test('is the current value, recent ones, and steps to fill up, ascending', () => {
    expect(offeredValues(57.5, [55, 40], 2.5, 0, 4)).toEqual([40, 55, 57.5, 60]);
    expect(offeredValues(57.5, [], 2.5, 0, 4)).toEqual([55, 57.5, 60, 62.5]);
    expect(offeredValues(57.5, [55], 2.5, 0, 3)).toEqual([55, 57.5, 60]);
  });

  test('never goes below the least, nor offers one value twice', () => {
    expect(offeredValues(1, [1, 1, 2], 1, 0, 4)).toEqual([0, 1, 2, 3]);
    expect(offeredValues(null, [], 1, 0, 4)).toEqual([0, 1, 2, 3]);
  });

  test('takes recent values from what was held, the latest first, each once', () => {
    const sets = [set({ ...kg(50), reps: 5 }), set({ ...kg(55), reps: 5 }), set({ ...kg(50), reps: 4 })];
    expect(recentOf('load', sets)).toEqual([50, 55]);
    expect(recentOf('reps', sets)).toEqual([4, 5]);
    expect(recentOf('pin', [set({ pin: 'top' })])).toEqual([]);
  });
});

describe('a warm-up ramp', () => {
  const entry = (load: string, exercise = squat) =>
    prefill(exercise, { exercise: exercise.id, load, reps: '5' }, none, NO_SET_UP, METRIC);
  const steps = (load: string, lastTime: SetRecord[] = []) =>
    rampTo(entry(load), squat, lastTime).map((step) => `${step.load}x${step.reps}`);

  test('rises in loads the bar can hold, and stays below the work', () => {
    expect(steps('57.5')).toEqual(['22.5x5', '35x3', '45x2']);
    expect(steps('100')).toEqual(['40x5', '60x3', '80x2']);
    expect(steps('57,5')).toEqual(steps('57.5'));
  });

  test('drops steps that would not rise, and is none without a load', () => {
    expect(steps('2.5')).toEqual([]);
    expect(steps('5')).toEqual(['2.5x5']);
    expect(steps('')).toEqual([]);
    expect(steps('abc')).toEqual([]);
    expect(rampTo(entry('10', pullUp), pullUp, [])).toEqual([]);
  });

  test('is last time’s own where that led to the same load', () => {
    const lastTime = [set({ ...kg(30), reps: 4, kind: 'warm-up' }), set({ ...kg(60), reps: 5 })];
    expect(steps('60', lastTime)).toEqual(['30x4']);
    expect(steps('62.5', lastTime)).toEqual(['25x5', '37.5x3', '50x2']);
  });
});

test('a share less is rounded to what the exercise can be loaded by', () => {
  expect(lessShare(57.5, 0.3, 2.5)).toBe(40);
  expect(lessShare(100, 0.1, 2.5)).toBe(90);
  expect(lessShare(22, 0.2, 2)).toBe(18);
});
