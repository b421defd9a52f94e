import type { Locator, Page } from 'playwright-core';

/*
 * What a trainer does on the floor, by roles and names alone. Every tap is counted.
 */

export type NewClient = {
  readonly alias: string;
  readonly short?: string;
  readonly dayName?: string;
  readonly day?: string;
};
export type Name = string | RegExp;

export type Hands = {
  readonly page: Page;
  /** Taps since the last `count`. */
  readonly count: () => number;
  readonly tap: (name: Name, inside?: Locator) => Promise<void>;
  readonly tapOn: (target: Locator) => Promise<void>;
  readonly type: (label: Name, text: string) => Promise<void>;
  readonly addClient: (client: NewClient) => Promise<void>;
  /** Starts a session from Today and takes a first exercise in hand. */
  readonly start: (short: string, exercise?: string) => Promise<void>;
  readonly choose: (exercise: string) => Promise<void>;
  /** Takes a part of the sentence in hand and opens it for typing: `load`, `reps of part 2`. */
  readonly typing: (field: string) => Promise<Locator>;
  /** Types texts into parts of the sentence: `{ load: '57,5', 'reps of part 2': '5' }`. */
  readonly say: (fields: Readonly<Record<string, string>>) => Promise<void>;
  readonly kind: (kind: string) => Promise<void>;
  /** Taps Log and waits until the line is saved. Returns the line. */
  readonly log: (button?: Name) => Promise<Locator>;
  readonly lines: () => Locator;
  readonly pad: () => Locator;
  readonly sheet: () => Locator;
};

/** Returns hands on a page. `exact` names match whole; the Log button is the one that names its act. */
export function handsOn(page: Page): Hands {
  let taps = 0;
  const tapOn = async (target: Locator): Promise<void> => {
    await target.tap();
    taps += 1;
  };
  const button = (name: Name, inside: Locator | Page = page): Locator =>
    inside.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name });
  const tap = (name: Name, inside?: Locator): Promise<void> => tapOn(button(name, inside));
  const type = (label: Name, text: string): Promise<void> =>
    page.getByLabel(label, typeof label === 'string' ? { exact: true } : {}).fill(text);
  const lines = (): Locator => page.getByRole('region', { name: 'record' }).getByRole('listitem');
  const pad = (): Locator => page.getByRole('region', { name: 'pad' });
  const sheet = (): Locator => page.getByRole('dialog');

  const typing = async (field: string): Promise<Locator> => {
    const sentence = pad().getByRole('group', { name: 'next set' });
    const typed = sentence.getByRole('textbox', { name: field, exact: true });
    // the first tap takes it in hand, the second types it
    while (!(await typed.isVisible())) {
      await tapOn(sentence.getByRole('button', { name: new RegExp(`^${field}: `) }));
    }
    return typed;
  };

  return {
    page,
    count: () => {
      const counted = taps;
      taps = 0;
      return counted;
    },
    tap,
    tapOn,
    type,
    lines,
    pad,
    sheet,
    async addClient({ alias, short, dayName, day }) {
      await tap('+ client');
      await type(/^Name; an alias/, alias);
      if (short !== undefined) await type('Short name for the tab', short);
      if (dayName !== undefined) await type(/^A day to work towards/, dayName);
      if (day !== undefined) await type('When', day);
      await tap('Add this client');
      await button('+ client').waitFor();
    },
    async start(short, exercise) {
      await tap(`Start ${short}`);
      if (exercise === undefined) return;
      await tap('Choose an exercise');
      await tap(exercise, sheet());
      await button(/^Log /, pad()).last().waitFor();
    },
    async choose(exercise) {
      await tap('+ exercise');
      await tap(exercise, sheet());
      await sheet().waitFor({ state: 'detached' });
    },
    typing,
    async say(fields) {
      for (const [field, text] of Object.entries(fields)) {
        const typed = await typing(field);
        await typed.fill(text);
        await typed.press('Enter');
      }
    },
    async kind(kind) {
      await tapOn(pad().getByRole('group', { name: 'next set' }).getByRole('button').last());
      const kinds = pad().getByRole('group', { name: 'kind of set' });
      await kinds.waitFor();
      // a back-off in hand leaves room for the nearest kinds only: the others are behind "working"
      if (!(await button(kind, kinds).isVisible())) await tap('working', kinds);
      await tap(kind, kinds);
    },
    async log(name = /^Log .* · /) {
      const before = await lines().count();
      await tap(name, pad());
      const line = lines().nth(before);
      await line.and(page.locator('[data-saved]')).waitFor();
      return line;
    },
  };
}
