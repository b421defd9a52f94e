import type { Locator } from 'playwright-core';
import { beforeEach, expect, test } from 'vitest';
import { analysed } from './analysed';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { looksWell, reachesPastTheSide } from './measure';
import { openDemo } from './openDemo';
import { says, textOf } from './said';

/* The other answers on the client's page, worked out beside it with the network cut: number, chart, table and the command line agree. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const TODAY = '2026-11-24';
const LB = 0.45359237;
const main = () => floor.page.getByRole('main');
const card = () => floor.page.getByRole('region', { name: 'other answers' });
const topic = (name: string): Locator =>
  card()
    .getByRole('listitem')
    .filter({ has: floor.page.getByRole('heading', { level: 3, name: new RegExp(`^${name}`) }) });

beforeEach(() => openDemo(floor));

type Week = { readonly exercise: string; readonly week: string; readonly kg?: number; readonly kgM?: number };
type Analysed = {
  readonly clients: readonly {
    readonly alias: string;

    readonly found: readonly {
      readonly topic: string;
      readonly type: string;
      readonly exercise?: string;
      readonly kg?: number;
    }[];
    readonly tonnage: { readonly total: readonly Omit<Week, 'exercise'>[] };
    readonly carries: readonly Week[];
    readonly load: {
      readonly weeks: readonly { readonly week: string; readonly total?: number; readonly missing: number }[];
    };
    readonly landings: { readonly sessions: readonly { readonly day: string; readonly landings: number }[] };
    readonly cues: {
      readonly cues: readonly {
        readonly uses: { readonly used: number; readonly worked: number };
        readonly low: number;
        readonly high: number;
      }[];
    };
    readonly cameIn?: {
      readonly days: readonly { readonly day: string; readonly sum?: number }[];
    };
  }[];
};

const clientIn = ({ clients }: Analysed, alias: string) => {
  const found = clients.find((one) => one.alias === alias);
  if (!found) throw new Error(`no ${alias}`);
  return found;
};

const short = (day: string): string =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' }).format(Date.parse(day));
const count = (value: number): string => new Intl.NumberFormat('en-GB').format(Math.round(value));

async function open(alias: string): Promise<void> {
  await floor.tap(alias);
  await card().getByRole('button', { name: '12 weeks' }).waitFor();
}

const openTopic = async (name: string): Promise<Locator> => {
  const part = topic(name);
  await floor.tapOn(part.getByText('How sure'));
  return part;
};

/** The bars of a chart as values, read off its axis by where they stand: left to right. */
const barsRead = (chart: Locator): Promise<readonly number[]> =>
  chart.evaluate((svg) => {
    const texts = [...svg.querySelectorAll('text')].filter((one) => one.getAttribute('text-anchor') === 'end');
    const ticks = texts.map((one) => ({
      y: Number(one.getAttribute('y')) - 4,
      value: Number(one.textContent?.replaceAll(',', '')),
    }));
    const [first, last] = [ticks[0], ticks.at(-1)];
    if (!first || !last) return [];
    const perPixel = (last.value - first.value) / (last.y - first.y);
    return [...svg.querySelectorAll('.picture-bar')].map((bar) => Number(bar.getAttribute('height')) * -perPixel);
  });

/** The first cells of every line of a table, without its heads. */
async function cellsOf(part: Locator, columns: number): Promise<readonly (readonly string[])[]> {
  const rows = await part.getByRole('row').all();
  const all = await Promise.all(rows.slice(1).map((row) => row.locator('th, td').allInnerTexts()));
  return all.map((cells) => cells.slice(0, columns));
}

