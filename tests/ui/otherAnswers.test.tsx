import { cleanup, screen, waitFor } from '@testing-library/preact';
import { afterEach, describe, expect, test } from 'vitest';
import { clientWith, did, worked } from '../analysis/foundIn';
import { dayIn, kg, times } from '../reference/records';
import { answersFor, openAnswers, openOn, SQUAT, squats, told, topic } from './answersApp';

afterEach(cleanup);

/* The other answers on the client's page, in records made by hand. Day 0 is Monday 5 January 2026; week n begins on day 7n. */

describe('tonnage', () => {
  // 1,500 kg in each of four weeks, then 3,000
  const doubled = clientWith([...[0, 1, 2, 3].map((week) => squats(week, 100)), squats(4, 200)]);

  test('a number and a sentence: the week, what is usual, how much is counted; no red, no foretelling', async () => {
    openOn(doubled, 35);
    const part = await topic('Tonnage');
    expect(part.number()).toBe('3,000 kg');
    expect(part.says()).toContain(`The week from ${told(dayIn(28))}`);
    expect(part.says()).toContain('above the usual 1,500 kg; usual weeks lie between 1,059 kg and 2,126 kg');
    expect(part.says()).toContain('3 of 3 sets counted (100 %)');
    expect(part.part.className).not.toContain('look');
  });

  test('in pounds the same in pounds: 3,000 kg are 6,614 lb', async () => {
    openOn(doubled, 35, { load: 'lb' });
    const part = await topic('Tonnage');
    expect(part.number()).toBe('6,614 lb');
    expect(part.says()).toContain('above the usual 3,307 lb');
    part.open();
    part.tap('As a table');
    expect(part.table()[0]).toContain('lb × reps');
    expect(part.table()[1]?.slice(0, 2)).toEqual([told(dayIn(28)), '6,614']);
  });

  test('the chart has a bar a week, keys step through them, the line and the table say the same', async () => {
    openOn(doubled, 35);
    const part = await topic('Tonnage');
    part.open();
    expect(part.chart().querySelectorAll('.picture-bar')).toHaveLength(5);
    expect(part.chart().querySelector('.picture-range')).toBeTruthy();
    expect(part.said()).toBe(`The week from ${told(dayIn(28))}: 3,000 kg3 sets counted (100 %) in 1 session`);
    part.keys('ArrowLeft');
    expect(part.said()).toContain(`The week from ${told(dayIn(21))}: 1,500 kg`);
    part.keys('Home');
    expect(part.said()).toContain(`The week from ${told(dayIn(0))}: 1,500 kg`);
    part.keys('ArrowLeft');
    expect(part.said()).toContain(`The week from ${told(dayIn(0))}: 1,500 kg`);
    part.keys('End');
    expect(part.said()).toContain(`The week from ${told(dayIn(28))}: 3,000 kg`);
    part.tap('As a table');
    expect(part.table().map((row) => row.slice(0, 2))).toEqual([
      ['Week from', 'kg × reps'],
      [told(dayIn(28)), '3,000'],
      [told(dayIn(21)), '1,500'],
      [told(dayIn(14)), '1,500'],
      [told(dayIn(7)), '1,500'],
      [told(dayIn(0)), '1,500'],
    ]);
    part.tap('As a chart');
    expect(part.chart()).toBeTruthy();
  });

  test('a window slices what is there: four weeks hold four of six, all has all, and nothing is worked out anew', async () => {
    let asked = 0;
    const client = clientWith([0, 1, 2, 3, 4, 5].map((week) => squats(week, 100)));
    openAnswers(() => {
      asked += 1;
      return Promise.resolve(answersFor(client, dayIn(42)));
    }, dayIn(42));
    const part = await topic('Tonnage');
    part.open();
    const bars = () => part.chart().querySelectorAll('.picture-bar').length;
    expect(bars()).toBe(6);
    // 28 days up to Monday 16 February begin on Tuesday 20 January: the week from the 19th is cut into, and shown
    await screen.findByRole('button', { name: '4 weeks' }).then((button) => button.click());
    await waitFor(() => expect(bars()).toBe(4));
    screen.getByRole('button', { name: 'all' }).click();
    await waitFor(() => expect(bars()).toBe(6));
    expect(asked).toBe(1);
  });

  test('two lifts: each for itself, and a total that says that it is one, with what is not counted', async () => {
    const bench = [0, 1, 2, 3, 4].map((week) =>
      did(dayIn(7 * week + 3), 'lib-bench-press', [...times(2, { load: kg(60), reps: 10 }), { reps: 10 }]),
    );
    openOn(clientWith([...[0, 1, 2, 3, 4].map((week) => squats(week, 100)), ...bench]), 35);
    const part = await topic('Tonnage');
    part.open();
    part.tap('Total');
    part.tap('As a table');
    const [heads, first] = part.table();
    expect(heads).toEqual(['Week from', 'Total, kg × reps', 'Exercises', 'Sets counted', 'Counted of all sets']);
    // 3 × 5 × 100 + 2 × 10 × 60; one set of six has no load
    expect(first).toEqual([told(dayIn(28)), '2,700', '2', '5', '83 %']);
    expect(part.all()).toContain('not counted: 1 (no load noted)');
    expect(part.all()).toContain('cannot be compared');
  });

  test('three weeks are too few, and it says so', async () => {
    openOn(clientWith([0, 1, 2].map((week) => squats(week, 100))), 21);
    expect((await topic('Tonnage')).says()).toContain('not enough yet (has 2 weeks, needs 4)');
  });
});

