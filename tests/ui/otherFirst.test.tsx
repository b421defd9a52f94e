import { act, cleanup, screen, waitFor } from '@testing-library/preact';
import { afterEach, describe, expect, test } from 'vitest';
import { clientWith, did, mass } from '../analysis/foundIn';
import { dayIn, kg, times } from '../reference/records';
import { answersFor, openAnswers, openOn, SQUAT, squats, told, topic } from './answersApp';

afterEach(cleanup);

/* What stands above in each topic, and which picture and point open with it. Day 0 is Monday 5 January 2026; week n begins on day 7n. */

const BENCH = 'lib-bench-press';
const CARD = () => screen.getByRole('region', { name: 'other answers' }).textContent ?? '';

describe('the headline', () => {
  test('tonnage: the total stands above one exercise that is far above its own usual weeks, and opens with its week', async () => {
    // 1,000 kg a set: 20, 24, 18, 22 and 20 sets, and squats of 1,500 kg a week, then 3,000
    const benches = [20, 24, 18, 22, 20].map((count, week) =>
      did(dayIn(7 * week + 3), BENCH, times(count, { load: kg(100), reps: 10 })),
    );
    const running = did(dayIn(35), BENCH, [{ load: kg(100), reps: 10 }]);
    openOn(clientWith([...[0, 1, 2, 3].map((n) => squats(n, 100)), squats(4, 200), ...benches, running]), 36);
    const part = await topic('Tonnage');
    expect(part.number()).toBe('23,000 kg in total');
    expect(part.says()).toContain(
      `The week from ${told(dayIn(28))}, over 2 exercises that cannot be compared with each other: as usual`,
    );
    expect(part.says()).toContain('23 of 23 sets counted (100 %)');
    part.open();
    expect(part.said()).toContain(`The week from ${told(dayIn(28))}: 23,000 kg`);
    expect(part.all()).toContain(`3,000 kg Front squat, the week from ${told(dayIn(28))}: above the usual 1,500 kg`);
    part.keys('ArrowRight');
    expect(part.said()).toContain(`This week so far, from ${told(dayIn(35))}: 1,000 kg`);
  });

  test('sides: an exercise with numbers stands above one that has too few, and opens', async () => {
    const row = (day: number) =>
      did(dayIn(day), 'lib-one-arm-row', [
        { side: 'left', load: kg(20), reps: 8 },
        { side: 'right', load: kg(20), reps: 8 },
      ]);
    const plank = (day: number) =>
      did(dayIn(day), 'lib-side-plank', [
        ...times(2, { side: 'left' as const, seconds: 24 }),
        ...times(2, { side: 'right' as const, seconds: 30 }),
      ]);
    openOn(clientWith([row(0), plank(1), row(2), plank(3)]), 4);
    const part = await topic('Left and right');
    expect(part.number()).toBe('left 24 s, right 30 s');
    part.open();
    expect(part.said()).toContain(`${told(dayIn(3))}: left 24 s, right 30 s`);
  });

  test('learning: the share above stands under the chart that opens', async () => {
    const hops = [2, 4, 6, 5, 4].map((good, n) =>
      did(dayIn(2 * n), 'lib-hop-and-hold', [
        { side: 'left', landings: 10, good },
        { side: 'right', landings: 10, good: 9 },
      ]),
    );
    openOn(clientWith(hops), 9);
    const part = await topic('Learning of the weaker side');
    // 6, 5 and 4 of 10
    expect(part.number()).toBe('50 % good');
    expect(part.says()).toContain('50 % good in its last three sessions, the other 90 %');
    part.open();
    expect(part.said()).toBe(
      'The last three up to judged session 5 of each side: left 50 % good, right 90 % goodsession 5 alone: left 40 % good, right 90 % good',
    );
  });

  test('hard sets: the area with the most opens', async () => {
    openOn(clientWith([squats(0, 100), did(dayIn(3), 'lib-romanian-deadlift', hard(4))]), 8);
    const part = await topic('Hard sets by area');
    expect(part.says()).toContain('most for glutes 7');
    part.open();
    expect(part.said()).toContain('Glutes: 7');
  });
});

const hard = (count: number) => times(count, { load: kg(80), reps: 8, effort: { value: 1, as: 'left' as const } });

describe('the week that runs', () => {
  test('right after the first session it is told as so far, and nothing is said to be of late', async () => {
    const sets = [...hard(3), ...times(2, { load: kg(80), reps: 8 })];
    const session = did(dayIn(8), SQUAT, sets, { minutes: 60, effort: { value: 5, as: 'session' } });
    openOn(clientWith([session]), 9);
    const from = told(dayIn(7));
    const tonnage = await topic('Tonnage');
    // 5 × 8 × 80
    expect(tonnage.says()).toBe(`3,200 kg This week so far, from ${from}, Front squat.`);
    expect((await topic('Hard sets by area')).says()).toBe(`at least 3 hard sets This week so far, from ${from}.`);
    expect((await topic('Whole-session load')).says()).toBe(`300 This week so far, from ${from}, effort × minutes.`);
    expect(CARD()).not.toContain('nothing of late');
  });

  test('of several exercises it is the total; what nobody told of is not known, and never at least 0', async () => {
    const none = did(dayIn(8), BENCH, times(2, { load: kg(50), reps: 10 }), { minutes: 60 });
    openOn(clientWith([none, did(dayIn(9), SQUAT, times(2, { load: kg(100), reps: 5 }))]), 9);
    expect((await topic('Tonnage')).says()).toBe(`2,000 kg This week so far, from ${told(dayIn(7))}, in total.`);
    expect((await topic('Hard sets by area')).number()).toBe('not known');
    expect(CARD()).not.toContain('at least 0');
  });

  test('on its Sunday it still runs, on the Monday after it is over', async () => {
    openOn(clientWith([squats(0, 100)]), 6);
    expect((await topic('Tonnage')).says()).toContain('This week so far');
    cleanup();
    openOn(clientWith([squats(0, 100)]), 7);
    expect((await topic('Tonnage')).says()).toContain(`The week from ${told(dayIn(0))}, all of one exercise`);
  });
});