test('tonnage, carries and load: number, chart, table and the command line agree, in kg and in lb', async () => {
  const analysis = await analysed<Analysed>(phone, floor, TODAY);
  floor = analysis.floor;
  const gale = clientIn(analysis.told, 'Client Gale');
  const found = gale.found.find((one) => one.topic === 'tonnage' && !one.exercise && one.type !== 'stale-mass');
  const weeks = gale.tonnage.total;
  expect(weeks.length).toBeGreaterThan(8);
  await open('Client Gale');
  await says(topic('Tonnage'), `${count(found?.kg ?? 0)} kg in total`, 'usual weeks lie between', 'sets counted');

  const tonnage = await openTopic('Tonnage');
  // the chart opens on what stands above
  await says(tonnage.getByRole('status'), `${count(found?.kg ?? 0)} kg`);
  await floor.tap('all', card().getByRole('group', { name: 'Charts and tables go back' }));
  const read = await barsRead(tonnage.getByRole('img'));
  expect(read).toHaveLength(weeks.length);
  // a tenth of a pixel is as fine as is drawn: 30 of 15,000 kg at the most
  for (const [n, { kg = 0 }] of weeks.entries()) expect(Math.abs((read[n] ?? 0) - kg)).toBeLessThan(30);
  await floor.tap('As a table', tonnage);
  expect(await cellsOf(tonnage, 2)).toEqual(weeks.toReversed().map(({ week, kg = 0 }) => [short(week), count(kg)]));

  const carries = await openTopic('Carries');
  await floor.tap('As a table', carries);
  const carried = gale.carries.filter(
    ({ exercise }) => exercise === gale.found.find((one) => one.topic === 'carries')?.exercise,
  );
  expect(await cellsOf(carries, 2)).toEqual(carried.toReversed().map(({ week, kgM = 0 }) => [short(week), count(kgM)]));

  const load = await openTopic('Whole-session load');
  await says(load, 'Load figures do not foretell injuries.');
  await floor.tap('As a table', load);
  expect(await cellsOf(load, 3)).toEqual(
    gale.load.weeks
      .toReversed()
      .map(({ week, total, missing }) => [
        short(week),
        total === undefined ? 'nothing noted' : `${missing > 0 ? 'at least ' : ''}${count(total)}`,
        String(missing),
      ]),
  );

  floor = handsOn(await phone.relaunch('/settings'));
  await floor.tapOn(floor.page.getByRole('group', { name: 'loads in' }).getByRole('button', { name: /^lb|pounds/ }));
  floor = handsOn(await phone.relaunch('/'));
  await open('Client Gale');
  await says(topic('Tonnage'), `${count((found?.kg ?? 0) / LB)} lb in total`);
});

test('cues, landings, how they came in: chart, line, table and the command line agree; keys and taps step through', async () => {
  const analysis = await analysed<Analysed>(phone, floor, TODAY);
  floor = analysis.floor;
  const puddle = clientIn(analysis.told, 'Client Puddle');
  await open('Client Puddle');
  const [best] = puddle.cues.cues;
  if (!best) throw new Error('no cue');
  const cues = await openTopic('Cues');
  const likely = `${Math.round(best.low * 100)} to ${Math.round(best.high * 100)} %`;
  // the chart opens on the cue that stands above
  const above = ((await cues.locator('.other-number').textContent()) ?? '').replace(' better', '');
  await says(cues.getByRole('status'), `better on ${above}`);
  await cues.getByRole('group', { name: /arrow keys/ }).press('Home');
  await says(cues.getByRole('status'), `better on ${best.uses.worked} of ${best.uses.used}`, likely);
  await cues.getByRole('group', { name: /arrow keys/ }).press('ArrowDown');
  await says(
    cues.getByRole('status'),
    `better on ${puddle.cues.cues[1]?.uses.worked} of ${puddle.cues.cues[1]?.uses.used}`,
  );
  await floor.tap('As a table', cues);
  expect(await cellsOf(cues, 3)).toEqual(
    await Promise.all(
      puddle.cues.cues.map(async ({ uses }, n) => [
        (await cues.getByRole('rowheader').nth(n).textContent())?.trim() ?? '',
        String(uses.worked),
        String(uses.used),
      ]),
    ),
  );

  const { sessions } = puddle.landings;
  const landings = await openTopic('Landings');
  await floor.tap('By session', landings);
  await floor.tap('all', card().getByRole('group', { name: 'Charts and tables go back' }));
  const last = sessions.at(-1);
  await says(landings.getByRole('status'), `${short(last?.day ?? '')}: ${last?.landings} landings`);
  // a tap left of the first bar picks it, wherever on its height
  const first = await landings.locator('.picture-bar').first().getAttribute('x');
  await landings.getByRole('img').tap({ position: { x: Number(first) - 8, y: 40 } });
  await says(landings.getByRole('status'), `${short(sessions[0]?.day ?? '')}: ${sessions[0]?.landings} landings`);
  await floor.tap('As a table', landings);
  expect(await cellsOf(landings, 2)).toEqual(
    sessions.toReversed().map(({ day, landings: made }) => [short(day), String(made)]),
  );

  const came = await openTopic('How they came in');
  const sums = (puddle.cameIn?.days ?? []).flatMap(({ sum }) => sum ?? []);
  expect(await came.locator('circle.trend-point').count()).toBe(sums.length);
  await says(came.getByRole('status'), `${sums.at(-1)} of 25`);
  await floor.tap('As a table', came);
  const told = (await cellsOf(came, 2)).flatMap(([, sum]) => (Number(sum) > 0 ? [Number(sum)] : []));
  expect(told).toEqual(sums.toReversed());
});

