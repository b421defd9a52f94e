import { cleanup, screen } from '@testing-library/preact';
import { afterEach, describe, expect, test } from 'vitest';
import { clientWith, did, mass } from '../analysis/foundIn';
import { dayIn, kg, metres, times } from '../reference/records';
import { openOn, SQUAT, squats, told, topic } from './answersApp';

afterEach(cleanup);

/* Each of the other answers on the client's page, in records made by hand. Day 0 is Monday 5 January 2026; week n begins on day 7n. */

describe('how they came in', () => {
  const came = (day: number, of: number) =>
    did(dayIn(day), SQUAT, [], {
      arrival: { items: { sleep: of, energy: 4, body: 4, calm: 4, mood: 4 }, usual: false, sore: [] },
    });

  test('three answers are too few to know what is usual; never decides alone; each answer stands in the table', async () => {
    openOn(clientWith([came(0, 3), came(2, 4), came(4, 2)]), 4);
    const part = await topic('How they came in');
    expect(part.number()).toBe('18 of 25');
    expect(part.says()).toContain(
      'asked too seldom yet to know what is usual (2 full answers before it, 14 are needed)',
    );
    part.open();
    expect(part.all()).toContain('How they came in never decides alone');
    part.tap('As a table');
    expect(part.table()).toEqual([
      ['Day', 'Sum, 5–25', 'Sleep', 'Energy', 'Body', 'Mind', 'Mood'],
      [told(dayIn(4)), '18', '2', '4', '4', '4', '4'],
      [told(dayIn(2)), '20', '4', '4', '4', '4', '4'],
      [told(dayIn(0)), '19', '3', '4', '4', '4', '4'],
    ]);
  });

  test('three low days after four weeks of usual ones are a heads-up in words, with a next act', async () => {
    const usual = Array.from({ length: 28 }, (_, n) => came(n, n % 2 === 0 ? 4 : 3));
    openOn(clientWith([...usual, came(28, 1), came(29, 1), came(30, 1)].map((one) => ({ ...one }))), 30);
    const part = await topic('How they came in');
    expect(part.number()).toBe('17 of 25');
    expect(part.says()).toContain('below own normal of 19');
    expect(part.part.className).toContain('answer-look');
    expect(part.all()).toContain('Heads-up');
  });
});

describe('left and right', () => {
  const sided = (day: number, left: number, right: number) =>
    did(dayIn(day), 'lib-side-plank', [
      ...times(2, { side: 'left' as const, seconds: left }),
      ...times(2, { side: 'right' as const, seconds: right }),
    ]);

  test('both in seconds; with trials that are all alike neither side is called the weaker', async () => {
    openOn(clientWith([0, 2, 4, 7, 9, 11].map((day) => sided(day, 24, 30))), 12);
    const part = await topic('Left and right');
    expect(part.number()).toBe('left 24 s, right 30 s');
    expect(part.says()).toContain('so neither side is called the weaker');
    part.open();
    part.tap('As a table');
    const [heads, first] = part.table();
    expect(heads).toEqual(['Day', 'Left, s', 'Right, s', 'Right less left, s', 'Apart, %', 'Trials, left and right']);
    // METHODS §7: 100 − 100 × 24 ÷ 30
    expect(first).toEqual([told(dayIn(11)), '24', '30', '6', '20', '2, 2']);
  });

  test('kg that could be lifted once, in pounds where these are used; a gap beyond the error on each date is a heads-up', async () => {
    const one = (side: 'left' | 'right', load: number) => ({
      side,
      load: kg(load),
      reps: 1,
      effort: { value: 0, as: 'left' as const },
    });
    const rows = [0, 2, 4].map((day) =>
      did(dayIn(day), 'lib-one-arm-row', [...times(2, one('left', 20)), ...times(2, one('right', 30))]),
    );
    openOn(clientWith(rows), 5, { load: 'lb' });
    const part = await topic('Left and right');
    // 20 and 30 kg once are 44.1 and 66.1 lb, 22 lb apart
    expect(part.number()).toBe('left 44.1 lb, right 66.1 lb');
    expect(part.says()).toContain(
      'the left is less by 22 lb (33.3 %), beyond the test’s error on 3 of the last 3 dates',
    );
    expect(part.part.className).toContain('answer-look');
    part.open();
    expect(part.all()).toContain('none foretells an injury');
    expect(part.chart().querySelectorAll('.picture-whisker')).toHaveLength(6);
  });
});

test('sides apart by less than is told are apart by 0, not by −0', async () => {
  const one = (side: 'left' | 'right', load: number) => ({
    side,
    load: kg(load),
    reps: 1,
    effort: { value: 0, as: 'left' as const },
  });
  const row = did(dayIn(0), 'lib-one-arm-row', [...times(2, one('left', 20.04)), ...times(2, one('right', 20))]);
  openOn(clientWith([row]), 1);
  const part = await topic('Left and right');
  part.open();
  part.tap('As a table');
  expect(part.table()[1]?.slice(1, 5)).toEqual(['20', '20', '0', '0.2']);
});

