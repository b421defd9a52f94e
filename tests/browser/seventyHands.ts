import type { Browser, Locator, Page } from 'playwright-core';
import { beforeEach } from 'vitest';
import type { SetRecord } from '../../src/domain/set';
import { type Hands, handsOn, type Name } from './hands';
import { openPhone, type Phone } from './harness';

/** A floor that a long story happens on: one phone, the hands on the page it shows now, and where to look. */
export type Floor = {
  readonly phone: Phone;
  readonly hands: Hands;
  /** The clock, as real time would move it between taps: `10:04`, or with a day. */
  readonly at: (time: string) => Promise<void>;
  /** Kills the app and opens it again, at Today or at a path. */
  readonly kill: (path?: string) => Promise<void>;
  readonly close: () => Promise<void>;
};

/** Returns a floor on a new phone, offline, the server gone. */
export async function openFloor(browser: Browser, at: string): Promise<Floor> {
  const phone = await openPhone(browser, { at });
  let hands = handsOn(phone.page);
  return {
    phone,
    get hands() {
      return hands;
    },
    at: (time) => phone.clock(time),
    async kill(path = '/') {
      hands = handsOn(await phone.relaunch(path));
    },
    close: () => phone.close(),
  };
}

/** Leaves out every chapter behind one that failed: what follows a lost chapter tells nothing. */
export function oneStory(): void {
  let lost = false;
  beforeEach(({ skip, onTestFailed }) => {
    skip(lost);
    onTestFailed(() => {
      lost = true;
    });
  });
}

export const recordOn = (page: Page): Locator => page.getByRole('region', { name: 'record' });
/** The card of an exercise or block in the record. */
export const cardOn = (page: Page, name: string): Locator => recordOn(page).getByRole('region', { name, exact: true });
export const linesOf = (page: Page, exercise: string): Locator => cardOn(page, exercise).getByRole('listitem');
export const nextSet = (hands: Hands): Locator => hands.pad().getByRole('group', { name: 'next set' });
/** What was seen of the last set, while the rest runs. */
export const touchUp = (hands: Hands): Locator => hands.pad().getByRole('region', { name: /^Last set/ });
export const restLeft = (page: Page): Locator => page.getByRole('timer', { name: 'rest left' });
export const tabsOn = (page: Page): Locator => page.getByRole('navigation', { name: 'clients' });
/** A cell of a block's grid: `A1`, round 2. */
export const cellOn = (page: Page, station: string, round: number): Locator =>
  recordOn(page).getByRole('button', { name: new RegExp(`^${station} round ${round}: `) });

/** Takes another client in hand. */
export const toClient = (hands: Hands, short: string): Promise<void> =>
  hands.tap(new RegExp(`^${short} `), tabsOn(hands.page));

/** Taps Log and waits until the new line of this exercise is saved. Returns the line. */
export async function logTo(hands: Hands, exercise: string, button: Name = /^Log .* · /): Promise<Locator> {
  const lines = linesOf(hands.page, exercise);
  const before = await lines.count();
  await hands.tap(button, hands.pad());
  const line = lines.nth(before);
  await line.and(hands.page.locator('[data-saved]')).waitFor();
  return line;
}

/** Opens More and taps what is wanted there. */
export async function more(hands: Hands, entry: Name): Promise<void> {
  await hands.tap('More');
  await hands.tap(entry, hands.sheet());
}

/** Holds something until the act of holding has come. */
export async function hold(target: Locator): Promise<void> {
  await target.click({ delay: 700 });
}

export type NewBlock = {
  readonly kind: string;
  readonly fields: Readonly<Record<string, string>>;
  /** Stations in their order, each with what is planned of it, as parts of the sentence. */
  readonly stations: readonly (readonly [exercise: string, plan: Readonly<Record<string, string>>])[];
};

/** Adds a block through More: its kind, its numbers, its stations, and what is planned of each. */
export async function addBlock(hands: Hands, { kind, fields, stations }: NewBlock): Promise<void> {
  const { page } = hands;
  await more(hands, 'Add a block: rounds, list, clock');
  await hands.tap(kind, hands.sheet());
  for (const [label, text] of Object.entries(fields)) await hands.type(label, text);
  for (const [exercise] of stations) {
    await hands.type('Find a station', exercise);
    await hands.tap(`+ ${exercise}`, hands.sheet());
  }
  await hands.tap('Add the block');
  await page.getByRole('dialog', { name: 'Change the block' }).waitFor();
  for (const [index, [exercise, plan]] of stations.entries()) {
    if (Object.keys(plan).length === 0) continue;
    await hands.tap(`plan ${index + 1} ${exercise}`);
    const sentence = hands.sheet().getByRole('group', { name: 'next set' });
    for (const [field, text] of Object.entries(plan)) {
      const typed = sentence.getByRole('textbox', { name: field, exact: true });
      while (!(await typed.isVisible())) await hands.tapOn(sentence.getByRole('button', { name: `${field}: ` }));
      await typed.fill(text);
      await typed.press('Enter');
    }
    await hands.tap('Keep this plan');
  }
  await hands.tap('Close', hands.sheet());
  await hands.sheet().waitFor({ state: 'detached' });
}

/** Returns those sets that are of an exercise. */
export const held = (sets: readonly SetRecord[], exercise: string): readonly SetRecord[] =>
  sets.filter((set) => set.exercise === exercise);
