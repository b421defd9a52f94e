import { describe, expect, test } from 'vitest';
import { widthOf } from '../../src/ui/charts/labels';
import { since, windowFrom } from '../../src/ui/charts/picture';
import { drawnOf } from '../../src/ui/charts/pictureLayout';
import type { DayTick } from '../../src/ui/charts/ticks';
import { otherNextText, otherSureText, type Telling } from '../../src/ui/otherWords';
import { foundWords, topicsOf } from '../../src/ui/people/topics';
import { dayTickText, valueText } from '../../src/ui/trendWords';
import { clientWith } from '../analysis/foundIn';
import { anyHistory, dayIn, expectFinite, forAny } from '../reference/records';
import { answersFor } from './answersApp';

/* Pictures and sentences of any records at all. */

const ANY = anyHistory(
  'lib-front-squat',
  'lib-one-arm-row',
  'lib-side-plank',
  'lib-hop-and-hold',
  'lib-farmer-carry',
  'lib-pull-up',
  'lib-upper-back-rotation',
).map((history) =>
  // more good ones than landings are never read from a row
  history.map((session) => ({
    ...session,
    sets: session.sets.map((one) =>
      one.good === undefined ? one : { ...one, good: Math.min(one.good, one.landings ?? 0) },
    ),
  })),
);
/** Each draws every picture. */
const RUNS = 60;
const told = (unit: Telling['unit']): Telling => ({
  unit,
  distance: unit === 'kg' ? 'm' : 'ft',
  today: dayIn(61),
  exercise: (id) => id,
  cue: (id) => id,
});

test('whatever was logged, no sentence has a number that is none, and no line of a table is longer or shorter than its heads', () => {
  forAny(
    ANY,
    (history) => {
      const answers = answersFor(clientWith(history, { level: 'beginner' }), dayIn(61));
      for (const unit of ['kg', 'lb'] as const) {
        const telling = told(unit);
        for (const { found, pictures } of topicsOf(answers, telling).told) {
          const words = found.map((one) => {
            const { number, sentence } = foundWords(one, telling);
            return [number, sentence, otherSureText(one), otherNextText(one.next, dayIn(61), one.topic)].join(' ');
          });
          const said = pictures.flatMap((one) => one.points.flatMap((point) => [...point.said, ...point.cells]));
          for (const text of [...words, ...said])
            expect(text).not.toMatch(/NaN|undefined|null|Infinity|−0(?![.\d])|\[object/);
          for (const { columns, points } of pictures) {
            expect(new Set(columns).size).toBe(columns.length);
            expect(new Set(points.map(({ key }) => key)).size).toBe(points.length);
            for (const { cells } of points) expect(cells).toHaveLength(columns.length);
          }
        }
      }
    },
    RUNS,
  );
});

test('whatever was logged, everything that is drawn lies on the chart, as narrow as it may be', () => {
  forAny(
    ANY,
    (history) => {
      const telling = told('kg');
      const answers = answersFor(clientWith(history, { level: 'beginner' }), dayIn(61));
      for (const { pictures } of topicsOf(answers, telling).told) {
        for (const picture of pictures) {
          for (const width of [240, 600]) {
            const drawn = drawnOf(
              picture,
              { width, height: 200 },
              { value: (value) => valueText(value, picture), day: dayTickText },
            );
            expectFinite(drawn);
            expect(drawn === undefined).toBe(picture.points.every(({ marks }) => marks.length === 0));
            if (!drawn) continue;
            const near = 0.2;
            for (const { x, y } of drawn.dots) {
              expect(x).toBeGreaterThanOrEqual(0);
              expect(x).toBeLessThanOrEqual(width);
              expect(y).toBeGreaterThanOrEqual(drawn.plot.top - near);
              expect(y).toBeLessThanOrEqual(drawn.plot.bottom + near);
            }
            for (const bar of drawn.bars) {
              expect(bar.x).toBeGreaterThanOrEqual(drawn.plot.left - near);
              expect(bar.x + bar.width).toBeLessThanOrEqual(drawn.plot.right + near);
              expect(bar.y).toBeGreaterThanOrEqual(drawn.plot.top - near);
              expect(bar.y + bar.height).toBeLessThanOrEqual(drawn.plot.bottom + near);
            }
            expect(drawn.stops).toHaveLength(picture.points.filter(({ marks }) => marks.length > 0).length);
          }
        }
      }
    },
    RUNS,
  );
});

describe('the words of the axis', () => {
  const weeks = (...first: readonly number[]) => ({
    id: 'w',
    title: 'w',
    as: 'weeks' as const,
    caption: 'kg',
    measure: 'load' as const,
    series: ['bar' as const],
    columns: [],
    notes: [],
    points: first.map((week) => ({
      key: `${week}`,
      day: dayIn(7 * week),
      marks: [{ series: 0, value: 1000 }],
      said: [],
      cells: [],
    })),
  });
  const under = (picture: ReturnType<typeof weeks>, width: number) => {
    const size = { width, height: 200 };
    const words = { value: (value: number) => valueText(value, picture), day: (tick: DayTick) => tick.day.slice(5) };
    return drawnOf(picture, size, words)?.texts.filter(({ y }) => y === 195) ?? [];
  };

  test('few weeks are named by their first days alone', () => {
    expect(under(weeks(0, 1), 300).map(({ text }) => text)).toEqual(['01-05', '01-12']);
    expect(under(weeks(0), 300).map(({ text }) => text)).toEqual(['01-05']);
    expect(under(weeks(0, 1, 2), 300).map(({ text }) => text)).toEqual(['01-05', '01-12', '01-19']);
  });

  test('none runs into the next, however few or many there are', () => {
    for (const width of [240, 300, 600])
      for (let count = 1; count < 60; count += 1) {
        const texts = under(weeks(...Array.from({ length: count }, (_, n) => n)), width);
        const ends = texts.map(({ x, anchor, text }) => {
          const wide = widthOf(text);
          const from = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2;
          return { from, to: from + wide };
        });
        for (const [n, { from }] of ends.entries()) expect(from).toBeGreaterThan((ends[n - 1]?.to ?? -99) + 3);
        expect(texts.length).toBeGreaterThan(0);
      }
  });
});

describe('windows', () => {
  const weekly = (weeks: readonly number[]) => ({
    id: 'w',
    title: 'w',
    as: 'weeks' as const,
    caption: '',
    measure: 'load' as const,
    series: ['bar' as const],
    columns: [],
    notes: [],
    points: weeks.map((week) => ({ key: `${week}`, day: dayIn(7 * week), marks: [], said: [], cells: [] })),
  });
  const kept = (from: string | undefined) => since(weekly([0, 1, 2, 3, 4]), from).points.map(({ key }) => key);

  test('four weeks up to a Monday begin on a Tuesday; a week that ends in them is shown, one that ended before is not', () => {
    // 28 days up to day 28 begin on day 1, in week 0
    expect(windowFrom('4', dayIn(28))).toBe(dayIn(1));
    expect(kept(windowFrom('4', dayIn(28)))).toEqual(['0', '1', '2', '3', '4']);
    // up to the Sunday before they begin on day 0; a day later week 0 is over
    expect(kept(windowFrom('4', dayIn(34)))).toEqual(['1', '2', '3', '4']);
    expect(kept(windowFrom('all', dayIn(34)))).toHaveLength(5);
  });

  test('twelve weeks are 84 days, both ends included', () => {
    expect(windowFrom('12', dayIn(83))).toBe(dayIn(0));
  });
});
