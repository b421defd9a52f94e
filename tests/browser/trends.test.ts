import { beforeEach, expect, test } from 'vitest';
import { analysed } from './analysed';
import { eachPhone } from './eachPhone';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';
import { looksWell } from './measure';
import { openDemo } from './openDemo';
import { says, saysNot, textOf } from './said';

/* What the analysis says, on every screen that says it, with the network cut: Today, the client's page, the chart and its table, the sheet. */

let phone: Phone;
let floor: Hands;

eachPhone('10:00', (made, hands) => {
  phone = made;
  floor = hands;
});

const TODAY = '2026-11-24';
const main = () => floor.page.getByRole('main');
const trends = () => floor.page.getByRole('region', { name: 'trends' });

beforeEach(() => openDemo(floor));

type Band = { readonly mean: number; readonly lo80: number; readonly hi80: number };
type Analysed = {
  readonly clients: readonly {
    readonly alias: string;
    readonly findings: readonly { readonly type: string; readonly exercise: string; readonly since?: string }[];
    readonly series: readonly {
      readonly exercise: string;
      readonly points: readonly { readonly day: string; readonly measured?: number; readonly band?: Band }[];
    }[];
  }[];
};

const short = (day: string): string =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' }).format(Date.parse(day));
const halves = (value: number): string => String(Math.round(value * 2) / 2);

/** The chart's points as values, read off its axis by where they stand: left to right. */
const pointsRead = (): Promise<readonly number[]> =>
  floor.page.evaluate(() => {
    const chart = document.querySelector('.trend-chart');
    const lines = [...(chart?.querySelectorAll('line.trend-grid') ?? [])].map((line) => ({
      y: Number(line.getAttribute('y1')),
      value: Number(line.parentElement?.querySelector('text')?.textContent),
    }));
    const [one, other] = [lines[0], lines.at(-1)];
    if (!one || !other) return [];
    const perPixel = (other.value - one.value) / (other.y - one.y);
    return [...(chart?.querySelectorAll('circle.trend-point') ?? [])].map(
      (dot) => one.value + (Number(dot.getAttribute('cy')) - one.y) * perPixel,
    );
  });

