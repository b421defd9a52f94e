import { expect, test } from 'vitest';
import { says } from './said';
import {
  addBlock,
  cardOn,
  cellOn,
  type Floor,
  hold,
  logTo,
  more,
  nextSet,
  restLeft,
  tabsOn,
  toClient,
  touchUp,
} from './seventyHands';

/** Blocks in rounds and by the clock, and a pause. */
export function blocks(open: () => Floor): void {
  const inBlock = async (alias: string, letter: string) => {
    const [session] = (await open().phone.stored()).sessions(alias);
    const block = session?.blocks[letter.charCodeAt(0) - 65];
    return (session?.sets ?? []).filter((set) => set.in?.block === block?.id);
  };

  test('10:40 three stations in four rounds: a cell tapped is done as planned, and the state is said plainly', async () => {
    const { hands, phone, at } = open();
    const { page } = phone;
    await toClient(hands, 'Ondry');
    await addBlock(hands, {
      kind: 'rounds',
      fields: { Rounds: '4' },
      stations: [
        ['Goblet squat', { load: '20', reps: '8' }],
        ['One-arm row', { load: '16', reps: '10' }],
        ['Incline push-up', { reps: '12' }],
      ],
    });
    const card = cardOn(page, 'block A');
    await says(card, 'Block A · 4 rounds', 'Working: round 1, station 1 of 3', 'A1 Goblet squat 20 kg × 8');
    await says(card, 'A2 One-arm row 16 kg × 10 · left | right', 'A3 Incline push-up 12');
    await at('10:40');
    await hands.tapOn(cellOn(page, 'A1', 1));
    await says(card, 'Working: round 1, station 2 of 3');
    await says(tabsOn(page), 'Ondry station 2');
    expect(await restLeft(page).count()).toBe(0);
    expect(await inBlock('Ondry', 'A')).toMatchObject([
      { exercise: 'lib-goblet-squat', load: { value: 20, unit: 'kg' }, reps: 8, in: { round: 1 } },
    ]);
  });

  test('10:41 a cell held is changed in the pad; one station is logged; Log round fills only what is untouched', async () => {
    const { hands, phone, at } = open();
    const { page } = phone;
    const card = cardOn(page, 'block A');
    await hold(cellOn(page, 'A2', 1));
    await says(nextSet(hands), '16 kg × 10 left');
    await hands.say({ reps: '9' });
    await at('10:41');
    await hands.tap('Log A2 left', hands.pad());
    await page.getByRole('button', { name: /^A2 round 1: left done 9, not noted; right planned / }).waitFor();
    await at('10:42');
    await hands.tapOn(cellOn(page, 'A2', 1));
    await says(card, 'Working: round 1, station 3 of 3');
    await at('10:43');
    await hands.tap('Log Ondry · round 1', hands.pad());
    await says(card, 'Round 1 done, rest');
    await says(restLeft(page), '1:00');
    const first = await inBlock('Ondry', 'A');
    expect(first.map((set) => [set.exercise, set.side, set.reps])).toEqual([
      ['lib-goblet-squat', undefined, 8],
      ['lib-one-arm-row', 'left', 9],
      ['lib-one-arm-row', 'right', 10],
      ['lib-incline-push-up', undefined, 12],
    ]);
    // the rest is when what was seen is noted, here of the last station
    await hands.tap('slipping', touchUp(hands));
    await page.getByRole('button', { name: 'A3 round 1: done 12, slipping' }).waitFor();

    await hold(cellOn(page, 'A1', 2));
    await hands.say({ load: '22' });
    await at('10:45');
    await hands.tap('Log Ondry · round 2', hands.pad());
    await says(card, 'Round 2 done, rest');
    const second = (await inBlock('Ondry', 'A')).slice(first.length);
    expect(second.map((set) => [set.exercise, set.load?.value, set.side, set.reps, set.in?.round])).toEqual([
      ['lib-goblet-squat', 22, undefined, 8, 2],
      ['lib-one-arm-row', 16, 'left', 10, 2],
      ['lib-one-arm-row', 16, 'right', 10, 2],
      ['lib-incline-push-up', undefined, undefined, 12, 2],
    ]);
    expect((await inBlock('Ondry', 'A')).slice(0, first.length).map((set) => set.reps)).toEqual([8, 9, 10, 12]);
  });

  test('10:47 a station out of its turn, then the block as planned: what is done stays as it was done', async () => {
    const { hands, phone, at } = open();
    const { page } = phone;
    const card = cardOn(page, 'block A');
    await at('10:47');
    await hands.tap('A3', hands.pad().getByRole('group', { name: 'stations of round 3' }));
    await hands.say({ reps: '11' });
    await hands.tap('Log A3', hands.pad());
    await says(card, 'Working: round 3, station 1 of 3');
    await at('10:48');
    await hands.tap('Did it as planned', card);
    await says(card, 'Done');
    const all = await inBlock('Ondry', 'A');
    expect(all).toHaveLength(16);
    expect(all.filter((set) => set.exercise === 'lib-incline-push-up').map((set) => [set.in?.round, set.reps])).toEqual(
      [
        [1, 12],
        [2, 12],
        [3, 11],
        [4, 12],
      ],
    );
    // nobody saw the effort of any of them
    expect(all.some((set) => set.effort !== undefined)).toBe(false);
    await hands.tap('Undo round · Ondry');
    await says(card, 'Working: round 3, station 1 of 3');
    expect(await inBlock('Ondry', 'A')).toHaveLength(9);
    await at('10:49');
    await hands.tap('Did it as planned', card);
    await says(card, 'Done');
    expect(await inBlock('Ondry', 'A')).toHaveLength(16);
  });

  test('10:50 work and rest by a clock that goes on while the app is killed', async () => {
    const floor = open();
    const { phone, at } = floor;
    await addBlock(floor.hands, {
      kind: 'work and rest by the clock',
      fields: { Rounds: '2', 'Work, seconds': '30', 'Rest between, seconds': '15' },
      stations: [
        ['Side plank', {}],
        ['Calf raise', { reps: '20' }],
      ],
    });
    const clock = () => phone.page.getByRole('region', { name: 'block clock' });
    await hold(cellOn(phone.page, 'B1', 1));
    await says(clock(), '2:45 in all');
    await at('10:50');
    await floor.hands.tap('Start the clock', clock());
    await at('10:50:10');
    await says(clock(), '0:20 work · station 1 · round 1');
    await says(tabsOn(phone.page), 'Ondry work 0:20');

    await floor.kill();
    await at('10:50:40');
    await floor.hands.tap('Resume Ondry');
    await says(clock(), '0:05 rest · station 1 · round 1');
    await at('10:51:00');
    await says(clock(), '0:15 work · station 2 · round 1');
    await at('10:52:10');
    await says(clock(), '0:05 rest · station 1 · round 2');
    await at('10:52:45');
    await says(clock(), 'time is up after 2:45');
    await at('10:53');
    await floor.hands.tap('Log Ondry · round 1', floor.hands.pad());
    await at('10:53:30');
    await floor.hands.tap('Log Ondry · round 2', floor.hands.pad());
    await says(cardOn(phone.page, 'block B'), 'Block B · 2 rounds, 30 s work, 15 s rest', 'Done');
    const done = await inBlock('Ondry', 'B');
    expect(done.map((set) => [set.exercise, set.side, set.seconds, set.reps, set.in?.round])).toEqual([
      ['lib-side-plank', 'left', 30, undefined, 1],
      ['lib-side-plank', 'right', 30, undefined, 1],
      ['lib-calf-raise', undefined, undefined, 20, 1],
      ['lib-side-plank', 'left', 30, undefined, 2],
      ['lib-side-plank', 'right', 30, undefined, 2],
      ['lib-calf-raise', undefined, undefined, 20, 2],
    ]);
  });

  test('10:54 as many rounds as possible: whole rounds, and the reps of the one begun', async () => {
    const { hands, phone, at } = open();
    const { page } = phone;
    await toClient(hands, 'K');
    await addBlock(hands, {
      kind: 'as many rounds as possible',
      fields: { 'Time in all, seconds': '120' },
      stations: [
        ['Incline push-up', { reps: '10' }],
        ['Calf raise', { reps: '15' }],
      ],
    });
    const card = cardOn(page, 'block A');
    const clock = page.getByRole('region', { name: 'block clock' });
    await hold(cellOn(page, 'A1', 1));
    await at('10:54');
    await hands.tap('Start the clock', clock);
    await at('10:54:40');
    await hands.tap('Log K · round 1', hands.pad());
    await says(clock, '1:20');
    await says(card, 'Round 1 done; round 2 next');
    expect(await restLeft(page).count()).toBe(0);
    await at('10:55:20');
    await hands.tap('Log K · round 2', hands.pad());
    await at('10:55:50');
    await hands.tap('Log A1', hands.pad());
    await at('10:55:55');
    await says(clock, '0:05');
    await hands.tap('Stop the clock', clock);
    await says(card, 'Block A · as many rounds as possible in 2:00', 'Done: 2 rounds and 10 reps');
    expect((await inBlock('Client K', 'A')).map((set) => [set.in?.round, set.reps])).toEqual([
      [1, 10],
      [1, 15],
      [2, 10],
      [2, 15],
      [3, 10],
    ]);
  });

  test('10:56 reps that fall by round, and a round every minute', async () => {
    const { hands, phone, at } = open();
    const { page } = phone;
    await toClient(hands, 'Vale');
    await addBlock(hands, {
      kind: 'reps by round',
      fields: { 'Reps of each round, such as 21-15-9': '12-9-6' },
      stations: [['Bodyweight squat to box', {}]],
    });
    const list = cardOn(page, 'block B');
    await says(list, 'Block B · 12-9-6');
    await at('10:56');
    await hands.tap('Did it as planned', list);
    await says(list, 'Done');
    expect((await inBlock('Vale', 'B')).map((set) => set.reps)).toEqual([12, 9, 6]);

    await addBlock(hands, {
      kind: 'a round every minute',
      fields: { Rounds: '3', 'One round every … seconds': '60' },
      stations: [['Straight punch', { tries: '8' }]],
    });
    const every = cardOn(page, 'block C');
    await says(every, 'Block C · 3 rounds, one every 1:00');
    await hold(cellOn(page, 'C1', 1));
    await at('10:57');
    await hands.tap('Start the clock');
    await says(page.getByRole('region', { name: 'block clock' }), '1:00 work · round 1');
    await at('10:58:15');
    await says(page.getByRole('region', { name: 'block clock' }), '0:45 work · round 2');
    await hands.tap('Log Vale · round 1', hands.pad());
    // the rest is what the minute leaves: no other clock runs beside it
    await says(every, 'Round 1 done; round 2 next');
    expect(await restLeft(page).count()).toBe(0);
    expect((await inBlock('Vale', 'C')).map((set) => [set.side, set.tries, set.in?.round])).toEqual([
      ['left', 8, 1],
      ['right', 8, 1],
    ]);
    await hands.tap('Stop the clock');
  });

  test('10:59 a pause is no training: it is said, outlives a kill, and its minutes do not count', async () => {
    const floor = open();
    const { phone, at } = floor;
    await at('10:59');
    await more(floor.hands, 'Pause the session');
    await says(floor.hands.pad(), 'Paused since 10:59. What is paused is not training.');
    await says(tabsOn(phone.page), 'Vale paused');
    expect(await floor.hands.pad().getByRole('button', { name: /^Log / }).count()).toBe(0);
    await floor.kill();
    await at('11:04');
    await floor.hands.tap('Resume Vale');
    await says(floor.hands.pad(), 'Paused since 10:59.');
    await floor.hands.tap('Go on with the session');
    await says(phone.page.getByRole('main'), 'Vale', '58 min');
    await floor.hands.choose('Goblet squat');
    await floor.hands.say({ load: '16', reps: '8' });
    await at('11:05');
    await says(await logTo(floor.hands, 'Goblet squat'), '16 kg × 8');
    const [session] = (await phone.stored()).sessions('Vale');
    const time = (text: string) => Date.parse(`2026-11-24T${text}+01:00`);
    expect(session?.pauses.map(({ from, to }) => [from, to])).toEqual([[time('10:59'), time('11:04')]]);
  });
}