describe('cues', () => {
  const cued = (day: number, cue: string, answer: 'better' | 'same', count: number) =>
    did(
      dayIn(day),
      SQUAT,
      Array.from({ length: count }, (_, n) => ({
        load: kg(60),
        reps: 5,
        cues: [{ id: `${cue}-${n}`, cue, answer }],
      })),
    );

  test('one that helps and one that does not both stand in the first view', async () => {
    openOn(clientWith([cued(0, 'lib-cue-roots', 'better', 20), cued(2, 'lib-cue-saloon-doors', 'same', 20)]), 3);
    const part = await topic('Cues');
    const lines = [...part.part.querySelectorAll(':scope > p')].map((one) => one.textContent ?? '');
    expect(lines).toHaveLength(2);
    expect(lines[0]).toContain('0 of 20 better “knees open two swing doors” seldom makes the next reps better');
    expect(lines[1]).toContain('Going well: 20 of 20 better “roots under the heels” mostly makes the next reps better');
    part.open();
    expect(part.said()).toContain('knees open two swing doors');
    expect(part.all()).toContain('0 of 20 better: About 9 in 10 that it is so in fewer than half of its uses.');
    expect(part.all()).toContain('20 of 20 better: About 9 in 10 that it is so in more than half of its uses.');
    // neither is told twice
    expect(part.part.querySelectorAll('.other-more > .answer')).toHaveLength(0);
  });

  test('one alone cannot be compared, and it says so', async () => {
    const half = (day: number, answer: 'better' | 'same') => cued(day, 'lib-cue-roots', answer, 5);
    openOn(clientWith([half(0, 'better'), half(2, 'same')]), 3);
    const part = await topic('Cues');
    expect(part.number()).toBe('5 of 10 better');
    expect(part.says()).toContain(
      '“roots under the heels” is the only cue that was answered: one alone cannot be compared.',
    );
  });
});

describe('behind how sure', () => {
  test('how much of the body is counted: 70 kg at 95.8 % are 67.08 kg a pull-up', async () => {
    openOn(clientWith([did(dayIn(1), 'lib-pull-up', times(2, { reps: 5 }))], { masses: [mass(70, dayIn(0))] }), 8);
    const part = await topic('Tonnage');
    expect(part.number()).toBe('671 kg');
    part.open();
    expect(part.all()).toContain('The own body is counted by a published share of its mass: Pull-up 95.8 %.');
    part.tap('As a table');
    expect(part.table()[0]?.at(-1)).toBe('Own body counted as');
    expect(part.table()[1]?.at(-1)).toBe('95.8 %');
  });

  test('the window says what it does, and how they came in goes back as far as it does', async () => {
    const came = Array.from({ length: 70 }, (_, n) =>
      did(dayIn(n), SQUAT, [], {
        arrival: { items: { sleep: 3 + (n % 2), energy: 4, body: 4, calm: 4, mood: 4 }, usual: false, sore: [] },
      }),
    );
    openOn(clientWith(came), 69);
    const part = await topic('How they came in');
    expect(screen.getByText('Charts and tables go back')).toBeTruthy();
    part.open();
    part.tap('As a table');
    expect(part.table()).toHaveLength(71);
    act(() => screen.getByRole('button', { name: '4 weeks' }).click());
    expect(part.table()).toHaveLength(29);
  });
});

describe('asked anew', () => {
  const answers = () => Promise.resolve(answersFor(clientWith([squats(0, 100)]), dayIn(8)));

  test('a target and an own exercise change what is told; of a template nothing is asked', async () => {
    let asked = 0;
    const { changed } = openAnswers(() => {
      asked += 1;
      return answers();
    }, dayIn(8));
    await topic('Tonnage');
    expect(asked).toBe(1);
    for (const [n, kind] of ['kind:role', 'kind:exercise', 'kind:result'].entries()) {
      act(() => changed(kind));
      await waitFor(() => expect(asked).toBe(2 + n), { timeout: 2000 });
    }
    act(() => changed('kind:template'));
    await new Promise((resolve) => setTimeout(resolve, 600));
    expect(asked).toBe(4);
  });

  test('left open past midnight it is of the new day', async () => {
    const days: string[] = [];
    const page = openAnswers((_stream, day) => {
      days.push(day);
      return answers();
    }, dayIn(8));
    await topic('Tonnage');
    page.goTo(dayIn(9));
    await waitFor(() => expect(days).toEqual([dayIn(8), dayIn(9)]), { timeout: 2000 });
  });
});
