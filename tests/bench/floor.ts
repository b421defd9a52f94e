import type { CDPSession, Locator, Page } from 'playwright-core';
import type { Probe, Tap } from './probe';

/** A session is measured from this many sets on, and until it holds as many as the second number: about 25 in the middle. */
const FROM = 15;
const TO = 35;
/** The second copy of a row is written a quarter of a second after a save: it is out of the way when the next thing is measured. */
const REST_MS = 450;

/** Everything measured at one speed of the processor. */
export type Samples = {
  readonly taps: readonly Tap[];
  /** The same tap on a plain page that only appends a line, and on one that only puts one small row. */
  readonly plain: readonly Tap[];
  readonly plainPut: readonly Tap[];
  readonly bare: readonly number[];
  readonly floor: readonly number[];
  /** Frames of 50 ms and more, of logging and of touching up. */
  readonly longFrames: readonly number[];
  readonly touchUps: number;
};

type Probed = { benchProbe: Probe };

/** Adds a client and begins the first session; its first set is typed. */
export async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: '+ client' }).tap();
  await page.getByLabel('Name; an alias').fill('Client K');
  await page.getByRole('button', { name: 'Add this client' }).tap();
  await newSession(page);
  await page.getByRole('button', { name: /^load/ }).tap();
  await page.getByRole('textbox', { name: 'load' }).fill('57.5');
  await page.getByRole('button', { name: /^reps/ }).tap();
  await page.getByRole('button', { name: '5', exact: true }).tap();
}

/** Measures `n` taps on Log and, between them one by one, what they are held against. */
export async function measure(
  page: Page,
  cdp: CDPSession,
  plain: Page,
  plainCdp: CDPSession,
  rate: number,
  n: number,
): Promise<Samples> {
  const taps: Tap[] = [];
  const plainTaps: Tap[] = [];
  const plainPuts: Tap[] = [];
  const bare: number[] = [];
  const floor: number[] = [];
  const longFrames: number[] = [];
  let touchUps = 0;
  const slow = async (by: number) => {
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: by });
    await plainCdp.send('Emulation.setCPUThrottlingRate', { rate: by });
  };
  while (taps.length < n) {
    // sets that are not measured go at full speed
    await slow(1);
    await nextSession(page);
    while ((await lines(page)) < FROM) await logAndTouch(page);
    await slow(rate);
    // the first of each is a warming-up
    for (const warmUp of [true, ...Array<false>(TO - FROM).fill(false)]) {
      if (taps.length === n) break;
      await page.waitForTimeout(REST_MS);
      await page.evaluate(() => (globalThis as unknown as Probed).benchProbe.longFrames());
      const tap = await timedTap(page, page.getByRole('button', { name: /^Log (?!,)/ }), LOG);
      await page.waitForTimeout(REST_MS);
      longFrames.push(...(await page.evaluate(() => (globalThis as unknown as Probed).benchProbe.longFrames())));
      const bareMs = await page.evaluate(() => (globalThis as unknown as Probed).benchProbe.bare());
      const floorMs = await page.evaluate(() => (globalThis as unknown as Probed).benchProbe.floor());
      const plainTap = await timedTap(plain, plain.getByRole('button', { name: 'Log' }), LINE);
      const plainPut = await timedTap(plain, plain.getByRole('button', { name: 'Put' }), PUT);
      await page.evaluate(() => (globalThis as unknown as Probed).benchProbe.longFrames());
      await touch(page);
      touchUps += 2;
      longFrames.push(...(await page.evaluate(() => (globalThis as unknown as Probed).benchProbe.longFrames())));
      if (warmUp) continue;
      taps.push(tap);
      plainTaps.push(plainTap);
      plainPuts.push(plainPut);
      bare.push(bareMs);
      floor.push(floorMs);
    }
  }
  await slow(1);
  return { taps, plain: plainTaps, plainPut: plainPuts, bare, floor, longFrames, touchUps };
}

/** What must be known of a tap that logs, that only adds a line, and that only puts a row. */
const LOG = ['ran', 'complete', 'saved', 'painted'] as const;
const LINE = ['ran', 'painted'] as const;
const PUT = ['ran', 'complete'] as const;

async function timedTap(page: Page, button: Locator, wanted: readonly (keyof Tap)[]): Promise<Tap> {
  await page.evaluate((all) => (globalThis as unknown as Probed).benchProbe.arm(all), wanted);
  await button.tap();
  return page.evaluate(() => (globalThis as unknown as Probed).benchProbe.taken());
}

const lines = (page: Page): Promise<number> => page.locator('[data-set]').count();

async function logAndTouch(page: Page): Promise<void> {
  await timedTap(page, page.getByRole('button', { name: /^Log (?!,)/ }), LOG);
  await touch(page);
}

/** Notes effort and form of the last set, as a trainer does in the rest. */
async function touch(page: Page): Promise<void> {
  const last = page.getByRole('region', { name: /^Last set/ });
  await last.getByRole('button', { name: '2 left', exact: true }).tap();
  await last.getByRole('button', { name: 'clean' }).tap();
  await page.locator('[data-set]:not([data-saved])').first().waitFor({ state: 'detached' });
}

/** Begins a session: by the usual, once there is one, else with an exercise that is chosen. */
async function newSession(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Start K' }).tap();
  const choose = page.getByRole('button', { name: 'Choose an exercise' });
  const logging = page.getByRole('button', { name: /^Log (?!,)/ });
  await choose.or(logging).first().waitFor();
  if (await choose.isVisible()) {
    await choose.tap();
    await page.getByRole('button', { name: 'Front squat' }).tap();
  }
  await logging.waitFor();
}

/** Ends a session that is long enough and begins the next; one that was just begun is gone on with. */
async function nextSession(page: Page): Promise<void> {
  if ((await lines(page)) === 0) return;
  await page.getByRole('button', { name: 'End', exact: true }).tap();
  await page.getByRole('button', { name: /^End .+session$/ }).tap();
  await newSession(page);
  // the pad takes its numbers from the session before, once its series is read
  await page.getByRole('button', { name: /^load: 57/ }).waitFor();
}
