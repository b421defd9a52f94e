import { expect, test } from 'vitest';
import { says, saysNot } from './said';
import { cardOn, type Floor, held, linesOf, logTo, nextSet, recordOn, toClient } from './seventyHands';

/** Opens what is known of a line's set and notes pain there. */
async function pain({ hands }: Floor, exercise: string, n: number, value: number, more?: string): Promise<void> {
  await hands.tapOn(linesOf(hands.page, exercise).nth(n).getByRole('button'));
  await hands.tap(`pain ${value}`, hands.sheet());
  if (more !== undefined) await hands.tap(more, hands.sheet());
  await hands.tap('Close', hands.sheet());
}

/** Pain in its three levels, a stop sign, a wrong client, and the same again for all. */
export function care(open: () => Floor): void {
  test('11:05 pain of 2 is noted, and nothing changes', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await toClient(hands, 'K');
    await hands.choose('Back squat');
    await hands.say({ load: '80', reps: '5' });
    await at('11:05:20');
    const line = await logTo(hands, 'Back squat');
    await pain(floor, 'Back squat', 0, 2);
    await says(line, 'pain 2');
    expect(await hands.pad().getByRole('alert').count()).toBe(0);
    await says(nextSet(hands), '80 kg × 5 working');
    const [set] = held((await phone.stored()).sets('Client K'), 'lib-back-squat');
    expect(set).toMatchObject({ pain: { value: 2 }, load: { value: 80 } });
    expect(set).not.toHaveProperty('ended');
  });

  test('11:06 pain that rises offers an easier step, and closes nothing', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await at('11:06');
    await logTo(hands, 'Back squat');
    await pain(floor, 'Back squat', 1, 3, 'rising in the set');
    await says(linesOf(phone.page, 'Back squat').nth(1), 'pain 3, rising');
    await says(hands.pad(), 'Pain 3 of 10, rising in the set: an easier step would do.');
    await hands
      .pad()
      .getByRole('button', { name: /^Log K · set 3/ })
      .waitFor();
    await hands.tap('Easier: Goblet squat', hands.pad());
    await says(hands.sheet(), 'Change today', 'Back squat', 'Easier step: Goblet squat');
    await hands.tap('Close', hands.sheet());
    expect(held((await phone.stored()).sets('Client K'), 'lib-back-squat')[1]?.pain).toEqual({
      value: 3,
      rising: true,
    });
  });

  test('11:06 pain of 5 closes the exercise for the session; the easier step takes its place', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await hands.say({ load: '70' });
    await at('11:06:30');
    await logTo(hands, 'Back squat');
    await hands.tapOn(linesOf(phone.page, 'Back squat').nth(2).getByRole('button'));
    await hands.tap('pain 5', hands.sheet());
    await says(hands.sheet(), 'Pain of 4 or more, or a stop sign: close this exercise for today and refer.');
    await hands.type('Note', 'left knee, inside');
    await hands.tap('Keep note', hands.sheet());
    await hands.tap('Close', hands.sheet());
    await says(hands.pad(), 'Back squat. Closed for this session: pain 5 of 10. Stop and refer');
    expect(await hands.pad().getByRole('button', { name: /^Log / }).count()).toBe(0);
    await hands.pad().getByRole('button', { name: 'Note a clearance' }).waitFor();

    await hands.tap('+ exercise');
    await says(hands.sheet(), '13 exercises closed by a restriction or by pain.');
    expect(await hands.sheet().getByRole('button', { name: 'Back squat', exact: true }).count()).toBe(0);
    await hands.tap('Close', hands.sheet());
    await hands.tap('Swap or skip it', hands.pad());
    await hands.tap('pain', hands.sheet().getByRole('group', { name: 'why' }));
    await hands.tap('Easier step: Goblet squat', hands.sheet());
    await says(cardOn(phone.page, 'Back squat'), 'Swapped for Goblet squat.');
    await hands.say({ load: '16', reps: '8' });
    await at('11:06:50');
    await says(await logTo(hands, 'Goblet squat', /^Log K · set 1/), '16 kg × 8');
    const stored = await phone.stored();
    const [session] = stored.sessions('Client K');
    expect(session?.items.find((item) => item.id === 'lib-back-squat')?.swappedFor).toMatchObject({
      exercise: 'lib-goblet-squat',
      why: 'pain',
    });
    expect(held(stored.sets('Client K'), 'lib-back-squat')).toHaveLength(3);
  });

  test('11:07 a stop sign closes what is in hand; a clearance by name opens it again', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'Ondry');
    await hands.choose('Deadlift');
    await hands.say({ load: '100', reps: '3' });
    await at('11:07');
    await logTo(hands, 'Deadlift');
    await hands.tap('Stop signs');
    await says(hands.sheet(), 'At any of these: stop.', 'Deadlift is then closed for this session.');
    await hands.tap('heart racing or skipping', hands.sheet());
    await says(hands.pad(), 'Deadlift. Closed for this session: heart racing or skipping.');
    expect(await hands.pad().getByRole('button', { name: /^Log / }).count()).toBe(0);
    await hands.tap('Note a clearance', hands.pad());
    await hands.tap('Note the clearance', hands.sheet());
    await says(hands.sheet(), 'who cleared it must say something');
    await hands.type('Who cleared it', 'Dr R, on site');
    await at('11:07:20');
    await hands.tap('Note the clearance', hands.sheet());
    await hands
      .pad()
      .getByRole('button', { name: /^Log Ondry · set 2/ })
      .waitFor();
    const stored = await phone.stored();
    expect(stored.sessions('Ondry')[0]?.signs).toMatchObject([{ sign: 'palpitations', exercise: 'lib-deadlift' }]);
    const ondry = stored.ofKind('client').find((client) => client['alias'] === 'Ondry');
    expect(ondry?.['clearances/lib-deadlift']).toMatchObject({ who: 'Dr R, on site', day: '2026-11-24' });
  });

  test('11:07 a set logged for the wrong client moves, with its time', async () => {
    const { hands, phone } = open();
    const before = await phone.stored();
    const wrong = held(before.sets('Client K'), 'lib-goblet-squat')[0];
    await toClient(hands, 'K');
    await hands.tapOn(linesOf(phone.page, 'Goblet squat').nth(0).getByRole('button'));
    await hands.tap('move to Vale', hands.sheet());
    await expect.poll(() => linesOf(phone.page, 'Goblet squat').count()).toBe(0);
    await toClient(hands, 'Vale');
    await says(linesOf(phone.page, 'Goblet squat').nth(1), '16 kg × 8');
    const after = await phone.stored();
    const moved = held(after.sets('Vale'), 'lib-goblet-squat')[1];
    expect(moved).toEqual({ ...wrong, id: moved?.id });
    expect(moved?.at?.at).toBe(Date.parse('2026-11-24T11:06:50+01:00'));
    expect(held(after.sets('Client K'), 'lib-goblet-squat')).toEqual([]);
  });

  test('11:08 the same again for all three at one tap, each as their own pad has it', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'K');
    // with its only set gone, the easier step is taken in hand again
    await hands.choose('Goblet squat');
    await hands.say({ load: '12', reps: '10' });
    await at('11:07:40');
    await logTo(hands, 'Goblet squat');
    const before = await phone.stored();
    await at('11:08');
    const lines = await linesOf(phone.page, 'Goblet squat').count();
    await hands.tap(/same again/i, hands.pad());
    await linesOf(phone.page, 'Goblet squat').nth(lines).waitFor();
    const after = await phone.stored();
    const added = ['Client K', 'Vale', 'Ondry'].map((alias) => after.sets(alias).slice(before.sets(alias).length));
    expect(added).toMatchObject([
      [{ exercise: 'lib-goblet-squat', load: { value: 12 }, reps: 10 }],
      [{ exercise: 'lib-goblet-squat', load: { value: 16 }, reps: 8 }],
      [{ exercise: 'lib-deadlift', load: { value: 100 }, reps: 3 }],
    ]);
    expect(new Set(added.flat().map((set) => set.at?.at))).toEqual(new Set([Date.parse('2026-11-24T11:08+01:00')]));
    expect(added.flat().every((set) => set.effort === undefined && set.pain === undefined)).toBe(true);
  });

  test('11:08 left out with a reason, and what the week then lacks; another order; cut to the minutes left', async () => {
    const { hands, phone, at } = open();
    await at('11:08:20');
    await hands.choose('Romanian deadlift');
    await hands.tap('Change today');
    const inHand = hands.sheet().getByRole('region', { name: 'in hand' });
    await hands.tap('tired', inHand);
    await hands.tap('Skip today', inHand);
    await says(hands.sheet(), 'This week then has no hinge work yet.');
    await hands.tap('Close', hands.sheet());
    await says(cardOn(phone.page, 'Romanian deadlift'), 'Left out: tired.');

    await hands.choose('Bench press');
    await hands.choose('Overhead press');
    await hands.tap('Change today');
    const list = hands.sheet().getByRole('region', { name: 'today’s list' });
    await hands.tap('Overhead press up', list);
    await says(list, 'Overhead press', 'Bench press');
    // what is left, in this order: one set of goblet squats, three of each press, with their rests
    await hands.tap('15', hands.sheet().getByRole('group', { name: 'minutes left' }));
    await says(hands.sheet(), 'Keeps Goblet squat, Overhead press. Leaves out Bench press.');
    await hands.tap('Cut to 15 minutes', hands.sheet());
    await says(list, 'Bench press left out');
    await hands.tap('Close', hands.sheet());
    await says(cardOn(phone.page, 'Bench press'), 'Left out: no time.');
    const [session] = (await phone.stored()).sessions('Client K');
    const item = (id: string) => session?.items.find((one) => one.id === id);
    expect(item('lib-romanian-deadlift')?.skipped).toMatchObject({ why: 'tired' });
    expect(item('lib-bench-press')?.skipped).toMatchObject({ why: 'no time' });
    expect(item('lib-overhead-press')?.skipped).toBeUndefined();
    const order = session?.items.map((one) => one.id) ?? [];
    expect(order.indexOf('lib-overhead-press')).toBeLessThan(order.indexOf('lib-bench-press'));
  });

  test('11:09 a restriction still stands above it all', async () => {
    const { phone } = open();
    await says(recordOn(phone.page), 'Restriction: no jumping (Physio R, until 15 Dec)', 'Came in: the usual');
    await saysNot(recordOn(phone.page), 'Before we start');
  });
}
