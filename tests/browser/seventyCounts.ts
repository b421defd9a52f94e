import type { Locator } from 'playwright-core';
import { expect, test } from 'vitest';
import { says, saysNot } from './said';
import { cardOn, type Floor, held, linesOf, logTo, more, nextSet, toClient, touchUp } from './seventyHands';

type Place = { readonly x: number; readonly y: number };

/** Returns where the middle of each direction lies, seen from the leg that lands. */
async function fromLeg(compass: Locator): Promise<Readonly<Record<string, Place>>> {
  const middle = async (target: Locator): Promise<Place> => {
    const box = await target.boundingBox();
    if (!box) throw new Error('not on the screen');
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const leg = await middle(compass.getByText(/^(left|right)$/));
  const places: Record<string, Place> = {};
  for (const name of ['ahead', 'diagonal out', 'out', 'back-out', 'across']) {
    const { x, y } = await middle(compass.getByRole('button', { name, exact: true }));
    places[name] = { x: Math.round(x - leg.x), y: Math.round(y - leg.y) };
  }
  return places;
}

/** What hangs at a place, and every set that is counted in other things than kilograms. */
export function placesAndCounts(open: () => Floor): void {
  test('10:22 a place brings its bands and its highest pin', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'Vale');
    await more(hands, 'Place, with its bands and pins');
    await hands.tap('Add a place');
    await hands.type('Name of the place', 'The basement');
    await hands.type('Bands, from light to heavy, with commas between', 'thin, grey, wide, double wide');
    await hands.type('Highest pin of the stack', '12');
    await hands.tap('Keep the place');
    await hands.tap('Choose an exercise');
    await hands.tap('Band pull-apart', hands.sheet());
    const bands = hands.pad().getByRole('group', { name: 'band', exact: true });
    await says(bands, 'thin grey wide double wide');
    await hands.tap('grey', bands);
    await hands.say({ reps: '15' });
    await at('10:22');
    await says(await logTo(hands, 'Band pull-apart', 'Log Vale · set 1'), '1 grey band × 15');

    await hands.choose('Kneeling cable pull');
    await hands.say({ pin: '11', reps: '8' });
    await hands.tapOn(nextSet(hands).getByRole('button', { name: 'pin: pin 11' }));
    const more1 = hands.pad().getByRole('button', { name: 'more pin' });
    await hands.tapOn(more1);
    await hands.tapOn(more1);
    // the stack ends at 12
    await says(nextSet(hands), 'pin 12 × 8 left');
    await expect.poll(() => hands.pad().getByRole('button', { name: '13', exact: true }).count()).toBe(0);
    await at('10:23');
    await says(await logTo(hands, 'Kneeling cable pull', 'Log Vale · left, set 1'), '1 pin 12 × 8 left');
    await at('10:24');
    await says(await logTo(hands, 'Kneeling cable pull', 'Log Vale · right, set 1'), '1 pin 12 × 8 right');

    const stored = await phone.stored();
    expect(stored.ofKind('kit')).toMatchObject([
      { name: 'The basement', bands: ['thin', 'grey', 'wide', 'double wide'], pins: 12 },
    ]);
    const [kit] = stored.rows.filter((row) => row.kind === 'kit');
    expect(stored.sessions('Vale')[0]?.place).toBe(kit?.id);
    const sets = stored.sets('Vale');
    expect(sets).toMatchObject([
      { band: 'grey', reps: 15 },
      { pin: '12', reps: 8, side: 'left' },
      { pin: '12', reps: 8, side: 'right' },
    ]);
    expect(sets.every((set) => set.load === undefined && set.added === undefined)).toBe(true);
  });

  test('10:25 time without and with a load, and a carry: load in each hand, distance, time', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'Ondry');
    await hands.choose('Dead hang');
    await hands.say({ time: '42,5' });
    await at('10:25');
    await says(await logTo(hands, 'Dead hang'), '1 42.5 s');
    await hands.say({ load: '5', time: '30' });
    await at('10:26');
    await says(await logTo(hands, 'Dead hang'), '2 30 s with 5 kg');
    await hands.choose('Farmer carry');
    await hands.tap(/^Log Ondry · /, hands.pad());
    await says(hands.pad(), 'load must say something');
    await hands.say({ load: '24', distance: '40', time: '35' });
    await says(nextSet(hands), '2 × 24 kg × 40 m in 35 s');
    await at('10:27');
    await says(await logTo(hands, 'Farmer carry'), '2 × 24 kg × 40 m in 35 s');
    expect((await phone.stored()).sets('Ondry').slice(4)).toMatchObject([
      { exercise: 'lib-dead-hang', seconds: 42.5 },
      { exercise: 'lib-dead-hang', seconds: 30, load: { value: 5, unit: 'kg' } },
      {
        exercise: 'lib-farmer-carry',
        load: { value: 24, unit: 'kg' },
        distance: { value: 40, unit: 'm' },
        seconds: 35,
      },
    ]);
  });

  test('10:28 landings: five directions around the leg that lands, and the left mirrors the right', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'Vale');
    await hands.choose('Hop and hold');
    await hands.say({ landings: '4' });
    await hands.tap('direction?', nextSet(hands));
    const left = await fromLeg(hands.pad().getByRole('group', { name: 'direction of the left leg' }));
    await hands.tap('left', nextSet(hands));
    await hands.tap('right', hands.pad().getByRole('group', { name: 'side' }));
    await hands.tap('direction?', nextSet(hands));
    const right = await fromLeg(hands.pad().getByRole('group', { name: 'direction of the right leg' }));
    const side = ({ x, y }: Place = { x: 0, y: 0 }) => [Math.sign(x), Math.sign(y)];
    // of the right leg, out is to the right, and up on the screen is ahead
    expect(Object.fromEntries(Object.entries(right).map(([name, place]) => [name, side(place)]))).toEqual({
      ahead: [0, -1],
      'diagonal out': [1, -1],
      out: [1, 0],
      'back-out': [1, 1],
      across: [-1, 0],
    });
    for (const [name, { x, y }] of Object.entries(right)) {
      expect(Math.abs((left[name]?.x ?? Number.NaN) + x), `${name} mirrored`).toBeLessThanOrEqual(1);
      expect(left[name]?.y, `${name} as far ahead`).toBe(y);
    }
    await hands.tap('right', nextSet(hands));
    await hands.tap('left', hands.pad().getByRole('group', { name: 'side' }));
    await hands.tap('direction?', nextSet(hands));
    await hands.tap('back-out', hands.pad());
    await at('10:28');
    await says(await logTo(hands, 'Hop and hold', 'Log Vale · left, set 1'), '4 landings back-out left');
    await says(cardOn(phone.page, 'Hop and hold'), '4 landings here · 4 today, range 80–100');
  });

  test('10:29 a dot for each landing: good, not good with what was missing, and one that nobody judged', async () => {
    const { hands, phone, at } = open();
    // the other side comes by itself with the same numbers, and is judged as it is done
    await says(nextSet(hands), '4 landings back-out right');
    await at('10:29');
    const line = await logTo(hands, 'Hop and hold', 'Log Vale · right, set 1');
    const dots = touchUp(hands).getByRole('group', { name: 'good landings' });
    await hands.tap('landing 1: not noted', dots);
    await hands.tap('landing 2: not noted', dots);
    await hands.tap('landing 3: not noted', dots);
    await hands.tap('landing 3: good', dots);
    await hands.tap('not knee over foot', touchUp(hands));
    await hands.tap('not held', touchUp(hands));
    await says(line, '2 of 3 good, 1 not noted (not knee over foot 1, not held 1)');
    await says(cardOn(phone.page, 'Hop and hold'), '8 landings here · 8 today, range 80–100');
    const [left, right] = held((await phone.stored()).sets('Vale'), 'lib-hop-and-hold');
    expect(left).toMatchObject({ landings: 4, direction: 'back-out', side: 'left', marks: [] });
    expect(right).toMatchObject({ landings: 4, direction: 'back-out', side: 'right' });
    expect(right?.marks).toEqual([
      { n: 1, good: true },
      { n: 2, good: true },
      { n: 3, good: false, knee: false, held: false },
    ]);
  });

  test('10:30 tries: how many were good and how smooth; degrees of range, each side', async () => {
    const { hands, phone, at } = open();
    await hands.choose('Rotational ball throw');
    await hands.say({ tries: '6' });
    await at('10:30');
    const left = await logTo(hands, 'Rotational ball throw', 'Log Vale · left, set 1');
    await says(left, '6 tries left not noted');
    await says(nextSet(hands), '6 tries good? smooth? right');
    await hands.say({ 'good ones': '7' });
    await hands.tap(/^Log Vale · right/, hands.pad());
    await says(hands.pad(), 'good ones can be at most 6: so many were done');
    await hands.say({ 'good ones': '5' });
    await hands.tap('smooth?', nextSet(hands));
    await hands.tap('4', hands.pad().getByRole('group', { name: 'smoothness, 1 rough to 5 smooth' }));
    await at('10:31');
    const right = await logTo(hands, 'Rotational ball throw', 'Log Vale · right, set 1');
    await says(right, '6 tries right 5 of 6 good · smooth 4 of 5');
    await hands.tap('4 good', touchUp(hands));
    await hands.tap(/^smooth(ness)? 3/, touchUp(hands));
    await says(right, '4 of 6 good · smooth 3 of 5');

    await hands.choose('Ankle bend, knee to wall');
    await hands.say({ degrees: '38,5' });
    await at('10:32');
    await says(await logTo(hands, 'Ankle bend, knee to wall', 'Log Vale · left, set 1'), '38.5° left');
    await hands.say({ degrees: '41' });
    await at('10:33');
    await says(await logTo(hands, 'Ankle bend, knee to wall', 'Log Vale · right, set 1'), '41° right');
    const sets = (await phone.stored()).sets('Vale').slice(5);
    expect(sets).toMatchObject([
      { tries: 6, side: 'left' },
      { tries: 6, side: 'right', good: 4, smooth: 3 },
      { degrees: 38.5, side: 'left' },
      { degrees: 41, side: 'right' },
    ]);
    expect(sets[0]).not.toHaveProperty('good');
    expect(sets[0]).not.toHaveProperty('smooth');
  });

  test('10:34 a count spread over the session grows while another exercise is in hand', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'K');
    await hands.choose('Push-up');
    await more(hands, 'Spread over the session: Push-up');
    await hands.type('How many in all', '30');
    await hands.tap('Keep the count');
    await says(hands.pad(), 'Push-up 0 of 30');
    await hands.tapOn(cardOn(phone.page, 'Front squat').getByRole('button', { name: 'Front squat', exact: true }));
    await hands.say({ load: '50', reps: '5' });
    await at('10:34');
    await hands.tap('10 more of Push-up');
    await at('10:35');
    await hands.tap('5 more of Push-up');
    await says(hands.pad(), 'Push-up 15 of 30');
    // what was in hand still is, as it was typed
    await says(nextSet(hands), '50 kg × 5');
    await says(cardOn(phone.page, 'Push-up'), '15 of 30, spread over the session');
    await at('10:36');
    await hands.kind('working');
    await says(await logTo(hands, 'Front squat'), '50 kg × 5');
    await at('10:37');
    await hands.tap('15 more of Push-up');
    await says(hands.pad(), 'Push-up 30 of 30');
    const stored = await phone.stored();
    const sets = held(stored.sets('Client K'), 'lib-push-up');
    expect(sets.map((set) => [set.reps, set.tally, set.noRest])).toEqual([
      [10, true, true],
      [5, true, true],
      [15, true, true],
    ]);
    expect(stored.sessions('Client K')[0]?.items.find((item) => item.id === 'lib-push-up')?.tally).toBe(30);
  });

  test('10:38 mobility is one tick: as a set that counts nothing, and as a whole block', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'Vale');
    await hands.choose('Hip mobility');
    await at('10:38');
    await says(await logTo(hands, 'Hip mobility', 'Log Vale · done'), 'done');
    await more(hands, 'Add a block: rounds, list, clock');
    await hands.tap('mobility, one tick', hands.sheet());
    for (const station of ['Hip mobility', 'Shoulder reach overhead']) {
      await hands.type('Find a station', station);
      await hands.tap(`+ ${station}`, hands.sheet());
    }
    await hands.tap('Add the block');
    await hands.tap('Close', hands.sheet());
    const block = cardOn(phone.page, 'block A');
    await says(block, 'Block A · mobility', 'Not ticked yet', 'Hip mobility · Shoulder reach overhead');
    await at('10:39');
    await hands.tap('Tick: mobility done', block);
    await says(block, 'Done');
    await saysNot(block, 'Not ticked yet');
    const [session] = (await phone.stored()).sessions('Vale');
    expect(session?.blocks).toMatchObject([{ kind: 'mobility', done: { day: '2026-11-24' } }]);
    // a tick is no set: nothing was made up
    expect(session?.sets.filter((set) => set.in !== undefined)).toEqual([]);
    expect(await linesOf(phone.page, 'Hip mobility').count()).toBe(1);
  });
}
