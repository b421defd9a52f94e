import { cleanup, fireEvent, screen } from '@testing-library/preact';
import { afterEach, describe, expect, test } from 'vitest';
import { addDays } from '../../src/domain/day';
import type { Exposure } from '../../src/domain/exposure';
import type { Target } from '../../src/domain/target';
import { chanceText } from '../../src/ui/barWords';
import { kg, on } from './exposures';
import { openTrend, TODAY } from './trendApp';

afterEach(cleanup);

/* What the sheet says of how an exercise goes. The histories are made up so plainly that anyone would say the same of them. */

const plain = (text: string | null | undefined): string => (text ?? '').replaceAll('\u00a0', ' ');
const says = (): string => plain(screen.getByRole('region', { name: 'what it says' }).textContent);

/** Twice a week up to the day before today: three sets of five, two left. */
function squats(loads: readonly number[], more: (n: number) => Partial<Exposure> = () => ({})): readonly Exposure[] {
  return loads.map((load, n) => {
    const day = addDays(TODAY, -1 - Math.round((loads.length - 1 - n) * 3.5));
    const tried = [1, 2, 3].map(() => ({ kg: load, reps: 5, left: 2 }));
    return on(day, [{ load: kg(load), reps: 5, effort: { value: 2, as: 'left' } }], { tried, ...more(n) });
  });
}

const rising = Array.from({ length: 24 }, (_, n) => 80 + n * 0.625);
const flat = [...Array.from({ length: 12 }, (_, n) => 80 + n), ...Array.from({ length: 14 }, () => 92)];

describe('how it goes', () => {
  test('three sessions are not enough, and it says how many it takes', () => {
    openTrend(squats([80, 82, 84]));
    expect(says()).toContain('Not enough yet (has 3 sessions, needs 6).');
    expect(says()).toContain('Log 3 more sessions over 11 more days at least.');
  });

  test('six in a week are not enough either', () => {
    const week = Array.from({ length: 6 }, (_, n) =>
      on(addDays(TODAY, n - 6), [{ load: kg(80), reps: 5 }], { tried: [{ kg: 80, reps: 5, left: 2 }] }),
    );
    openTrend(week);
    expect(says()).toContain('Not enough yet (6 sessions or more, but in 5 days; needs 18).');
  });

  test('a load that rises from week to week grows; seven weeks at one load are flat, with a next act and how sure', () => {
    openTrend(squats(rising));
    expect(says()).toContain('Still growing.');
    expect(says()).not.toContain('lat since');
    cleanup();
    openTrend(squats(flat));
    expect(says()).toMatch(/Flat since [A-Za-z0-9 ]+ \(\d weeks\)\. Change reps, load or rest; judge again on \w{3} /);
    expect(says()).toMatch(/Flat since .* About (7|8|9) in 10 that this is so, on \d+ sessions\./);
  });

  test('the same without a word of effort is not called flat', () => {
    openTrend(
      squats(flat, () => ({})).map((one) => ({ ...one, tried: (one.tried ?? []).map(({ left: _, ...set }) => set) })),
    );
    expect(says()).not.toContain('Flat');
    expect(says()).toMatch(/No more since .*, but no session of \d+ tells how much more was possible/);
    expect(says()).toContain('Note how many reps were left, at least on the last set.');
  });

  test('where it stands is told with its range; what it rests on stands behind "how sure"', () => {
    openTrend(squats(flat));
    // 92 kg × 5 with two left is seven: 92 × (1 + 6/28) / (1 + 4/28) = 97.75 kg for five with nothing left
    const [, level, low, high] =
      /About ([\d.]+) kg × 5 could be done with nothing left \(([\d.]+) to ([\d.]+)\)/.exec(says()) ?? [];
    expect(Math.abs(Number(level) - 97.75)).toBeLessThan(2);
    expect(Number(low)).toBeLessThan(Number(level));
    expect(Number(high)).toBeGreaterThan(Number(level));
    expect(says()).toContain('Judged by 78 sets in 26 sessions.');
    expect(says()).toContain('Effort was noted on 78 of them');
    expect(says()).toContain('The range in brackets holds four times in five.');
    expect(says()).toContain('It is no medical advice.');
  });

  test('loads added to a body whose mass is not noted: it says what is missing, and judges once it is noted', () => {
    const loaded = Array.from({ length: 8 }, (_, n) =>
      on(addDays(TODAY, 4 * n - 32), [{ added: kg(10 + n), reps: 5 }], { tried: [{ kg: 10 + n, reps: 5, left: 2 }] }),
    );
    openTrend(loaded, 'lib-pull-up');
    expect(screen.getByText(/^Loads added to the body are judged once a body mass is noted/)).toBeTruthy();
    cleanup();
    const masses = [{ value: 62, unit: 'kg' as const, day: '2026-10-01', notedAt: 1 }];
    openTrend(loaded, 'lib-pull-up', TODAY, { masses });
    expect(screen.queryByText(/^Loads added to the body/)).toBeNull();
    expect(says()).toMatch(/About \+\d+(\.5)? kg × 5 could be done/);
    // 7 weeks after it was noted
    expect(says()).toMatch(/The body mass is from .*, more than four weeks before\./);
  });

  test('seconds are told by a plain line, and what holds no number by none', () => {
    const hangs = Array.from({ length: 10 }, (_, n) => on(addDays(TODAY, 7 * n - 70), [{ seconds: 30 + 2 * n }]));
    openTrend(hangs, 'lib-dead-hang');
    expect(screen.queryByRole('region', { name: 'what it says' })).toBeNull();
    expect(screen.getByText('About 2 s more a week (2 s to 2 s), over 10 sessions.')).toBeTruthy();
    expect(screen.queryByRole('button', { name: 'Set a target' })).toBeNull();
  });
});

