import { describe, expect, test } from 'vitest';
import type { TargetFields } from '../../src/domain/target';
import { newClient, onFloor, PULL, SQUAT } from './floor';
import { good } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';
import { relaunched } from './suite-writes';

const fields = (more: Partial<TargetFields> = {}): TargetFields => ({
  goal: '95',
  unit: 'kg',
  reps: '5',
  start: '80',
  day: '2026-05-01',
  ...more,
});

describe('targets', () => {
  test('are kept with what was typed, from today on, and are there after a restart', async () => {
    const floor = await onFloor(REAL);
    const { log, place, world } = atOf(floor);
    const { id, saved } = good(REAL.addTarget(log, place.stream, SQUAT.id, fields({ goal: '95,5' }), world));
    await saved;
    const kept = {
      id,
      exercise: SQUAT.id,
      goal: { value: 95.5, unit: 'kg' },
      reps: 5,
      start: { value: 80, unit: 'kg' },
      from: '2026-03-03',
      day: '2026-05-01',
    };
    expect(REAL.targets(log, place.stream)).toEqual([kept]);
    expect(REAL.targets((await relaunched(REAL, floor)).log, place.stream)).toEqual([kept]);
  });

  test('the nearest day comes first; of another client nothing is shown', async () => {
    const floor = await onFloor(REAL);
    const { log, place, world } = atOf(floor);
    const other = await newClient(REAL, floor, 'Client M');
    good(REAL.addTarget(log, place.stream, SQUAT.id, fields({ day: '2026-06-01' }), world));
    good(REAL.addTarget(log, place.stream, PULL.id, fields({ goal: '9', unit: 'reps', start: '' }), world));
    expect(REAL.targets(log, place.stream).map((one) => one.exercise)).toEqual([PULL.id, SQUAT.id]);
    expect(REAL.targets(log, other)).toEqual([]);
    // reps are of no number of reps, and a start that was left empty is none
    expect(REAL.targets(log, place.stream)[0]).not.toHaveProperty('reps');
    expect(REAL.targets(log, place.stream)[0]).not.toHaveProperty('start');
  });

  test.each([
    ['no goal', { goal: '' }, { type: 'empty', field: 'goal' }],
    ['a goal that is no number', { goal: 'heavy' }, { type: 'not-a-number', field: 'goal', text: 'heavy' }],
    [
      'more than can be loaded',
      { goal: '601' },
      { type: 'out-of-range', field: 'goal', min: 0.5, max: 600, unit: 'kg' },
    ],
    ['half a rep', { goal: '9.5', unit: 'reps' }, { type: 'off-step', field: 'goal', step: 1 }],
    [
      'reps that tell no load',
      { reps: '13' },
      { type: 'out-of-range', field: 'target-reps', min: 1, max: 12, unit: '' },
    ],
    ['a start that is no number', { start: 'low' }, { type: 'not-a-number', field: 'start', text: 'low' }],
    ['no day', { day: '' }, { type: 'empty', field: 'target-day' }],
    ['a goal that is there already', { goal: '80' }, { type: 'not-above', field: 'goal' }],
    [
      'a day that does not exist',
      { day: '2026-02-30' },
      { type: 'not-a-day', field: 'target-day', text: '2026-02-30' },
    ],
    ['today', { day: '2026-03-03' }, { type: 'past-day', field: 'target-day' }],
  ] as const)('%s is refused, and nothing is written', async (_, more, error) => {
    const { log, place, world } = atOf(await onFloor(REAL));
    const rows = log.all().length;
    expect(REAL.addTarget(log, place.stream, SQUAT.id, fields(more), world)).toEqual({ ok: false, error });
    expect(log.all()).toHaveLength(rows);
  });

  test('one that is removed is gone, and undo brings it back as it was', async () => {
    const { log, place, world } = atOf(await onFloor(REAL));
    const { id } = good(REAL.addTarget(log, place.stream, SQUAT.id, fields(), world));
    const before = REAL.targets(log, place.stream);
    await REAL.removeTarget(log, place.stream, id);
    expect(REAL.targets(log, place.stream)).toEqual([]);
    log.undo();
    expect(REAL.targets(log, place.stream)).toEqual(before);
  });
});
