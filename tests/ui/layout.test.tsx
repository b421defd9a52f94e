import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays } from '../../src/domain/day';
import type { Exposure, Top } from '../../src/domain/exposure';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { apart, inRow, widthOf } from '../../src/ui/charts/labels';
import { type Chart, type ChartWords, chartOf, nearestStop } from '../../src/ui/charts/layout';
import { frameOf, visitsOf } from '../../src/ui/charts/visits';
import { kg, lb, on, shipped } from './exposures';

const SIZE = { width: 340, height: 258 };
/** Without words nothing needs room: values lie from 32 (top) to 232, days from 18 to 318. */
const NO_WORDS: ChartWords = { caption: '', value: () => '', day: () => '', side: () => '', marks: [] };

function drawn(exposures: readonly Exposure[], words = NO_WORDS, exercise = shipped('front-squat')): Chart {
  const frame = frameOf(exercise, exposures);
  const chart = chartOf(visitsOf(exposures, frame), frame.measure, SIZE, words);
  if (!chart) throw new Error('nothing was drawn');
  return chart;
}
const squat = (day: string, value: number): Exposure => on(day, [{ load: kg(value), reps: 5 }]);
const places = (chart: Chart, line = 0) => chart.lines[line]?.dots.map(({ x, y }) => [x, y]);

describe('where points lie', () => {
  test('days lie by the calendar, values by the axis', () => {
    const chart = drawn([squat('2026-11-01', 50), squat('2026-11-02', 55), squat('2026-11-11', 60)]);
    expect(chart.plot).toEqual({ left: 10, right: 326, top: 32, bottom: 232 });
    expect(places(chart)).toEqual([
      [18, 232],
      [48, 132],
      [318, 32],
    ]);
    expect(chart.lines[0]?.path).toBe('M18,232L48,132L318,32');
    expect(chart.lines[0]?.gaps).toBe('');
  });

  test('one session stands in the middle, with no line', () => {
    const chart = drawn([squat('2026-11-01', 57)]);
    expect(places(chart)?.[0]?.[0]).toBe(168);
    expect(chart.lines[0]).toMatchObject({ path: '', gaps: '', shape: 'disc' });
    expect(chart.days).toHaveLength(1);
  });

  test('equal values make a level line inside the plot', () => {
    const ys = places(drawn([squat('2026-11-01', 40), squat('2026-11-05', 40), squat('2026-11-09', 40)]))?.map(
      ([, y]) => y,
    );
    expect(new Set(ys).size).toBe(1);
    expect(ys?.[0]).toBeGreaterThan(60);
    expect(ys?.[0]).toBeLessThan(204);
  });

  test('of loads in both units the heavier lies higher: 135 lb is more than 60 kg', () => {
    const chart = drawn([on('2026-11-01', [{ load: lb(135), reps: 5 }]), squat('2026-11-05', 60)]);
    const [pounds, kilograms] = chart.lines[0]?.dots ?? [];
    expect(pounds?.y).toBeLessThan(kilograms?.y ?? 0);
  });

  test('help lies below 0, and the 0 is marked', () => {
    const times = [
      on('2026-11-01', [{ assist: kg(10), reps: 5 }]),
      on('2026-11-03', [{ reps: 5 }]),
      on('2026-11-05', [{ added: kg(10), reps: 5 }]),
    ];
    const chart = drawn(times, NO_WORDS, shipped('pull-up'));
    expect(places(chart)?.map(([, y]) => y)).toEqual([232, 132, 32]);
    expect(chart.values.filter(({ zero }) => zero).map(({ y }) => y)).toEqual([132]);
  });

  test('months without a session are crossed by a line of their own', () => {
    const chart = drawn([
      squat('2026-01-01', 50),
      squat('2026-02-26', 55),
      squat('2026-04-24', 55),
      squat('2026-04-25', 60),
    ]);
    const [first, second, third, last] = places(chart)?.map((place) => place.join(',')) ?? [];
    // 56 days are not too long, 57 are
    expect(chart.lines[0]?.path).toBe(`M${first}L${second}M${third}L${last}`);
    expect(chart.lines[0]?.gaps).toBe(`M${second}L${third}`);
  });

  test('sides are lines of their own shape, and a side left out in between does not break its line', () => {
    const both = (day: string, left: number | undefined, right: number): Exposure =>
      on(day, [
        ...(left === undefined ? [] : [{ side: 'left' as const, load: kg(left), reps: 8 }]),
        { side: 'right', load: kg(right), reps: 8 },
      ]);
    const chart = drawn([both('2026-11-01', 10, 12), both('2026-11-06', undefined, 14), both('2026-11-11', 20, 20)]);
    expect(chart.lines.map(({ side, shape, dots }) => [side, shape, dots.length])).toEqual([
      ['left', 'disc', 2],
      ['right', 'square', 3],
    ]);
    expect(chart.lines[0]?.path).toBe('M18,232L318,32');
    expect(chart.stops.map(({ x }) => x)).toEqual([18, 168, 318]);
  });

  test('a session without a number is no stop, and none at all is no chart', () => {
    const chart = drawn([squat('2026-11-01', 50), on('2026-11-03', [{ reps: 5 }]), on('2026-11-04', [])]);
    expect(chart.stops.map(({ session }) => session)).toEqual(['2026-11-01']);
    expect(chartOf(visitsOf([on('2026-11-04', [])], { measure: 'load', unit: 'kg' }), 'load', SIZE, NO_WORDS)).toBe(
      undefined,
    );
  });

  test('500 sessions are drawn, each a stop, and finer', () => {
    const times = Array.from({ length: 500 }, (_, n) => squat(addDays('2023-01-01', n * 2), 40 + (n % 7)));
    const chart = drawn(times);
    expect(chart.stops).toHaveLength(500);
    expect(chart.dense).toBe(true);
    expect(drawn(times.slice(0, 10)).dense).toBe(false);
    expect(chart.lines[0]?.dots.at(-1)?.x).toBe(318);
  });
});

