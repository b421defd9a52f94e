import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { launchChromium } from '../tools/chromium';
import { type Hands, handsOn } from './hands';
import { openPhone, type Phone } from './harness';
import { says } from './said';

/* Today as it comes up, frame by frame: at no moment less than it knows, or other than what is so, and the last line in reach of the thumb. */

let browser: Browser;
let phone: Phone;
let floor: Hands;

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());
beforeEach(async () => {
  phone = await openPhone(browser, { at: '10:00' });
  floor = handsOn(phone.page);
});
afterEach(() => phone.close());

type Frame = { readonly lines: readonly string[]; readonly lastEnds: number; readonly height: number };

/** From the next start on every frame that differs from the one before is noted. */
const watchFrames = (): Promise<unknown> =>
  phone.context.addInitScript(() => {
    const frames: Frame[] = [];
    Object.assign(globalThis, { frames });
    const look = (): void => {
      const lines = [...document.querySelectorAll<HTMLElement>('.today-lines > ul > li')];
      const frame = {
        lines: lines.map((one) => one.textContent),
        lastEnds: lines.at(-1)?.getBoundingClientRect().bottom ?? 0,
        height: innerHeight,
      };
      const isDrawn = document.querySelector('main.today') !== null;
      if (isDrawn && JSON.stringify(frame) !== JSON.stringify(frames.at(-1))) frames.push(frame);
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });

/** Starts anew, waits until the app can act, and returns what was seen until then. */
async function seenAtStart(): Promise<readonly Frame[]> {
  floor = handsOn(await phone.relaunch('/'));
  await says(floor.page.getByRole('main'), 'saved on this phone');
  // the seat is taken, what is stored is read: the acts are there
  await floor.page.getByRole('button', { name: '+ client' }).waitFor();
  await floor.page.evaluate(() => new Promise((done) => setTimeout(done, 500)));
  return floor.page.evaluate(() => (globalThis as unknown as { readonly frames: readonly Frame[] }).frames);
}

const ofLine = (frames: readonly Frame[], alias: string): readonly string[] =>
  frames.map(({ lines }) => lines.find((one) => one.includes(alias)) ?? 'no line');

test('records of other days: no frame is empty or says that there was no session', async () => {
  for (const short of ['K', 'L', 'M', 'N', 'O', 'P']) {
    await floor.addClient({ alias: `Client ${short}` });
    await floor.start(short, 'Front squat');
    await floor.say({ load: '60', reps: '5' });
    await floor.log();
    await floor.tap('End');
    await floor.tap(`End Client ${short}’s session`, floor.sheet());
    floor = handsOn(await phone.relaunch('/'));
  }
  await phone.clock('2026-11-26 10:00');
  floor = handsOn(await phone.relaunch('/'));
  await says(floor.page.getByRole('main'), 'Last session 24 Nov');
  await watchFrames();
  const frames = await seenAtStart();
  expect(frames.length).toBeGreaterThan(0);
  for (const short of ['K', 'L', 'M', 'N', 'O', 'P'])
    for (const line of ofLine(frames, `Client ${short}`)) expect(line).toContain('Last session 24 Nov');
  for (const { lastEnds, height } of frames) expect(lastEnds).toBeLessThanOrEqual(height);
});

test('the demo, and a session that runs in it: the last line is whole on the screen, also when the lines grew since', async () => {
  const lastLine = () => floor.page.locator('.today-lines > ul > li').last();
  const isWhole = async (): Promise<boolean> => {
    const box = await lastLine().boundingBox();
    return box !== null && box.y + box.height <= (floor.page.viewportSize()?.height ?? 0);
  };
  await floor.tap('Load the demo');
  await says(floor.page.getByRole('main'), 'The usual', 'Client Sleet');
  await expect.poll(isWhole).toBe(true);
  await floor.tap('Start Gale · Heavy from the floor');
  await floor.log(/^Log /);
  await floor.page.goBack();
  await says(lastLine(), 'Client Gale', 'Resume Gale');
  await expect.poll(isWhole).toBe(true);
  await watchFrames();
  const frames = await seenAtStart();
  expect(ofLine(frames, 'Client Gale').every((line) => line.includes('Resume Gale'))).toBe(true);
  expect(ofLine(frames, 'Client Puddle').every((line) => line.includes('The usual'))).toBe(true);
  expect(await isWhole()).toBe(true);
});
