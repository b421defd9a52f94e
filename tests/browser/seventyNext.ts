import { expect, test } from 'vitest';
import { plannedSessionId } from '../../src/domain/ids';
import { says, saysNot, textOf } from './said';
import { cardOn, type Floor, held, linesOf, logTo, more, nextSet, recordOn } from './seventyHands';

const today = ({ phone }: Floor, alias: string) =>
  phone.page
    .getByRole('main')
    .getByRole('listitem')
    .filter({ has: phone.page.getByRole('button', { name: alias, exact: true }) });

/** What is looked at in between, how it ends, and what is known the next time. */
export function endAndNextTime(open: () => Floor): void {
  test('11:09 the trend opens on the name and closes to exactly the same place', async () => {
    const { hands, phone } = open();
    const { page } = phone;
    const name = cardOn(page, 'Front squat').getByRole('button', { name: /^Front squat/ });
    await hands.tapOn(name);
    await hands.say({ load: '52.5' });
    const record = recordOn(page);
    // the record as a thumb left it: the name in sight, the newest line not
    await name.scrollIntoViewIfNeeded();
    const place = async () => ({
      url: page.url(),
      scrolled: await record.evaluate((it) => it.scrollTop),
      pad: await textOf(hands.pad()),
    });
    const before = await place();
    expect(before.pad).toContain('52.5 kg');
    hands.count();
    await hands.tapOn(name);
    const sheet = page.getByRole('dialog', { name: 'Front squat' });
    await says(sheet, 'First session: nothing to compare with yet.');
    expect(hands.count()).toBe(1);
    await hands.tap('As a table', sheet);
    await says(sheet.getByRole('table'), '24 Nov', '62.5 kg × 2');
    await hands.tap('Close', sheet);
    await sheet.waitFor({ state: 'detached' });
    expect(await place()).toEqual(before);
    await hands.tapOn(name);
    await sheet.waitFor();
    // the phone's own Back closes it too
    await page.goBack();
    await sheet.waitFor({ state: 'detached' });
    expect(await place()).toEqual(before);
  });

  test('11:09 the client may look: own numbers, days and next; no other names, no notes, no pain', async () => {
    const { hands, phone } = open();
    await hands.tap('Show K');
    const view = phone.page.getByRole('main');
    await says(view, 'Client K', '42 days to opening', 'Next Front squat 52.5 kg', 'Today', '60 kg × 5', '80 kg × 5');
    for (const secret of ['Vale', 'Ondry', 'knee', 'pain', 'missed', 'Physio', 'Restriction', 'not noted', 'usual'])
      await saysNot(view, secret);
    await hands.tap('‹ Back');
    await says(nextSet(hands), '52.5 kg');
  });

  test('11:10 K: kept as a template, then ended, cut short; the effort comes later, from Today', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await more(hands, 'Keep as a template');
    await hands.tap('Keep the template');
    await says(hands.sheet(), 'name must say something');
    await hands.type('Name of the template', 'Squat day');
    await hands.tap('Thu', hands.sheet());
    await hands.tap('Keep the template');
    await hands.sheet().waitFor({ state: 'detached' });
    await at('11:10');
    await hands.tap('End');
    await says(hands.sheet(), '70 min by the clock.', 'Front squat: 6 sets, last 50 kg × 5.');
    await hands.tap('cut short', hands.sheet());
    await hands.type('Why', 'knee');
    await hands.tap('End Client K’s session', hands.sheet());
    await says(today(floor, 'Client K'), 'Done today');
    const [ended] = (await phone.stored()).sessions('Client K');
    expect(ended).toMatchObject({
      end: { at: Date.parse('2026-11-24T11:10+01:00') },
      attendance: 'cut-short',
      why: 'knee',
    });
    expect(ended).not.toHaveProperty('effort');
    expect((await phone.stored()).ofKind('template')).toMatchObject([
      { name: 'Squat day', 'days/tue': true, 'days/thu': true },
    ]);

    await at('11:40');
    await hands.tap('Add its effort', today(floor, 'Client K'));
    await hands.type(/^Whole-session effort/, '6,5');
    await hands.tap('Keep these changes', hands.sheet());
    await today(floor, 'Client K')
      .getByRole('button', { name: /^Start K/ })
      .waitFor();
    expect(await today(floor, 'Client K').getByRole('button', { name: 'Add its effort' }).count()).toBe(0);
    const [later] = (await phone.stored()).sessions('Client K');
    expect(later).toEqual({ ...ended, effort: { value: 6.5, as: 'session' } });
  });

  test('11:10 the others end: minutes without the pause, the usual numbers, an effort at once', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await at('11:11');
    await hands.tap('Resume Vale');
    await hands.tap('End');
    await says(hands.sheet(), '65 min by the clock.', '8 landings in all. 5 min paused.');
    await hands.tap('done', hands.sheet());
    await hands.type(/^Whole-session effort/, '11');
    await hands.tap('End Vale’s session', hands.sheet());
    await says(hands.sheet(), 'effort must be between 0 and 10');
    await hands.type(/^Whole-session effort/, '4');
    await hands.tap('End Vale’s session', hands.sheet());
    await hands.tap('Resume Ondry');
    await hands.tap('End');
    await hands.tap('End Ondry’s session', hands.sheet());
    await says(today(floor, 'Ondry'), 'Done today');
    const stored = await phone.stored();
    expect(stored.sessions('Vale')[0]).toMatchObject({ attendance: 'done', effort: { value: 4, as: 'session' } });
    const [ondry] = stored.sessions('Ondry');
    expect(ondry).not.toHaveProperty('attendance');
    expect(ondry).not.toHaveProperty('effort');
    expect(ondry).not.toHaveProperty('minutes');
  });

  test('in the evening other work is three taps, and a session that did not happen is said', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await at('21:00');
    await hands.tapOn(today(floor, 'Client K').getByRole('button', { name: /^Other work.* of K$/ }));
    hands.count();
    await hands.tap('rehearsal');
    await hands.tap('3 hours');
    await hands.tap('keep with effort 6');
    expect(hands.count()).toBe(3);
    await says(phone.page.getByRole('region', { name: 'other work' }), '24 Nov: rehearsal, 3 h, effort 6');
    await hands.tap('‹ Back');
    await says(today(floor, 'Client K'), 'Today also rehearsal.');
    await hands.tapOn(today(floor, 'Ondry').getByRole('button', { name: /^Other work.* of Ondry$/ }));
    await hands.tap('no-show');
    await hands.type('Why', 'train stood still');
    await hands.tap('Note it');
    await says(phone.page.getByRole('region', { name: 'sessions' }), '21:00, ended, 0 sets, no-show');
    await hands.tap('‹ Back');
    const stored = await phone.stored();
    expect(stored.ofKind('otherWork')).toMatchObject([
      { work: 'rehearsal', day: '2026-11-24', hours: 3, effort: { value: 6, as: 'session' } },
    ]);
    expect(stored.sessions('Ondry').at(-1)).toMatchObject({
      attendance: 'no-show',
      why: 'train stood still',
      sets: [],
    });
  });

  test('the day after, before a clearance nothing heavier than where it stopped is offered; then it is', async () => {
    const floor = open();
    const { phone, at } = floor;
    await at('2026-11-25 10:00');
    await floor.kill();
    const { hands } = floor;
    await hands.tap('Start K');
    await hands.tap('Choose an exercise');
    await hands.tap('Back squat', hands.sheet());
    await says(cardOn(phone.page, 'Back squat'), 'Last time, 24 Nov: 80 kg: 5 · 5; 70 kg: 5');
    await says(nextSet(hands), '70 kg × 5');
    const control = hands.pad().getByRole('group', { name: 'load', exact: true });
    await hands.tap('more load', control);
    await says(nextSet(hands), '70 kg × 5');
    const offered = (await control.getByRole('button').allInnerTexts()).map(Number).filter((load) => load > 0);
    expect(offered.length).toBeGreaterThan(2);
    expect(Math.max(...offered)).toBe(70);
    await says(hands.pad(), 'nothing heavier than 70 kg is offered until a clearance is noted');
    await hands.tap('Note a clearance', hands.pad());
    await hands.type('Who cleared it', 'Physio R');
    await hands.tap('Note the clearance', hands.sheet());
    await saysNot(hands.pad(), 'nothing heavier');
    // what was in hand stays; what is heavier is offered again
    await says(nextSet(hands), '70 kg × 5');
    await hands.tap('more load', control);
    await says(nextSet(hands), '72.5 kg × 5');
    await hands.tap('80', control);
    await at('2026-11-25 10:05');
    await says(await logTo(hands, 'Back squat'), '80 kg × 5');
    await hands.tap('End');
    await hands.tap('End Client K’s session', hands.sheet());
  });

  test('repeat last session puts its list and what was done as what to begin with', async () => {
    const floor = open();
    const { hands, phone, at } = floor;
    await at('2026-11-25 10:10');
    await hands.tap('Start Vale');
    await hands.tap('Repeat last session', hands.pad());
    await says(recordOn(phone.page), 'Band pull-apart', 'Plan: 1 set of grey band × 15');
    await says(cardOn(phone.page, 'block B'), 'Block B · 12-9-6');
    await hands.tapOn(cardOn(phone.page, 'Goblet squat').getByRole('button', { name: /^Goblet squat/ }));
    await says(nextSet(hands), '16 kg × 8');
    const [, again] = (await phone.stored()).sessions('Vale');
    expect(again?.sets).toEqual([]);
    expect(again?.blocks.map((block) => [block.kind, block.started, block.done])).toEqual([
      ['mobility', undefined, undefined],
      ['list', undefined, undefined],
      ['every', undefined, undefined],
    ]);
    await at('2026-11-25 10:12');
    await logTo(hands, 'Goblet squat');
    await hands.tap('End');
    await hands.tap('End Vale’s session', hands.sheet());
  });

  test('on the template’s day Today offers it; its session has the id that every device would give it', async () => {
    const floor = open();
    const { phone, at } = floor;
    await at('2026-11-26 09:00');
    await floor.kill();
    const { hands } = floor;
    await hands.tap('Start K · Squat day', today(floor, 'Client K'));
    await says(cardOn(phone.page, 'Push-up'), '0 of 30, spread over the session');
    const stored = await phone.stored();
    const [template] = stored.rows.filter((row) => row.kind === 'template');
    const started = stored.sessions('Client K').at(-1);
    const id = plannedSessionId(stored.stream('Client K'), template?.id ?? '', '2026-11-26', 1);
    expect(started).toMatchObject({ id, template: template?.id, plannedDay: '2026-11-26', sets: [] });
    expect(new URL(phone.page.url()).pathname).toBe(`/s/${stored.stream('Client K')}/${id}`);
    expect(held(stored.sets('Client K'), 'lib-front-squat').every((set) => set.at?.day === '2026-11-24')).toBe(true);
    // what the list begins with is in hand, with the last working set as what to begin with
    await says(nextSet(hands), '50 kg × 5 working');
    await at('2026-11-26 09:02');
    await logTo(hands, 'Front squat');
    expect(await linesOf(phone.page, 'Front squat').count()).toBe(1);
    await hands.tap('End');
    await hands.tap('End Client K’s session', hands.sheet());
    // a second short session of the same day counts on
    await at('2026-11-26 17:00');
    await hands.tap('Start K · Squat day', today(floor, 'Client K'));
    await says(recordOn(phone.page), 'Before we start');
    const second = (await phone.stored()).sessions('Client K').at(-1);
    expect(second?.id).toBe(plannedSessionId(stored.stream('Client K'), template?.id ?? '', '2026-11-26', 2));
  });
}