describe('taps', () => {
  test('the nearest session is meant, of two on one day the later', () => {
    const chart = drawn([
      squat('2026-11-01', 50),
      { ...squat('2026-11-11', 55), session: 'morning' },
      { ...squat('2026-11-11', 60), session: 'evening', at: Date.parse('2026-11-11T18:00Z') },
    ]);
    expect(nearestStop(chart, 0)).toBe('2026-11-01');
    expect(nearestStop(chart, 167)).toBe('2026-11-01');
    expect(nearestStop(chart, 169)).toBe('evening');
    expect(nearestStop(chart, 900)).toBe('evening');
  });
});

describe('words around the chart', () => {
  const words: ChartWords = {
    caption: 'load added, kg; below 0 taken off',
    value: (value) => `${value}`,
    day: ({ day }) => day,
    side: (side) => side ?? 'both',
    marks: [
      { session: '2026-11-17', text: 'last time' },
      { session: '2026-11-18', text: 'this time' },
      { session: 'not shown', text: 'never' },
    ],
  };
  const chart = drawn(
    ['2026-10-20', '2026-11-17', '2026-11-18'].map((day) =>
      on(day, [
        { side: 'left', load: kg(20), reps: 8 },
        { side: 'right', load: kg(20), reps: 8 },
      ]),
    ),
    words,
  );

  test('two marks next to each other stand side by side, each leading to its session', () => {
    const [last, now] = chart.marks;
    expect(chart.marks.map(({ text }) => text)).toEqual(['last time', 'this time']);
    expect(last && now && last.x + widthOf(last.text)).toBeLessThan(now?.x ?? 0);
    expect([last?.at, now?.at]).toEqual(chart.stops.slice(1).map(({ x }) => x));
  });

  test('no mark lies on a long caption', () => {
    expect(chart.marks[0]?.y).toBeGreaterThan(chart.caption.y);
  });

  test('the words at two ends that meet stand one above the other', () => {
    const [left, right] = chart.lines.map(({ end }) => end);
    expect([left?.text, right?.text]).toEqual(['left', 'right']);
    expect(Math.abs((left?.y ?? 0) - (right?.y ?? 0))).toBe(18);
  });

  test('texts in a row are moved aside, never past the sides', () => {
    const texts = [
      { x: 0, width: 40 },
      { x: 20, width: 40 },
      { x: 200, width: 40 },
    ];
    expect(inRow(texts, 200)).toEqual([0, 50, 160]);
    expect(
      inRow(
        [180, 200].map((x) => ({ x, width: 40 })),
        200,
      ),
    ).toEqual([110, 160]);
    expect(apart([10, 12, 90], 20, [0, 100])).toEqual([10, 30, 90]);
    expect(apart([95, 90], 20, [0, 100])).toEqual([100, 80]);
  });
});

