import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { Chance } from './chance';
import { drive } from './driver';
import { type Fault, find, judgeAgainst, judgeLines, judgeStore } from './judge';
import { createLedger, type Ledger } from './ledger';
import { openOverPipe, phonePage } from './phonePage';
import { pipeOf } from './pipe';
import { startBrowser } from './process';
import { BINDING, type DriverOptions, type Report, type Taste } from './reports';
import { type Disk, holdsSecond, readDisk, readHere, sessionsOf } from './store';

export const LOG = 'cuewright';

/** When the browser is killed: while its process starts, while the app starts, just after a tap, as soon as a set of this life shows as saved, or at any time. */
export type Moment = 'process-start' | 'app-start' | 'mid-write' | 'first-saved' | 'any';

export type Life = {
  readonly moment: Moment;
  readonly chance: Chance;
  readonly taste: Taste;
  /** How long it is left alone after its first line, ms; `any` alone. */
  readonly spared?: number;
  /** Runs in the page before the app: a planted bug. */
  readonly plant?: (() => void) | undefined;
};

/** Runs the app on a profile until it is killed, and returns what it claimed until then. */
export async function live(
  profile: string,
  url: string,
  { moment, chance, taste, spared = 100, plant }: Life,
): Promise<Ledger> {
  const ledger = createLedger();
  const browser = startBrowser(profile, 'pipe');
  let killing: Promise<void> | undefined;
  const killAfter = (ms: number) => {
    killing ??= wait(ms).then(browser.kill);
    return killing;
  };
  if (moment === 'process-start') void killAfter(chance() * 1500);
  const tapOfDeath = 1 + Math.floor(chance() * 60);
  let taps = 0;
  const unsaved = new Set<string>();
  let lineSeen: () => void = () => undefined;
  const aLine = new Promise<void>((resolve) => {
    lineSeen = resolve;
  });
  const hear = (text: string, answer: (script: string) => void): void => {
    const { id, report } = JSON.parse(text) as { id: number; report: Report };
    ledger.take(report);
    if (id > 0) answer(`cuewrightHeard(${id})`);
    if (report.type === 'line') lineSeen();
    // what stood there at the start shows as saved from the first
    if (report.type === 'line' && !report.saved) unsaved.add(report.set);
    if (moment === 'first-saved' && report.type === 'line' && report.saved && unsaved.has(report.set))
      void killAfter(0);
    if (!report.type.startsWith('will-')) return;
    taps += 1;
    if (moment === 'mid-write' && taps >= tapOfDeath) void killAfter(chance() * 15);
  };
  const options: DriverOptions = { seed: Math.floor(chance() * 2 ** 32), taste };
  // compilers that keep the names of functions leave calls of a helper in those that are sent as text
  const scripts = [
    'globalThis.__name ??= (fn) => fn',
    ...(plant ? [`(${plant})()`] : []),
    `(${drive})(${JSON.stringify(options)})`,
  ];
  const opening = openOverPipe(pipeOf(browser), url, scripts, BINDING, hear).then(() => {
    if (moment === 'app-start') void killAfter(chance() * 600);
  });
  // the kill may come at any point of this
  opening.catch(() => undefined);
  if (moment === 'any') {
    await Promise.race([aLine, wait(10_000)]);
    await killAfter(spared + chance() * 2400);
  }
  // a page that never comes to the tap it waits for is killed all the same
  else await Promise.race([until(() => killing), wait(10_000)]);
  await killAfter(0);
  return ledger;
}

async function until(get: () => unknown): Promise<void> {
  while (!get()) await wait(2);
}

export type Verdict = {
  readonly faults: readonly Fault[];
  readonly disk: Disk;
  /** The browser had thrown its database away: what is judged is what the app brought back. */
  readonly thrownAway: boolean;
};

