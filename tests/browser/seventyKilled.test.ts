import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { says, textOf } from './said';
import { type Floor, nextSet, oneStory, openFloor, recordOn, tabsOn, touchUp } from './seventyHands';
import { openedFloor, SCENES } from './seventyScenes';

/*
 * The same floor, killed and opened again at ten points of its story. A seed chooses them and how each reopens, from the home screen or at the
 * very address; it is printed, and `CUEWRIGHT_SEED` plays it again.
 */

const POINTS = 10;
const seed = Number(process.env['CUEWRIGHT_SEED'] ?? Date.now() % 1_000_000);
const random = numbersFrom(seed);
const chosen = new Set(
  SCENES.map((_, index) => ({ index, by: random() }))
    .sort((a, b) => a.by - b.by)
    .slice(0, POINTS)
    .map(({ index }) => index),
);
console.info(
  `seed ${seed}: killed at ${[...chosen]
    .sort((a, b) => a - b)
    .map((index) => SCENES[index]?.what)
    .join('; ')}`,
);

let browser: Browser;
let floor: Floor;

beforeAll(async () => {
  browser = await launchChromium();
  floor = await openFloor(browser, '10:00');
  await openedFloor(floor);
});
afterAll(async () => {
  await floor.close();
  await browser.close();
});
oneStory();

SCENES.forEach(({ what, at, play, short, types, own }, index) => {
  const isKilled = chosen.has(index);
  test(`${at} ${what}${isKilled ? ', killed there' : ''}`, async () => {
    await floor.at(at);
    const said = await play(floor);
    await says(floor.phone.page.locator('body'), ...said);
    if (!isKilled) return;
    const typed = types ? await nextSet(floor.hands).getByRole('textbox').inputValue() : undefined;
    const before = await settled(floor);
    const stored = await rowsOf(floor);
    expect(stored.length).toBeGreaterThan(4);

    const isHome = !own && random() < 0.5;
    await floor.kill(isHome ? '/' : before.path);
    if (isHome) await floor.hands.tap(`Resume ${short}`);
    const next = typed === undefined ? before.next : `${typed.replace(',', '.')} kg × 5 working`;
    await expect.poll(() => seen(floor), { timeout: 8000 }).toEqual({ ...before, next });
    await says(floor.phone.page.locator('body'), ...said);
    expect(await rowsOf(floor)).toEqual(stored);
  });
});

/** What the screen says: where it is, what is in hand, every clock, and what is open over it. */
async function seen({ phone, hands }: Floor) {
  const { page } = phone;
  return {
    path: new URL(page.url()).pathname,
    title: await textOf(page.getByRole('heading', { level: 1 })),
    record: await textOf(recordOn(page)),
    next: await textOf(nextSet(hands)),
    seenOfLast: await textOf(touchUp(hands)),
    acts: await textOf(hands.pad().getByRole('button', { name: /^Log / })),
    said: await textOf(hands.pad().getByRole('alert')),
    tabs: await textOf(tabsOn(page)),
    clocks: await textOf(page.getByRole('timer')),
    head: await textOf(page.getByRole('main').locator('header')),
    sheet: await textOf(hands.sheet()),
    // chosen is said by the state of a button, not by its text
    chosen: await textOf(page.getByRole('button', { pressed: true }).and(page.getByRole('dialog').getByRole('button'))),
  };
}

/** What the screen says once its clocks have come to the time that was told. */
async function settled(at: Floor): ReturnType<typeof seen> {
  const first = await seen(at);
  await at.phone.page.waitForTimeout(1100);
  const second = await seen(at);
  return JSON.stringify(first) === JSON.stringify(second) ? second : settled(at);
}

/** What every row holds, whoever asks and in whatever order the file has them. */
async function rowsOf({ phone }: Floor): Promise<readonly string[]> {
  return (await phone.stored()).rows.map((row) => JSON.stringify(row)).sort();
}

/** Returns numbers from 0 to 1 that a seed determines (a linear congruential generator; Numerical Recipes' constants). */
function numbersFrom(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