describe('whatever was logged', () => {
  const load = fc.record({
    value: fc.double({ min: 0, max: 600, noNaN: true }),
    unit: fc.constantFrom('kg' as const, 'lb' as const),
  });
  const top = fc
    .record(
      {
        side: fc.constantFrom('left' as const, 'right' as const),
        load,
        added: load,
        assist: load,
        band: fc.string({ minLength: 1, maxLength: 24 }),
        pin: fc.oneof(
          fc.string({ minLength: 1, maxLength: 24 }),
          fc.constantFrom('7', '1e300', '-3', 'NaN', 'Infinity'),
        ),
        reps: fc.nat({ max: 500 }),
        seconds: fc.double({ min: 1, max: 7200, noNaN: true }),
        degrees: fc.double({ min: -90, max: 360, noNaN: true }),
        good: fc.nat({ max: 20 }),
        of: fc.nat({ max: 20 }),
      },
      { requiredKeys: [] },
    )
    .map(
      ({ good, of, ...held }): Top =>
        good === undefined || of === undefined ? held : { ...held, good: Math.min(good, of), of },
    );
  const exposure = fc
    .record({
      day: fc.oneof(
        fc.integer({ min: -30_000, max: 100_000 }).map((n) => addDays('2026-01-01', n)),
        fc.constantFrom('2026-02-30', '9999-12-31', '0001-01-03'),
      ),
      tops: fc.array(top, { maxLength: 3 }),
      pain: fc.nat({ max: 10 }),
      session: fc.uuid(),
    })
    .map(({ day, tops, ...more }) => on(day, tops, { ...more, at: 1_700_000_000_000 }));

  test('no number of the chart is none, and no point lies outside', () => {
    fc.assert(
      fc.property(
        fc.array(exposure, { maxLength: 12 }),
        fc.constantFrom(...SHIPPED_EXERCISES),
        fc.integer({ min: 240, max: 640 }),
        (times, exercise, width) => {
          const frame = frameOf(exercise, times);
          const marks = times.slice(0, 2).map(({ session }) => ({ session, text: 'last time' }));
          const chart = chartOf(
            visitsOf(times, frame),
            frame.measure,
            { width, height: 230 },
            {
              caption: 'reps',
              value: (value) => value.toPrecision(3),
              day: ({ day }) => day,
              side: (side) => side ?? '',
              marks,
            },
          );
          if (!chart) return;
          expect(JSON.stringify(chart)).not.toMatch(/null|NaN|Infinity|undefined/);
          const { left, right, top: high, bottom } = chart.plot;
          for (const dot of chart.lines.flatMap(({ dots }) => dots)) {
            expect(dot.x).toBeGreaterThanOrEqual(left);
            expect(dot.x).toBeLessThanOrEqual(right);
            expect(dot.y).toBeGreaterThanOrEqual(high - 0.1);
            expect(dot.y).toBeLessThanOrEqual(bottom + 0.1);
          }
        },
      ),
      { numRuns: 400 },
    );
  });
});
