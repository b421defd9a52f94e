import { describe, expect, test } from 'vitest';
import { analysed } from './analysed';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { axeFinds, badTargets, reachesPastTheSide } from './measure';
import { openDemo } from './openDemo';
import { says, textOf } from './said';

/* The studio's week in the built app with the network cut: the demo's four on a phone and at the desk, an empty studio, and twelve with long names. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const TODAY = '2026-11-24';
const PHONE = { width: 390, height: 844 };
const DESK = { width: 1280, height: 900 };
const main = () => floor.page.getByRole('main');
const status = () => main().getByRole('status');
const row = (alias: string) => floor.page.getByRole('row').filter({ hasText: alias });

async function openDemoWeek(): Promise<void> {
  await openDemo(floor);
  await floor.tap('The week');
  await workedOut();
}

const workedOut = () => expect.poll(() => textOf(status()), { timeout: 20_000 }).toMatch(/^Looked through: all/);

/** What axe, the size of targets and the screen's side have against the page. */
const wrong = async () => [
  ...(await axeFinds(floor.page)),
  ...(await badTargets(floor.page)).map(({ what, fault }) => `${what} ${fault}`),
  ...(await reachesPastTheSide(floor.page)),
];

type ThisWeek = {
  readonly alias: string;
  readonly thisWeek: {
    readonly done: number;
    readonly otherWork: number;
    readonly landed: number;
    readonly days: readonly { readonly day: string; readonly sessions: readonly { readonly sets: number }[] }[];
  };
};

/** What the command line makes of the file that the app hands out, as of a day. */
async function weeksOn(asOf: string): Promise<readonly ThisWeek[]> {
  const { told, floor: opened } = await analysed<{ readonly clients: readonly ThisWeek[] }>(
    phone,
    handsOn(await phone.relaunch('/')),
    asOf,
  );
  floor = opened;
  return told.clients;
}

describe('the demo', () => {
  test('on a phone: a card a client, who is flat first; the name opens the client, and Back comes back', async () => {
    await floor.page.setViewportSize(PHONE);
    await openDemoWeek();
    await says(
      main(),
      'The week',
      '23 Nov to 29 Nov',
      'Client Gale',
      '26 days to opening',
      'Heads-up. Front squat: flat since',
      'Sure: about',
      'judge again on',
      'Client Fog',
      'No session this week',
    );
    expect(await floor.page.getByRole('table').count()).toBe(0);
    for (const scheme of ['dark', 'light'] as const) {
      await floor.page.emulateMedia({ colorScheme: scheme });
      expect(await wrong()).toEqual([]);
    }
    await floor.page.setViewportSize({ width: 320, height: 640 });
    expect(await wrong()).toEqual([]);
    await floor.tap('‹ Earlier week');
    await workedOut();
    await says(main(), '16 Nov to 22 Nov', 'Client Gale', 'sessions, other work', 'rehearsal', 'Not logged:');
    await floor.tap('Client Puddle');
    await says(main(), 'Client Puddle');
    expect(floor.page.url()).toMatch(/\/client\/[^/]+$/);
    // back to the week that was looked at; a new visit shows this one
    await floor.tap('‹ Back');
    await workedOut();
    await says(main(), '16 Nov to 22 Nov', 'Client Gale', 'Client Puddle');
    await floor.tap('‹ Back');
    await floor.tap('The week');
    await says(main(), '23 Nov to 29 Nov');
  });

  test('at the desk: a table that agrees with what analyse makes of the file, this week and an earlier one', async () => {
    await floor.page.setViewportSize(DESK);
    await openDemoWeek();
    const heads = await floor.page.getByRole('columnheader').allInnerTexts();
    expect(heads.map((one) => one.replace(/\s+/g, ' ').trim())).toEqual([
      'Client',
      'Mon 23 Nov',
      'Tue today',
      'Wed 25 Nov',
      'Thu 26 Nov',
      'Fri 27 Nov',
      'Sat 28 Nov',
      'Sun 29 Nov',
      'Landings',
      'What needs doing',
    ]);
    const amber = (name: string) =>
      floor.page.getByRole('columnheader', { name }).evaluate((one) => getComputedStyle(one).color);
    expect(await amber('Tue today')).not.toBe(await amber('Wed 25 Nov'));
    for (const scheme of ['dark', 'light'] as const) {
      await floor.page.emulateMedia({ colorScheme: scheme });
      expect(await wrong()).toEqual([]);
    }
    const now = await rowsRead();
    await floor.tap('‹ Earlier week');
    await workedOut();
    await says(main(), '16 Nov to 22 Nov', 'As of Sun 22 Nov: nothing that was noted of later days is used.');
    await says(row('Client Gale'), '28 days to opening', 'flat since');
    const before = await rowsRead();
    await floor.tap('Later week ›');
    await says(main(), '23 Nov to 29 Nov');
    expect(await floor.page.getByRole('button', { name: 'Later week ›' }).isDisabled()).toBe(true);
    for (const [asOf, read] of [
      [TODAY, now],
      ['2026-11-22', before],
    ] as const) {
      for (const { alias, thisWeek } of await weeksOn(asOf)) {
        const { done, landed, days } = thisWeek;
        const own = read.find((one) => one.alias === alias);
        expect(own?.sum).toContain(done === 0 ? 'No session this week' : `${done} session`);
        expect(own?.sets).toEqual(days.map(({ sessions }) => sessions.reduce((sum, { sets }) => sum + sets, 0)));
        expect(own?.landings).toMatch(landed === 0 ? /^none noted$/ : new RegExp(`^(Mon )?${landed} `));
      }
    }
    expect(before.some(({ sets }) => sets.filter((count) => count > 0).length > 2)).toBe(true);
  });

  test('on paper it is a table on one landscape page, light, without its buttons', async () => {
    await floor.page.setViewportSize(DESK);
    await floor.page.emulateMedia({ colorScheme: 'dark' });
    await openDemoWeek();
    const pdf = (await floor.page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(1);
    const [, , , width = '0', height = '0'] = /\/MediaBox ?\[(\S+) (\S+) (\S+) ([^\]]+)\]/.exec(pdf) ?? [];
    expect([Math.round(Number(width)), Math.round(Number(height))]).toEqual([842, 595]);
    await floor.page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(await floor.page.getByRole('button', { name: '‹ Earlier week' }).count()).toBe(0);
    const ground = await floor.page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    expect(ground).toBe('rgb(255, 255, 255)');
  });
});