describe('whole-session load', () => {
  const rested = (day: number) => worked(dayIn(day), 'rest day');

  test('METHODS §4: 400, 0, 600, 300, 0, 500, 0 are 1,800, sameness 1.0; it foretells no injury', async () => {
    const of = (day: number, effort: number, minutes: number) =>
      did(dayIn(day), SQUAT, [], { minutes, effort: { value: effort, as: 'session' } });
    const sessions = [of(0, 4, 100), of(2, 6, 100), of(3, 3, 100), of(5, 5, 100)];
    openOn(clientWith(sessions, { otherWork: [1, 4, 6].map(rested) }), 8);
    const part = await topic('Whole-session load');
    expect(part.number()).toBe('1,800');
    expect(part.says()).toContain('all seven days known');
    expect(part.says()).toContain('Day-to-day sameness 1:');
    part.open();
    expect(part.all()).toContain('Load figures do not foretell injuries.');
    part.tap('As a table');
    const week = part.table().find(([first]) => first === told(dayIn(0)));
    // total × sameness: 1,799.07
    expect(week).toEqual([told(dayIn(0)), '1,800', '0', '7', '1', '1,799']);
  });

  test('without an effort it is the least it can have been, and what to note is said', async () => {
    const sessions = [
      did(dayIn(0), SQUAT, [], { minutes: 60, effort: { value: 5, as: 'session' } }),
      did(dayIn(2), SQUAT, [], { minutes: 60 }),
    ];
    openOn(clientWith(sessions), 8);
    const part = await topic('Whole-session load');
    expect(part.number()).toBe('at least 300');
    part.open();
    part.tap('As a table');
    expect(part.table().find(([first]) => first === told(dayIn(0)))?.[1]).toBe('at least 300');
    expect(part.says()).toContain('of 1 of them effort or time is not noted');
    expect(part.says()).toContain('Note the whole-session effort at the end');
  });
});

describe('while it is worked out', () => {
  test('a plain line says how far, then the answers; a failure says so', async () => {
    let there: (() => void) | undefined;
    const waits = new Promise<void>((resolve) => {
      there = resolve;
    });
    openAnswers(async (_stream, _day, tell) => {
      tell?.({ done: 3, of: 12 });
      await waits;
      return answersFor(clientWith([squats(0, 100)]), dayIn(8));
    }, dayIn(8));
    await screen.findByText('Working it out: 3 of 12 clients');
    there?.();
    await topic('Tonnage');
    expect(screen.queryByText(/^Working it out/)).toBeNull();
    cleanup();
    openAnswers(() => Promise.resolve(undefined), dayIn(8));
    await screen.findByText(/^This could not be worked out/);
  });

  test('nobody’s sessions: nothing is noted, and no box stands empty', async () => {
    openOn(clientWith([]), 8);
    await screen.findByText('Nothing noted yet that these could be worked out from.');
    expect(screen.queryByRole('img')).toBeNull();
  });

  test('records that change are asked for again, and what was there stays until then', async () => {
    const loads = [100, 120];
    const { changed } = openAnswers(
      () => Promise.resolve(answersFor(clientWith([squats(0, loads.shift() ?? 0)]), dayIn(8))),
      dayIn(8),
    );
    expect((await topic('Tonnage')).number()).toBe('1,500 kg');
    changed();
    expect((await topic('Tonnage')).number()).toBe('1,500 kg');
    await waitFor(async () => expect((await topic('Tonnage')).number()).toBe('1,800 kg'), { timeout: 3000 });
  });
});