describe('on time or not', () => {
  const target = (more: Partial<Target>): Target => ({
    id: 't1',
    exercise: 'lib-front-squat',
    goal: { value: 120, unit: 'kg' },
    reps: 5,
    start: { value: 90, unit: 'kg' },
    from: addDays(TODAY, -50),
    day: addDays(TODAY, 50),
    ...more,
  });
  const open = (more: Partial<Target> = {}) =>
    openTrend(squats(flat), 'lib-front-squat', TODAY, { targets: [target(more)] });

  test('half way in time, half way on the bar is needed: 105 kg from 90 to 120', () => {
    open();
    expect(says()).toMatch(
      /Behind by \d(\.5)? kg for 120 kg × 5 by [^:]+: today needs 105 kg, now about \d+(\.5)? kg\./,
    );
    expect(says()).toMatch(/About 1 in (10|30) to reach 120 kg × 5 by /);
    cleanup();
    open({ start: { value: 80, unit: 'kg' }, goal: { value: 100, unit: 'kg' } });
    expect(says()).toMatch(/Ahead by \d(\.5)? kg for 100 kg × 5 by [^:]+: today needs 90 kg/);
  });

  test('what is there already is told so; a day that is past is told as past', () => {
    open({ goal: { value: 90, unit: 'kg' }, start: { value: 70, unit: 'kg' } });
    expect(says()).toMatch(/Could be done already: 90 kg × 5 by [^;]+ 2027; now about 99 kg\./);
    cleanup();
    open({ from: addDays(TODAY, -90), day: addDays(TODAY, -1) });
    expect(says()).toMatch(
      /Its day, \d+ Nov, is past; about .* that it could be done now\.|Its day, Nov \d+, is past;/,
    );
  });

  test('where it should be today, and the goal hardly in reach: the worse is said', () => {
    openTrend(squats(rising), 'lib-front-squat', TODAY, {
      targets: [
        target({
          goal: { value: 180, unit: 'kg' },
          start: { value: 98, unit: 'kg' },
          from: TODAY,
          day: addDays(TODAY, 40),
        }),
      ],
    });
    expect(says()).toMatch(/Hardly in reach at this pace: 180 kg × 5 by [^;]+; today needs 98 kg, now about/);
    expect(says()).toContain('About 1 in 30 to reach 180 kg × 5');
    expect(says()).not.toContain('On time');
  });

  test('without a start there is a chance, and no line to be on', () => {
    open({ start: undefined as never });
    expect(says()).not.toContain('today needs');
    expect(says()).toContain('to reach 120 kg × 5 by');
  });
});

describe('the chart of what could be done', () => {
  test('lays band, forecast and goal over the sessions; the table has the same, and what lies ahead', () => {
    const targets: Target[] = [
      {
        id: 't1',
        exercise: 'lib-front-squat',
        goal: { value: 110, unit: 'kg' },
        reps: 5,
        start: { value: 90, unit: 'kg' },
        from: addDays(TODAY, -50),
        day: addDays(TODAY, 50),
      },
    ];
    openTrend(squats(flat), 'lib-front-squat', TODAY, { targets });
    const chart = screen.getByRole('img');
    for (const shape of ['band', 'level', 'fan', 'ahead', 'needed', 'goal'])
      expect(chart.querySelector(`.trend-${shape}`)?.getAttribute('d'), shape).toMatch(/^M[\d.,LMZ-]+$/);
    fireEvent.click(screen.getByRole('button', { name: 'As a table' }));
    const [sessions, ahead] = screen.getAllByRole('table');
    expect([...(sessions?.querySelectorAll('thead th') ?? [])].map((cell) => cell.textContent)).toEqual([
      'Day',
      'Held',
      'That day',
      'So far',
      'Effort',
    ]);
    expect(sessions?.querySelectorAll('tbody tr')).toHaveLength(26);
    expect(plain(ahead?.querySelector('tbody tr:last-child')?.textContent)).toContain('110 kg');
    fireEvent.click(screen.getByRole('button', { name: 'What was held' }));
    expect(screen.getAllByRole('table')).toHaveLength(1);
  });
});

