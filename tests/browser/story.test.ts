import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';
import { says, saysNot } from './said';

/*
 * Forty minutes with two clients side by side, offline, the server gone. Each chapter goes on where the one before ended; what the
 * screen says is looked at as it happens, and what is stored is read from a backup file.
 */

let browser: Browser;
let phone: Phone;
let floor: Hands;

beforeAll(async () => {
  browser = await launchChromium();
  phone = await openPhone(browser, { at: '14:00' });
  floor = handsOn(phone.page);
});
afterAll(async () => {
  await phone.close();
  await browser.close();
});

// what follows a lost chapter tells nothing
let lost = false;
beforeEach(({ skip, onTestFailed }) => {
  skip(lost);
  onTestFailed(() => {
    lost = true;
  });
});

const line = (n: number) => floor.lines().nth(n);
const clock = () => phone.page.getByRole('timer', { name: 'rest left' });
const tabs = () => phone.page.getByRole('navigation', { name: 'clients' });

describe('forty minutes', () => {
  test('14:00 two clients with a day to work towards are added and started', async () => {
    await floor.addClient({ alias: 'Client K', dayName: 'opening', day: '2027-01-05' });
    await floor.addClient({ alias: 'Vale', dayName: 'first rehearsal', day: '2026-11-25' });
    const today = phone.page.getByRole('list').getByRole('listitem');
    await says(today.nth(0), 'Client K', 'No session yet. 42 days to opening');
    await says(today.nth(1), 'Vale', 'No session yet. 1 day to first rehearsal');
    await says(phone.page.getByRole('main'), 'Tuesday 24 November', 'saved on this phone · no backup yet');

    await floor.start('K', 'Front squat');
    await says(phone.page.getByRole('region', { name: 'record' }), 'First time with this client.');
    await floor.tap('another client');
    await phone.clock('14:01');
    await floor.tap('Start Vale', floor.sheet());
    await says(tabs(), 'K no set yet', 'Vale no set yet');

    const stored = await phone.stored();
    expect(stored.ofKind('client')).toMatchObject(
      [
        { alias: 'Client K', short: 'K', date: { name: 'opening', day: '2027-01-05' } },
        { alias: 'Vale', short: 'Vale', date: { name: 'first rehearsal', day: '2026-11-25' } },
      ].sort((a, b) => (stored.stream(a.alias) < stored.stream(b.alias) ? -1 : 1)),
    );
    expect(stored.sessions('Client K')).toMatchObject([
      { start: { day: '2026-11-24', zone: 'Europe/Vienna' }, exercises: ['lib-front-squat'], sets: [] },
    ]);
  });

  test('14:02 a ramp is one tap, the working set another, and the rest runs from the set’s own time', async () => {
    await floor.tap(/^K /, tabs());
    await floor.say({ load: '57,5', reps: '5' });
    await phone.clock('14:02');
    await floor.tap('Ramp done: 22.5 × 5 · 35 × 3 · 45 × 2');
    await says(line(0), 'ramp 22.5 kg · 35 kg · 45 kg warm-up');
    expect(await clock().count()).toBe(0);

    await phone.clock('14:04');
    await says(await floor.log('Log K · set 1'), '1 57.5 kg × 5 not noted');
    await says(clock(), '2:30');
    await phone.clock('14:04:48');
    await says(clock(), '1:42');
    await says(phone.page.getByRole('main'), 'saved 0:48 ago');
    await floor.tap('15 seconds more rest');
    await says(clock(), '1:57');
    await floor.tap('15 seconds less rest');
    await floor.tap('15 seconds less rest');
    await says(clock(), '1:27');

    expect((await phone.stored()).sets('Client K')).toMatchObject([
      { kind: 'warm-up', load: { value: 22.5, unit: 'kg' }, reps: 5, noRest: true },
      { kind: 'warm-up', load: { value: 35, unit: 'kg' }, reps: 3 },
      { kind: 'warm-up', load: { value: 45, unit: 'kg' }, reps: 2 },
      { kind: 'working', load: { value: 57.5, unit: 'kg' }, reps: 5, at: { day: '2026-11-24', zone: 'Europe/Vienna' } },
    ]);
  });

  test('14:05 what was seen is touched up in the rest; what was not stays not noted', async () => {
    const untouched = (await phone.stored()).sets('Client K').at(-1);
    expect(untouched).not.toHaveProperty('effort');
    expect(untouched).not.toHaveProperty('form');

    const touchUp = floor.pad().getByRole('region', { name: 'Last set, while you rest' });
    await floor.tap('2 left', touchUp);
    await says(line(1), '2 left');
    await floor.tap('2 left', touchUp);
    await says(line(1), '2½ left');
    await floor.tap('clean', touchUp);
    await floor.tap('missed', touchUp);
    await floor.tap('+ cue', touchUp);
    await floor.type('Find, or a new cue in your words', 'elbows to the wall');
    await floor.tap('Add and give');
    await floor.tap('better', touchUp);
    await says(line(1), '2½ left · clean · missed · cue better');

    await floor.tap('more about this set', touchUp);
    const sheet = floor.sheet();
    await floor.tap('made', sheet);
    await floor.tap('heel up', sheet);
    await floor.tap('heel up', sheet);
    await floor.tap('ribs up', sheet);
    await says(sheet, 'heel up, gone', 'ribs up');
    await floor.tap('pain 3', sheet);
    await saysNot(sheet, 'Pain of 4 or more');
    await floor.tap('pain 4', sheet);
    await says(sheet, 'Pain of 4 or more, or a stop sign: close this exercise for today and refer.');
    // told again as less: what is closed at 4 is open at 3
    await floor.tap('pain 3', sheet);
    await saysNot(sheet, 'Pain of 4 or more');
    await floor.type('Note', 'left heel, from rep 3');
    await floor.tap('Keep note', sheet);
    await floor.tap('Close', sheet);
    await says(line(1), '2½ left · clean · made · cue better · heel up, gone · ribs up · pain 3 · note');

    const stored = await phone.stored();
    const [cue] = stored.rows.filter((row) => row.kind === 'cue');
    expect(stored.ofKind('cue')).toMatchObject([{ words: 'elbows to the wall' }]);
    expect(stored.sets('Client K').at(-1)).toMatchObject({
      effort: { value: 2.5, as: 'left' },
      form: 'clean',
      ended: 'made',
      cues: [{ cue: cue?.id, answer: 'better' }],
      faults: [
        { id: 'lib-heel-up', gone: true },
        { id: 'lib-ribs-up', gone: false },
      ],
      pain: { value: 3 },
      note: 'left heel, from rep 3',
    });
  });

  test('14:08 the other client works each side apart: it flips by itself, without a rest between', async () => {
    await floor.tap(/^Vale /, tabs());
    await floor.tap('Choose an exercise');
    await floor.tap('Split squat', floor.sheet());
    await floor.say({ load: '12', reps: '8' });
    await phone.clock('14:08');
    await says(await floor.log('Log Vale · left, set 1'), '1 2 × 12 kg × 8 left');
    expect(await clock().count()).toBe(0);
    await says(tabs(), 'Vale other side');
    await says(floor.pad(), '2 × 12 kg × 8 right working');
    await phone.clock('14:09');
    await says(await floor.log('Log Vale · right, set 1'), '1 2 × 12 kg × 8 right');
    await says(clock(), '1:30');
    expect((await phone.stored()).sets('Vale')).toMatchObject([
      { side: 'left', load: { value: 12, unit: 'kg' }, reps: 8 },
      { side: 'right', load: { value: 12, unit: 'kg' }, reps: 8 },
    ]);
  });

  test('14:12 a back-off, a drop and a cluster in parts, a test: each kind as itself', async () => {
    await floor.tap(/^K /, tabs());
    await floor.kind('back-off');
    await floor.tap('30 % less', floor.pad());
    await phone.clock('14:12');
    await says(await floor.log(), '2 40 kg × 5', 'back-off not noted');

    await floor.kind('drop');
    await floor.say({ load: '57.5', reps: '6', 'load of part 2': '45', 'reps of part 2': '4' });
    await floor.tap('+ part', floor.pad());
    await phone.clock('14:16');
    await says(await floor.log(), '57.5 kg × 6 then 45 kg × 4 then 35 kg × 4', 'drop');

    await floor.kind('cluster');
    await floor.say({ load: '60', reps: '2', 'load of part 2': '60', 'reps of part 2': '2' });
    await phone.clock('14:20');
    await says(await floor.log(), '60 kg × 2 then 60 kg × 2', 'cluster');

    await floor.kind('test');
    await floor.say({ load: '70', reps: '1' });
    await phone.clock('14:24');
    await says(await floor.log('Log K · set 5 · 70 kg × 1'), '70 kg × 1', 'test');

    const [backOff, drop, cluster, tested] = (await phone.stored()).sets('Client K').slice(4);
    expect(backOff).toMatchObject({ kind: 'back-off', load: { value: 40, unit: 'kg' }, reps: 5 });
    expect(drop).toMatchObject({ kind: 'drop', load: { value: 57.5 }, reps: 6 });
    expect(drop?.parts).toMatchObject([
      { load: { value: 45 }, reps: 4 },
      { load: { value: 35 }, reps: 4 },
    ]);
    expect(cluster).toMatchObject({ kind: 'cluster', parts: [{ load: { value: 60 }, reps: 2 }] });
    expect(tested).toMatchObject({ kind: 'test', load: { value: 70 }, reps: 1, unread: [] });
  });

  test('14:26 a slip is edited, with its minute; what was observed stays', async () => {
    await floor.tapOn(line(1).getByRole('button'));
    const held = floor.sheet().getByRole('region', { name: 'what it held' });
    await floor.tap('60', held);
    await floor.type('Set-up in this set', 'heels on 20 mm');
    await floor.type('Time', '14:03');
    await floor.tap('Keep these changes', held);
    await says(line(1), '60 kg × 5', '2½ left · clean');
    const edited = (await phone.stored()).sets('Client K')[3];
    expect(edited).toMatchObject({
      load: { value: 60 },
      reps: 5,
      setUp: 'heels on 20 mm',
      form: 'clean',
      kind: 'working',
    });
    expect(edited?.at).toEqual({ at: Date.parse('2026-11-24T14:03+01:00'), day: '2026-11-24', zone: 'Europe/Vienna' });
  });

  test('14:27 a removed set comes back with undo, and a set of the wrong client moves with its time', async () => {
    const before = await phone.stored();
    await floor.tapOn(floor.lines().last().getByRole('button'));
    await floor.tap('Remove this set', floor.sheet());
    await expect.poll(() => floor.lines().count()).toBe(5);
    expect((await phone.stored()).sets('Client K')).toHaveLength(before.sets('Client K').length - 1);
    await floor.tap('Undo removal · K');
    await expect.poll(() => floor.lines().count()).toBe(6);
    expect((await phone.stored()).sets('Client K')).toEqual(before.sets('Client K'));

    await floor.tapOn(floor.lines().last().getByRole('button'));
    await floor.tap('move to Vale', floor.sheet());
    await expect.poll(() => floor.lines().count()).toBe(5);
    await floor.tap(/^Vale /, tabs());
    await says(floor.lines().last(), '70 kg × 1 test');
    const stored = await phone.stored();
    const moved = stored.sets('Vale').at(-1);
    const was = before.sets('Client K').at(-1);
    expect(moved).toEqual({ ...was, id: moved?.id });
    expect(moved?.id).not.toBe(was?.id);
    expect(stored.sets('Client K')).toHaveLength(before.sets('Client K').length - 1);
    await floor.tap('Undo move · K');
    await expect.poll(async () => (await phone.stored()).sets('Client K')).toEqual(before.sets('Client K'));
    expect((await phone.stored()).sets('Vale')).toHaveLength(2);
  });

  test('14:30 a body mass is noted on the client’s own page', async () => {
    await floor.tap('‹ Today');
    await floor.tap('Vale');
    await floor.type('Body mass', '61,4');
    await floor.tap('Note body mass');
    await says(phone.page.getByRole('region', { name: 'body mass' }), '61.4 kg, noted for 24 Nov.');
    await floor.tap('‹ Back');
    expect((await phone.stored()).ofKind('result')).toMatchObject([
      { test: 'lib-body-mass', value: { value: 61.4, unit: 'kg' }, at: { day: '2026-11-24' } },
    ]);
  });

  test('14:40 a session ends with what was told of it, goes on, and ends again', async () => {
    await floor.tap('Resume K');
    await phone.clock('14:40');
    await floor.tap('End');
    await says(floor.sheet(), '5 sets of 1 exercise, 40 min by the clock.');
    await floor.tap('cut short', floor.sheet());
    await floor.type('Why', 'called to the stage');
    await floor.type(/^Whole-session effort/, '7,5');
    await floor.type(/^Minutes trained/, '38');
    await floor.type('Note', 'heels up next time');
    await floor.tap('End Client K’s session', floor.sheet());
    const today = phone.page.getByRole('list').getByRole('listitem');
    await says(today.nth(0), 'Client K', 'Done today · 5 sets.');
    await says(today.nth(1), 'Vale', 'Running · 39 min · 2 sets.');
    const ended = {
      end: { at: Date.parse('2026-11-24T14:40+01:00') },
      effort: { value: 7.5, as: 'session' },
      minutes: 38,
      attendance: 'cut-short',
      why: 'called to the stage',
      note: 'heels up next time',
    };
    expect((await phone.stored()).sessions('Client K')).toMatchObject([ended]);

    await floor.tap('Look at today’s session');
    await says(floor.pad(), 'This session has ended.');
    await floor.tap('Go on');
    await floor
      .pad()
      .getByRole('button', { name: /^Log K · / })
      .waitFor();
    expect((await phone.stored()).sessions('Client K')[0]).not.toHaveProperty('end');
    await phone.clock('14:42');
    await floor.tap('End');
    await floor.tap('done', floor.sheet());
    await floor.tap('End Client K’s session', floor.sheet());
    await says(today.nth(0), 'Done today · 5 sets.');
    const again = (await phone.stored()).sessions('Client K');
    expect(again).toMatchObject([{ ...ended, end: { at: Date.parse('2026-11-24T14:42+01:00') }, attendance: 'done' }]);
  });
});