describe('landings and cues', () => {
  const jumped = (day: number, good: number) =>
    did(dayIn(day), 'lib-hop-and-hold', [
      { side: 'left', landings: 10, good, direction: 'ahead' },
      { side: 'right', landings: 10, good: 5, direction: 'ahead' },
    ]);

  test('20 where the range is 80 to 100 are no lack; how good they were stands by side and direction', async () => {
    openOn(clientWith([jumped(0, 8), jumped(3, 9)], { level: 'beginner' }), 4);
    const part = await topic('Landings');
    // 27 of 40 were good, and the right side less often: that comes first
    expect(part.number()).toBe('68 % good');
    expect(part.says()).toContain('left 17 of 20, right 10 of 20; the right is less often good');
    part.open();
    expect(part.all()).toContain(
      `20 landings On ${told(dayIn(3))}, 72 hours after the last session with landings: the range for the level is 80–100 a session; fewer is no reason to add.`,
    );
    part.tap('By side and direction');
    part.tap('As a table');
    expect(part.table().map((row) => row.slice(0, 4))).toEqual([
      ['Side and direction', 'Good', 'Judged', 'Good, %'],
      ['Left, ahead', '17', '20', '85'],
      ['Right, ahead', '10', '20', '50'],
    ]);
  });

  test('without a level nothing is set against a range, and it says where to note one', async () => {
    openOn(clientWith([jumped(0, 8)]), 1);
    const part = await topic('Landings');
    part.open();
    expect(part.all()).toContain('no level is noted');
    expect(part.all()).toContain('Note how much landing the client is used to');
  });

  test('a cue used twice tells nothing yet, and is not ranked', async () => {
    const cued = did(dayIn(0), SQUAT, [
      { load: kg(60), reps: 5, cues: [{ id: 'u1', cue: 'lib-cue-tripod', answer: 'better' }] },
      { load: kg(60), reps: 5, cues: [{ id: 'u2', cue: 'lib-cue-tripod', answer: 'same' }] },
    ]);
    openOn(clientWith([cued]), 1);
    const part = await topic('Cues');
    expect(part.number()).toBe('too few to tell');
    part.open();
    part.tap('As a table');
    expect(part.table()[1]?.slice(0, 3)).toEqual(['your foot is a tripod', '1', '2']);
  });
});

describe('sums, sets and what is not noted', () => {
  test('2 × 24 kg for 40 m are 1,920 kg·m, and in lb·ft 13,887', async () => {
    const carried = did(dayIn(1), 'lib-farmer-carry', [{ load: kg(24), distance: metres(40) }]);
    openOn(clientWith([carried]), 8);
    expect((await topic('Carries')).number()).toBe('1,920 kg·m');
    cleanup();
    openOn(clientWith([carried]), 8, { load: 'lb', length: 'in' });
    expect((await topic('Carries')).number()).toBe('13,887 lb·ft');
  });

  test('three hard sets of squats: direct for quads and glutes, half for the lower back; easy and untold apart', async () => {
    openOn(clientWith([squats(0, 100), did(dayIn(3), SQUAT, [{ load: kg(60), reps: 5 }])]), 8);
    const part = await topic('Hard sets by area');
    expect(part.number()).toBe('at least 3 hard sets');
    expect(part.says()).toContain('1 more set could not be judged, reps left or load not noted');
    part.open();
    part.tap('As a table');
    expect(part.table()[0]?.slice(0, 3)).toEqual(['Area', 'Direct, at least', 'Indirect, at least']);
    const line = (name: string) => part.table().find(([first]) => first === name);
    expect(line('Quads')?.slice(0, 4)).toEqual(['Quads', '3', '0', '3']);
    expect(line('Lower back')?.slice(0, 4)).toEqual(['Lower back', '0', '3', '1.5']);
  });

  test('a week without any: what was is still there to look at, and nothing is called missing', async () => {
    openOn(clientWith([squats(0, 100), squats(1, 100)]), 30);
    const part = await topic('Tonnage');
    expect(part.number()).toBe('nothing of late');
    expect(part.says()).toContain(`Last noted: The week from ${told(dayIn(7))}: 1,500 kg.`);
    expect(screen.getByText(/^Not noted yet: /).textContent).not.toContain('tonnage');
    part.open();
    part.tap('As a table');
    expect(part.table().slice(1)).toHaveLength(2);
  });

  test('sets that cannot be counted stand in the table, though there is nothing to chart', async () => {
    openOn(clientWith([did(dayIn(1), SQUAT, times(3, { reps: 5 }))]), 8);
    const part = await topic('Tonnage');
    expect(part.number()).toBe('not known');
    part.open();
    expect(part.all()).toContain('Nothing of it can be charted');
    part.tap('As a table');
    expect(part.table()[1]?.slice(0, 2)).toEqual([told(dayIn(0)), 'not known']);
  });

  test('what is not noted has no empty box: one line names it', async () => {
    openOn(clientWith([squats(0, 100)], { masses: [mass(70, dayIn(0))] }), 8);
    await topic('Tonnage');
    expect(screen.getByText(/^Not noted yet: /).textContent).toMatch(
      /^Not noted yet: how they came in, left and right, landings, cues, carries, /,
    );
    expect(screen.queryByRole('heading', { name: /^Landings/ })).toBeNull();
  });

  test('pain that comes back is a heads-up that says when, and to refer or ask; what it comes from is not said', async () => {
    const hurt = (day: number, value?: number) =>
      did(dayIn(day), SQUAT, [{ load: kg(60), reps: 5, ...(value === undefined ? {} : { pain: { value } }) }]);
    openOn(clientWith([hurt(0, 3), hurt(3), hurt(7), hurt(10, 2)]), 11);
    const part = await topic('Pain');
    expect(part.number()).toBe('2 of 10');
    expect(part.says()).toContain(`Front squat: back on ${told(dayIn(10))}, after 2 sessions without a note of it`);
    expect(part.part.className).toContain('answer-look');
    part.open();
    expect(part.all()).toContain('a licensed practitioner is to be asked');
  });
});