test('a session of missed sets or back-offs alone is measured by, and so it is on the chart and in the table', () => {
  const all = squats(rising);
  // nothing stands for it among what was held
  const missed = all.map((one, n) => (n === 20 ? { ...one, tops: [] } : one));
  openTrend(missed);
  const points = screen.getByRole('img').querySelectorAll('circle.trend-point');
  expect(points).toHaveLength(24);
  fireEvent.click(screen.getByRole('button', { name: 'As a table' }));
  // the newest comes first, under the heads: the 21st of 24 is the fourth; it was done with 80 + 20 × 0.625 kg
  const row = screen.getAllByRole('row')[4];
  expect(plain(row?.textContent)).toContain('92.5 kg × 5');
  expect([...(row?.querySelectorAll('td') ?? [])][1]?.textContent).toMatch(/^\d/);
});

test('of one’s own body a session without a top stands with what was added to it', () => {
  const loaded = Array.from({ length: 8 }, (_, n) =>
    on(addDays(TODAY, 4 * n - 32), n === 5 ? [] : [{ added: kg(10 + n), reps: 5 }], {
      tried: [{ kg: 10 + n, reps: 5, left: 2 }],
    }),
  );
  const masses = [{ value: 62, unit: 'kg' as const, day: TODAY, notedAt: 1 }];
  openTrend(loaded, 'lib-pull-up', TODAY, { masses });
  fireEvent.click(screen.getByRole('button', { name: 'As a table' }));
  // the sixth of eight, newest first under the heads
  const told = (n: number): string => plain(screen.getAllByRole('row')[n]?.querySelector('td')?.textContent);
  expect(told(4).replace('14', '15')).toBe(told(3).replace('16', '15'));
  expect(told(3)).toContain('15 kg');
});

test('both sides are told for as many reps, whatever reps either is done with', () => {
  const rows = Array.from({ length: 12 }, (_, n) => {
    const day = addDays(TODAY, 4 * n - 48);
    const left = { side: 'left' as const, kg: 20 + n / 2, reps: 5, left: 2 };
    const right = { side: 'right' as const, kg: 16 + n / 2, reps: 10, left: 2 };
    const tops = [
      { side: 'left' as const, load: kg(left.kg), reps: 5 },
      { side: 'right' as const, load: kg(right.kg), reps: 10 },
    ];
    return on(day, tops, { tried: [left, left, right, right] });
  });
  openTrend(rows, 'lib-one-arm-row');
  expect(says()).toMatch(/Left: about [\d.]+ kg × 5 could be done/);
  expect(says()).toMatch(/Right: about [\d.]+ kg × 5 could be done/);
});

test('what days before the chart need is not drawn: nothing reaches over the labels on its left', () => {
  const early: Target = {
    id: 't1',
    exercise: 'lib-front-squat',
    goal: { value: 110, unit: 'kg' },
    reps: 5,
    start: { value: 60, unit: 'kg' },
    from: addDays(TODAY, -300),
    day: addDays(TODAY, 50),
  };
  openTrend(squats(rising), 'lib-front-squat', TODAY, { targets: [early] });
  const chart = screen.getByRole('img');
  const [first] = chart.querySelectorAll('circle.trend-point');
  const from = Number(/^M([\d.]+),/.exec(chart.querySelector('.trend-needed')?.getAttribute('d') ?? '')?.[1]);
  expect(from).toBeCloseTo(Number(first?.getAttribute('cx')), 1);
});

test('chances are told in words, never surer than 29 in 30', () => {
  expect([0, 0.02, 0.04, 0.06, 0.14, 0.5, 0.74, 0.96, 1].map(chanceText)).toEqual([
    'about 1 in 30',
    'about 1 in 30',
    'about 1 in 30',
    'about 1 in 10',
    'about 1 in 10',
    'about 5 in 10',
    'about 7 in 10',
    'about 29 in 30',
    'about 29 in 30',
  ]);
});