test('nothing is cut, too small or unreadable, in both themes, at 390, 320 and at the desk in three columns', async () => {
  await open('Client Puddle');
  await looksWell(floor.page);
  const heads = card().locator('.other > details > summary');
  for (const one of await heads.all()) await floor.tapOn(one);
  await looksWell(floor.page);
  while ((await card().getByRole('button', { name: 'As a table' }).count()) > 0)
    await card().getByRole('button', { name: 'As a table' }).first().tap();
  await looksWell(floor.page);
  expect(await textOf(card())).not.toMatch(/NaN|undefined|Infinity|null/);

  // what is wider than the phone says where there is more of it, until its end is reached
  const cues = topic('Cues');
  await cues.getByText('More to the right ›').waitFor();
  await cues.getByRole('region', { name: /as a table/ }).evaluate((one) => one.scrollTo(one.scrollWidth, 0));
  await cues.getByText('‹ more to the left').waitFor();

  await floor.page.setViewportSize({ width: 1280, height: 900 });
  expect(await reachesPastTheSide(floor.page)).toEqual([]);
  const left = async (name: string) => (await floor.page.getByRole('region', { name }).boundingBox())?.x ?? 0;
  const columns = [await left('trends'), await left('other answers'), await left('body mass')];
  expect(columns[1]).toBeGreaterThan((columns[0] ?? 0) + 300);
  expect(columns[2]).toBeGreaterThan((columns[1] ?? 0) + 300);
});

test('on paper all is open, chart and table, on a light ground, and nothing is cut', async () => {
  await floor.page.emulateMedia({ colorScheme: 'dark' });
  await open('Client Gale');
  expect(await card().getByRole('img').count()).toBe(0);
  await floor.page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await floor.page.setViewportSize({ width: 700, height: 990 });
  await expect.poll(() => card().getByRole('img').count()).toBeGreaterThan(8);
  // each chart has its table, and what cannot be charted has it alone
  const uncharted = await card().getByText('Nothing of it can be charted').count();
  expect(await card().getByRole('table').count()).toBe((await card().getByRole('img').count()) + uncharted);
  expect(await card().getByRole('button').count()).toBe(0);
  const cut = await card().evaluate((one) =>
    [...one.querySelectorAll('table, svg, p')]
      .filter((part) => part.getBoundingClientRect().right > one.getBoundingClientRect().right + 0.5)
      .map((part) => part.textContent?.slice(0, 60)),
  );
  expect(cut).toEqual([]);
  const ground = await card().evaluate((one) => getComputedStyle(one).backgroundColor);
  expect(ground).toBe('rgb(255, 255, 255)');
  expect(await card().evaluate((one) => getComputedStyle(one).color)).toBe('rgb(29, 34, 38)');
  // the page itself grows, and does not scroll inside
  const height = await main().evaluate((one) => [one.clientHeight, one.scrollHeight] as const);
  expect(height[0]).toBeGreaterThanOrEqual(height[1] - 1);
  await floor.page.emulateMedia({ media: 'screen' });
  await expect.poll(() => card().getByRole('img').count()).toBe(0);
});