test('a lift that stalls says so on Today, on the client’s page, in the sheet; chart, table and analyse agree', async () => {
  await says(main(), 'Client Gale', 'Front squat: flat since');
  const analysis = await analysed<Analysed>(phone, floor, TODAY);
  floor = analysis.floor;
  const { clients } = analysis.told;
  const gale = clients.find(({ alias }) => alias === 'Client Gale');
  const found = gale?.findings.find(({ type }) => type === 'stalled');
  expect(found).toMatchObject({ exercise: 'lib-front-squat' });
  const flat = `lat since ${short(found?.since ?? '')}`;
  await says(main(), `Front squat: f${flat}`, 'Sure: about', 'Behind by', 'for 95 kg × 5 by 20 Dec', 'judge again on');
  // of what is ahead it says how likely the goal is
  await says(main(), 'Pull-up: ahead by', 'to reach it.');

  await floor.tap('Client Gale');
  await says(
    trends(),
    'Are we on time?',
    'Front squat',
    'Behind by',
    'today needs',
    'How each exercise goes',
    `F${flat}`,
  );
  await floor.tapOn(trends().getByRole('button', { name: 'Chart, Front squat' }).first());
  await says(main(), `F${flat}`, 'could be done with nothing left', 'to reach 95 kg × 5 by 20 Dec');
  await floor.page.getByRole('img').first().waitFor();
  const read = await pointsRead();
  const points = gale?.series.find(({ exercise }) => exercise === 'lib-front-squat')?.points ?? [];
  expect(points.length).toBeGreaterThan(15);
  expect(read).toHaveLength(points.length);
  // a tenth of a pixel is as fine as is drawn
  for (const [n, { measured = 0 }] of points.entries()) expect(read[n]).toBeCloseTo(measured, 0);

  await floor.tap('As a table');
  const rows = floor.page.getByRole('table', { name: 'Front squat' }).getByRole('row');
  const cells = await Promise.all((await rows.all()).slice(1).map((row) => row.getByRole('cell').allInnerTexts()));
  expect(cells).toHaveLength(points.length);
  for (const [n, { measured = 0, band }] of [...points].reverse().entries()) {
    expect(cells[n]?.[1]).toBe(halves(measured));
    expect(cells[n]?.[2]).toBe(band ? `${halves(band.lo80)} to ${halves(band.hi80)}` : '');
  }
  await says(main(), 'What lies ahead', 'Forecast', 'Needed');

  floor = handsOn(await phone.relaunch('/'));
  await floor.tap('Start Gale · Heavy from the floor');
  await floor.page.waitForURL(/\/s\//);
  const session = new URL(floor.page.url()).pathname;
  floor = handsOn(await phone.relaunch(`${session}/trend/lib-front-squat`));
  await says(floor.sheet(), 'Front squat', `F${flat}`, 'Change reps, load or rest; judge again on');
  await says(floor.sheet(), 'Behind by', 'How sure', 'What could be done');
});

test('a target is set with taps, refused where it cannot be, there after a restart, removed and brought back', async () => {
  await floor.tap('Client Fog');
  await says(trends(), 'No target yet: open an exercise’s chart to set one.');
  await floor.tap('Chart, Back squat', trends());
  const targets = () => floor.page.getByRole('region', { name: 'targets' });
  await floor.tap('Set a target', targets());
  const start = Number(await floor.page.getByLabel('Start, kg').inputValue());
  // what the log tells of the day: the number stands in the sentence above too
  await says(main(), `About ${start} kg × 6 could be done with nothing left`);
  await floor.tap('Set this target', targets());
  await says(targets(), 'goal must say something');
  await floor.type('Goal, kg', '900');
  await floor.tap('Set this target', targets());
  await says(targets(), 'goal must be between 0.5 and 600 kg');
  await floor.type('Goal, kg', '130');
  await floor.page.getByLabel('By', { exact: true }).fill(TODAY);
  await floor.tap('Set this target', targets());
  await says(targets(), 'the day must lie after today');
  await floor.page.getByLabel('By', { exact: true }).fill('2027-01-19');
  await floor.tap('Set this target', targets());
  await says(targets(), 'Target: 130 kg × 6 by 19 Jan 2027');
  // set today, it starts where it stands
  // today it is where it should be, and the goal is hardly in reach: both are said, the worse first
  await says(
    main(),
    'Hardly in reach at this pace: 130 kg × 6 by 19 Jan',
    'today needs',
    'to reach 130 kg × 6 by 19 Jan',
  );

  floor = handsOn(await phone.relaunch(new URL(floor.page.url()).pathname));
  await says(targets(), 'Target: 130 kg × 6 by 19 Jan 2027');
  await floor.tap('remove the target 130 kg × 6 by 19 Jan 2027', targets());
  await saysNot(targets(), 'Target: 130');
  await floor.tapOn(targets().getByRole('button', { name: /^Undo/ }));
  await says(targets(), 'Target: 130 kg × 6 by 19 Jan 2027');
});

test('nothing is cut, too small or unreadable: the page of a trend with both sides and its form, and the client’s page', async () => {
  await floor.tap('Client Puddle');
  await says(trends(), 'Left: ', '40° by', 'Right: ');
  await looksWell(floor.page);
  await floor.tapOn(trends().getByRole('button', { name: 'Chart, Ankle bend, knee to wall' }).first());
  await floor.tapOn(floor.page.getByText('How sure'));
  await floor.tap('Set a target');
  await looksWell(floor.page);
  await floor.tap('As a table');
  await looksWell(floor.page);
  expect(await textOf(main())).not.toMatch(/NaN|undefined|Infinity|null/);
});