type RowRead = {
  readonly alias: string;
  readonly sum: string;
  readonly sets: readonly number[];
  readonly landings: string;
};

/** The rows of the table: the sets of each day as they stand there. */
async function rowsRead(): Promise<readonly RowRead[]> {
  const rows = await floor.page.getByRole('row').all();
  return Promise.all(
    rows.slice(1).map(async (one): Promise<RowRead> => {
      const cells = await one.getByRole('cell').allInnerTexts();
      const [told = ''] = await one.getByRole('rowheader').allInnerTexts();
      const head = told.split('\n').filter((line) => line.trim() !== '');
      const sets = cells
        .slice(0, 7)
        .map((cell) => [...cell.matchAll(/(\d+) sets?\b/g)].reduce((sum, [, count]) => sum + Number(count), 0));
      return { alias: head[0] ?? '', sum: head.at(-1) ?? '', sets, landings: (cells[7] ?? '').replace(/\s+/g, ' ') };
    }),
  );
}

test('with nobody it says so; with twelve of long names nothing is cut off or lies over another', async () => {
  floor = handsOn(await phone.relaunch('/week'));
  await says(main(), 'No client yet. Add one, and the week of each is here.');
  expect(await wrong()).toEqual([]);
  await floor.tap('+ client');
  await says(main(), 'A new client');
  floor = handsOn(await phone.relaunch('/'));
  for (let n = 1; n <= 12; n += 1) {
    await floor.addClient({
      alias: `${'Understudyofthemoonlight'.slice(0, n * 2)} ${n} of the second company`.slice(0, 40),
      short: `U${n}`,
      ...(n % 2 ? { dayName: 'the long dress rehearsal', day: '2026-12-24' } : {}),
    });
  }
  for (const size of [PHONE, { width: 320, height: 640 }, DESK]) {
    await floor.page.setViewportSize(size);
    floor = handsOn(await phone.relaunch('/week'));
    await floor.page.setViewportSize(size);
    await expect.poll(() => textOf(status()), { timeout: 20_000 }).toBe('Looked through: all 12 clients.');
    expect(await wrong()).toEqual([]);
    const text = await textOf(main());
    expect(text.match(/30 days to the long dress rehearsal/g)).toHaveLength(6);
    expect(text.match(/No session this week/g)).toHaveLength(12);
    expect(text.match(/Too little noted yet to say anything\./g)).toHaveLength(12);
  }
});
