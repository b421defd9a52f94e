import { describe, expect, test } from 'vitest';
import { findingsOf } from '../../src/analysis/findings';
import { seriesOf } from '../../src/analysis/series';
import { NO_BODY } from '../../src/analysis/track';
import { addDays } from '../../src/domain/day';
import type { Target } from '../../src/domain/target';
import { dayAt, FOUR_OR_MORE, FRONT_SQUAT, type Held, lift, on } from './made';

/* One exercise as it is drawn and written out. */

const target = (more: Partial<Target> = {}): Target => ({
  id: 't1',
  exercise: FRONT_SQUAT.id,
  goal: { value: 130, unit: 'kg' },
  start: { value: 100, unit: 'kg' },
  reps: 3,
  from: dayAt(0),
  day: dayAt(60),
  ...more,
});
const same = (count: number, held: Held = lift(100, 5, 2)) =>
  Array.from({ length: count }, (_, n) => on(n * 4, FRONT_SQUAT, [held], { id: `r${n}` }));

function drawn(
  count: number,
  targets: readonly Target[] = [],
  more: { readonly from?: string; readonly held?: Held } = {},
) {
  const { held, ...asked } = more;
  const record = { exercise: FRONT_SQUAT, exposures: same(count, held), body: NO_BODY };
  const fanDays = ({ day }: { readonly day: string }) => [day, addDays(day, 28)];
  const [one] = seriesOf(record, { targets, today: dayAt(count * 4), fanDays, ...asked });
  if (!one) throw new Error('nothing drawn');
  return one;
}

describe('what is drawn', () => {
  // five reps with two left are seven: 100 × (1 + 6/28) = 121.43 kg once
  test('stands for the usual reps, and for those of a target: 106.25 kg for five, 113.33 for three', () => {
    expect(drawn(2).reps).toBe(5);
    expect(drawn(2).points[0]?.measured).toBeCloseTo(106.25, 8);
    expect(drawn(2, [target()]).reps).toBe(3);
    // 121.43 / (1 + 2/28)
    expect(drawn(2, [target()]).points[0]?.measured).toBeCloseTo(113.3333333, 6);
  });

  test('a session that could have been more says so: nine reps at the least are 100 × (1 + 8/28)', () => {
    const [point] = drawn(1, [], { held: { ...lift(100, 5), ...FOUR_OR_MORE } }).points;
    expect(point?.atLeast).toBe(true);
    // 128.57 / (8/7)
    expect(point?.measured).toBeCloseTo(112.5, 8);
    expect(drawn(1).points[0]).not.toHaveProperty('atLeast');
  });

  test('the band is there from the third session on, the fan and a chance with a status', () => {
    expect(drawn(4).points.map(({ band }) => band !== undefined)).toEqual([false, false, true, true]);
    expect([drawn(5, [target()]).fan, drawn(5, [target()]).chance]).toEqual([[], undefined]);
    const known = drawn(6, [target()]);
    expect(known.fan.map(({ day }) => day)).toEqual([dayAt(20), dayAt(48)]);
    expect(known.chance).toBeGreaterThan(0);
    expect(known.chance).toBeLessThan(1);
    // further out less is known
    const [now, later] = known.fan.map(({ band }) => band.hi80 - band.lo80);
    expect(later).toBeGreaterThan(now ?? Number.NaN);
  });

  test('what is needed goes from the start to the goal; without a start nothing is', () => {
    expect(drawn(6, [target()]).needed).toEqual([
      { day: dayAt(0), value: 100 },
      { day: dayAt(60), value: 130 },
    ]);
    const { start: _, ...open } = target();
    expect(drawn(6, [open]).needed).toEqual([]);
    expect(drawn(6, [target({ exercise: 'lib-deadlift' })])).not.toHaveProperty('target');
  });

  test('of two targets the next one is drawn, of two that are past the later', () => {
    const [past, next, far] = [
      target({ id: 'p', day: dayAt(10) }),
      target({ id: 'n', day: dayAt(40) }),
      target({ id: 'f', day: dayAt(90) }),
    ];
    expect(drawn(6, [far, past, next]).target?.id).toBe('n');
    expect(drawn(6, [target({ id: 'o', day: dayAt(5) }), past]).target?.id).toBe('p');
  });

  test('from a day on only its sessions are drawn, but known by all', () => {
    const [all, some] = [drawn(8), drawn(8, [], { from: dayAt(16) })];
    expect(some.points).toEqual(all.points.slice(4));
    expect(some.end).toEqual(all.end);
  });
});

test('a target whose day is past is told as past, and asks for nothing', () => {
  const { end } = drawn(8);
  const [found] = findingsOf([end], [target({ day: dayAt(20) })], dayAt(30)).filter((one) => 'target' in one);
  expect(found).toMatchObject({
    type: 'past',
    next: { type: 'keep-on' },
    standing: { needed: 130, verdict: 'behind' },
  });
});
