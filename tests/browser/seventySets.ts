import { expect, test } from 'vitest';
import { says, saysNot } from './said';
import {
  cardOn,
  type Floor,
  held,
  linesOf,
  logTo,
  nextSet,
  recordOn,
  restLeft,
  tabsOn,
  toClient,
  touchUp,
} from './seventyHands';

const DAY = '2026-11-24';

/** How three clients come in, and every kind of set there is. */
export function arrivalAndSets(open: () => Floor): void {
  test('10:00 three clients come: a restriction, a level of landings and a question are noted beforehand', async () => {
    const { hands, phone } = open();
    await hands.addClient({ alias: 'Client K', dayName: 'opening', day: '2027-01-05' });
    await hands.addClient({ alias: 'Vale', dayName: 'first rehearsal', day: '2026-12-01' });
    await hands.addClient({ alias: 'Ondry' });

    await hands.tap('Client K');
    await hands.tap('Add a restriction');
    await hands.type('Who said it', 'Physio R');
    await hands.type('What must not be done', 'no jumping');
    await hands.type('Until, its last day', '2026-12-15');
    await hands.tap('hide jump and land');
    await hands.tap('Add this restriction');
    const noted = phone.page.getByRole('region', { name: 'restrictions' });
    await says(noted, 'no jumping Physio R, from 24 Nov until 15 Dec; hides 12 exercises');
    await hands.tap('‹ Back');

    await hands.tap('Vale');
    await hands.tap('beginner');
    await says(phone.page.getByRole('region', { name: 'before and in sessions' }), 'session: 80–100 landings. A guide');
    await hands.type('A question agreed with the client, asked before each session', 'How is the left heel?');
    await hands.tap('Keep the question');
    await hands.tap('‹ Back');

    const stored = await phone.stored();
    expect(stored.ofKind('restriction')).toMatchObject([
      { who: 'Physio R', what: 'no jumping', from: DAY, until: '2026-12-15', 'hides/lib-box-jump': true },
    ]);
    const vale = stored.ofKind('client').find((client) => client['alias'] === 'Vale');
    expect(vale).toMatchObject({ landings: 'beginner', question: 'How is the left heel?' });
  });

  test('10:01 the usual is stored as the usual, five answers as five, and what was not asked as nothing', async () => {
    const { hands, phone, at } = open();
    await hands.tap('Start K');
    await says(recordOn(phone.page), 'Restriction: no jumping (Physio R, until 15 Dec)', 'Before we start');
    await hands.tap('The usual');
    await says(recordOn(phone.page), 'Came in: the usual');
    await hands.tap('another client');
    await at('10:01');
    await hands.tap('Start Vale', hands.sheet());
    await hands.tap('Ask');
    for (const [asked, step] of [
      ['Sleep', '4'],
      ['Energy', '3'],
      ['Body', '2'],
    ] as const) {
      await hands.tap(`${asked} ${step}`, hands.sheet());
    }
    await hands.tap('Mind 5, at ease', hands.sheet());
    await hands.tap('Mood 1, low', hands.sheet());
    await hands.tap('ankle', hands.sheet());
    await hands.tap('pain before 4', hands.sheet());
    await says(hands.sheet(), 'Pain of 4 or more, or a stop sign');
    await hands.tap('pain before 1', hands.sheet());
    await saysNot(hands.sheet(), 'Pain of 4 or more');
    await hands.type('How is the left heel?', 'stiff, then fine');
    await hands.tap('Keep the answer');
    await hands.tap('Done', hands.sheet());
    await says(
      recordOn(phone.page),
      'Came in: sleep 4 · energy 3 · body 2 · mind 5 · mood 1 · sore: ankle · pain 1 · answer noted',
    );
    await hands.tap('another client');
    await at('10:02');
    await hands.tap('Start Ondry', hands.sheet());
    await says(tabsOn(phone.page), 'K no set yet', 'Vale no set yet', 'Ondry no set yet');

    const stored = await phone.stored();
    const [k, vale, ondry] = ['Client K', 'Vale', 'Ondry'].map((alias) => stored.sessions(alias)[0]);
    expect(k?.arrival).toEqual({ items: {}, usual: true, sore: [] });
    expect(vale?.arrival).toMatchObject({
      items: { sleep: 4, energy: 3, body: 2, calm: 5, mood: 1 },
      usual: false,
      sore: ['ankle'],
      pain: 1,
      answer: { asked: 'How is the left heel?', said: 'stiff, then fine' },
    });
    expect(ondry?.arrival).toEqual({ items: {}, usual: false, sore: [] });
  });

  test('10:03 what a restriction hides is not offered to this client, and is to the others', async () => {
    const { hands, phone } = open();
    await toClient(hands, 'K');
    await hands.tap('Choose an exercise');
    await says(hands.sheet(), '12 exercises closed by a restriction or by pain.');
    await hands.type('Find, or name a new one', 'jump');
    expect(await hands.sheet().getByRole('button', { name: 'Box jump' }).count()).toBe(0);
    await hands.type('Find, or name a new one', '');
    await hands.tap('Front squat', hands.sheet());
    await says(recordOn(phone.page), 'Restriction: no jumping');
    await toClient(hands, 'Vale');
    await hands.tap('Choose an exercise');
    expect(await hands.sheet().getByRole('button', { name: 'Box jump' }).count()).toBe(1);
    await saysNot(hands.sheet(), 'closed by a restriction');
    await hands.tap('Close', hands.sheet());
    await toClient(hands, 'K');
  });

  test('10:04 a set-up with tempo, height and pause is remembered, and stands in every set from now on', async () => {
    const { hands, phone, at } = open();
    const card = cardOn(phone.page, 'Front squat');
    await hands.tap('+ set-up', card);
    await hands.type('Box, grip, seat, whatever must be the same', 'heels on 20 mm');
    await hands.type('Tempo: down, below, up, above', '3-1');
    await hands.tap('Keep set-up');
    await says(hands.sheet(), 'tempo must be four parts, such as 3-1-1-0', 'this is “3-1”');
    await hands.type('Tempo: down, below, up, above', '3-1-x-0');
    await hands.type('Height', '40');
    await hands.type('Pause in each rep, seconds', '2');
    await hands.tap('Keep set-up');
    await says(card, 'set-up: heels on 20 mm · tempo 3-1-x-0 · 40 cm · 2 s pause');

    await hands.say({ load: '60', reps: '5' });
    await at('10:04');
    await hands.tap('Ramp done: 25 × 5 · 35 × 3 · 47.5 × 2');
    await says(linesOf(phone.page, 'Front squat').nth(0), 'ramp 25 kg · 35 kg · 47.5 kg warm-up');
    await at('10:05');
    await says(await logTo(hands, 'Front squat', 'Log K · set 1'), '1 60 kg × 5 not noted');
    await says(restLeft(phone.page), '2:30');
    const sets = held((await phone.stored()).sets('Client K'), 'lib-front-squat');
    expect(sets.map((set) => set.kind)).toEqual(['warm-up', 'warm-up', 'warm-up', 'working']);
    expect(sets.at(-1)).toMatchObject({
      setUp: 'heels on 20 mm',
      tempo: '3-1-x-0',
      height: { value: 40, unit: 'cm' },
      pause: 2,
      load: { value: 60, unit: 'kg' },
    });
    expect(sets.at(-1)).not.toHaveProperty('ended');
  });

  test('10:08 a missed rep, a back-off, a drop and a cluster in parts', async () => {
    const { hands, phone, at } = open();
    await at('10:08');
    await hands.say({ reps: '4' });
    const missed = await logTo(hands, 'Front squat', 'Log K · set 2');
    await hands.tap('missed', touchUp(hands));
    await says(missed, '2 60 kg × 4 missed');
    await hands.kind('back-off');
    await hands.tap('20 % less', hands.pad());
    await at('10:11');
    await says(await logTo(hands, 'Front squat'), '47.5 kg × 4', 'back-off not noted');
    await hands.kind('drop');
    await hands.say({ load: '50', reps: '6', 'load of part 2': '40', 'reps of part 2': '5' });
    await hands.tap('+ part', hands.pad());
    await at('10:14');
    await says(await logTo(hands, 'Front squat'), '50 kg × 6 then 40 kg × 5 then 32.5 kg × 5', 'drop');
    await hands.kind('cluster');
    await hands.say({ load: '62.5', reps: '2', 'load of part 2': '62.5', 'reps of part 2': '1' });
    await at('10:17');
    await says(await logTo(hands, 'Front squat'), '62.5 kg × 2 then 62.5 kg × 1', 'cluster');
    const sets = held((await phone.stored()).sets('Client K'), 'lib-front-squat').slice(4);
    expect(sets).toMatchObject([
      { kind: 'working', load: { value: 60 }, reps: 4, ended: 'missed' },
      { kind: 'back-off', load: { value: 47.5 }, reps: 4, parts: [] },
      {
        kind: 'drop',
        reps: 6,
        parts: [
          { load: { value: 40 }, reps: 5 },
          { load: { value: 32.5 }, reps: 5 },
        ],
      },
      { kind: 'cluster', load: { value: 62.5 }, reps: 2, parts: [{ load: { value: 62.5 }, reps: 1 }] },
    ]);
    expect(sets.every((set) => set.unread.length === 0 && set.tempo === '3-1-x-0')).toBe(true);
  });

  test('10:18 body mass alone, with load added, with load taken off, with a band: each as itself', async () => {
    const { hands, phone, at } = open();
    await toClient(hands, 'Ondry');
    await hands.tap('Choose an exercise');
    await hands.tap('Pull-up', hands.sheet());
    await hands.say({ reps: '6' });
    await at('10:18');
    await says(await logTo(hands, 'Pull-up', 'Log Ondry · set 1'), '1 body mass × 6');
    const way = async (was: string, next: string) => {
      await hands.tap(was, nextSet(hands));
      await hands.tap(next, hands.pad().getByRole('group', { name: 'body mass' }));
    };
    await way('body mass', '+ load');
    await hands.say({ load: '7,5', reps: '4' });
    await at('10:19');
    await says(await logTo(hands, 'Pull-up'), '2 body mass +7.5 kg × 4');
    await way('body mass +', '− assist');
    await hands.say({ load: '15', reps: '8' });
    await at('10:20');
    await says(await logTo(hands, 'Pull-up'), '3 body mass −15 kg × 8');
    await way('body mass −', 'band');
    await hands.tap('medium', hands.pad());
    await hands.say({ reps: '7' });
    await at('10:21');
    await says(await logTo(hands, 'Pull-up'), '4 body mass medium band × 7');
    const sets = (await phone.stored()).sets('Ondry');
    expect(sets).toMatchObject([
      { reps: 6 },
      { reps: 4, added: { value: 7.5, unit: 'kg' } },
      { reps: 8, assist: { value: 15, unit: 'kg' } },
      { reps: 7, band: 'medium' },
    ]);
    // nothing of a band or of body mass was turned into a load
    expect(sets.every((set) => set.load === undefined)).toBe(true);
    expect(sets[3]).not.toHaveProperty('assist');
  });
}