/** Opens the profile again, lets the app compare its two copies (unless a planted bug is what would be mended by that), and judges what is there: on the disk, past the app, then as the app shows it. */
export async function judge(
  profile: string,
  url: string,
  ledger: Ledger,
  before: Disk | undefined,
  compared: boolean,
): Promise<Verdict> {
  const browser = startBrowser(profile, 'port');
  try {
    const { page, cdp } = await phonePage(browser);
    const stored = await readDisk(page, cdp, url, LOG);
    // a torn end can swallow single records too: what counts is what is there once the app has compared its two copies
    const disk = (!compared && stored) || (await readBroughtBack(page, url));
    const sessions = sessionsOf(disk);
    const claims = ledger.claims();
    const found = claims.flatMap((claim) => find(sessions, claim).map(({ at }) => at.slice(0, at.lastIndexOf('/'))));
    const places = new Set([...claims.map((claim) => claim.place), ...found]);
    const lines = new Map<string, string>();
    const clock: Fault[] = [];
    for (const place of places) {
      if (!sessions.has(place)) continue;
      await page.goto(`${url}/s/${place}`);
      await page.locator(`[data-session="${place}"]`).waitFor();
      for (const [set, text] of await page.evaluate(readLines)) lines.set(`${place}/${set}`, text);
      clock.push(...(await judgeClock(page, place, sessions, disk)));
    }
    const against = [...judgeStore(ledger, sessions, disk), ...judgeLines(ledger, sessions, lines)];
    // an undo that was under way is done or not done: one set may differ, in the store and on the screen
    const excused = ledger.undoing() ? new Set([against[0]?.detail.split(/[ :]/)[0]]) : new Set();
    const faults = against.filter(({ type, detail }) => type === 'torn' || !excused.has(detail.split(/[ :]/)[0]));
    return { disk, thrownAway: !stored, faults: [...faults, ...clock, ...(before ? judgeAgainst(before, disk) : [])] };
  } finally {
    await browser.kill();
  }
}

/** Time for the app to begin to compare, and time after which what it has not brought back is lost, ms. */
const COMPARING = { least: 1500, most: 20_000 };

/** Lets the app bring back what only its second copy has, and reads the stores then. */
async function readBroughtBack(page: Page, url: string): Promise<Disk> {
  await page.goto(url);
  const end = performance.now() + COMPARING.most;
  await wait(COMPARING.least);
  for (;;) {
    const disk = await readHere(page, LOG);
    if (disk && (holdsSecond(disk) || performance.now() > end)) return disk;
    if (performance.now() > end) throw new Error('the app has no database');
    await wait(250);
  }
}

/** Runs in the page. */
function readLines(): [string, string][] {
  return [...document.querySelectorAll('[data-set]')].map((line) => [
    line.getAttribute('data-set') ?? '',
    [...(line.firstElementChild?.children ?? [])]
      .slice(1)
      .map((part) => part.textContent)
      .join(' | '),
  ]);
}

/** The clock goes on from the last set's own instant; a second is given for the reading. */
async function judgeClock(
  page: Page,
  place: string,
  sessions: ReturnType<typeof sessionsOf>,
  disk: Disk,
): Promise<readonly Fault[]> {
  const session = sessions.get(place)?.session;
  const last = session?.sets.at(-1);
  const exercise = SHIPPED_EXERCISES.find((one) => one.id === last?.exercise);
  // sides apart rest only once both are done, and a rest can be made longer: those clocks are the unit tests' to judge
  if (!last?.at || !exercise || exercise.sides === 'each' || disk.drafts.has(`rest/${place}`)) return [];
  const left = last.noRest ? 0 : Math.ceil((last.at.at + exercise.rest * 1000 - Date.now()) / 1000);
  const timer = page.getByRole('timer');
  const shown = (await timer.count()) > 0 ? ((await timer.textContent()) ?? '') : '0:00';
  const [minutes, seconds] = shown.split(':').map(Number);
  const off = (minutes ?? 0) * 60 + (seconds ?? 0) - Math.max(0, left);
  return Math.abs(off) <= 2 ? [] : [{ type: 'clock', detail: `${place} shows ${shown}, not ${left} s` }];
}
