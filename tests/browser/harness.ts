import { readFileSync } from 'node:fs';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { phone } from '../tools/chromium';
import { serveApp } from '../tools/serve';
import { type RigName, rig } from './rig';
import { type Stored, storedFrom } from './stored';

/** A phone with the app on it: loaded once, then the network cut and the server gone. */
export type Phone = {
  readonly context: BrowserContext;
  /** The tab in use. */
  readonly page: Page;
  readonly url: string;
  /** Opens one more tab at a path, without the network. */
  readonly tab: (path?: string) => Promise<Page>;
  /** Closes every tab and opens the app anew, as after a killed app. */
  readonly relaunch: (path?: string) => Promise<Page>;
  /** Tells the page's rig something, or takes it back (`null`). */
  readonly tell: (name: RigName, value: string | number | null) => Promise<void>;
  /** Sets the clock, which then stands: `14:05`, `14:05:30`, or with a day `2026-11-25 10:00`. Vienna's winter time. */
  readonly clock: (time: string) => Promise<void>;
  /** Saves the Backup page's file from a tab of its own, and reads it. */
  readonly stored: () => Promise<Stored>;
  /** Closes the phone. Fails where a page complained: an error, a refusal of the content policy, a request to anyone else. */
  readonly close: () => Promise<void>;
};

export type PhoneOptions = BrowserContextOptions & {
  /** The time the clock stands at. Without it the clock runs. */
  readonly at?: string;
};

const DAY = '2026-11-24';
/** Another build to try than the one `npm test` makes. */
const folder = process.env['CUEWRIGHT_DIST'];

/** Returns a phone whose service worker holds the app, offline, on Today. */
export async function openPhone(browser: Browser, { at, ...options }: PhoneOptions = {}): Promise<Phone> {
  const served = await serveApp(folder === undefined ? {} : { folder });
  const context = await browser.newContext({
    ...phone,
    deviceScaleFactor: 1,
    locale: 'en-GB',
    timezoneId: 'Europe/Vienna',
    ...options,
  });
  context.setDefaultTimeout(8_000);
  // a runner may keep functions' names by a helper that the page does not have
  await context.addInitScript({ content: 'globalThis.__name ??= (fn) => fn;' });
  await context.addInitScript(rig, at === undefined ? null : timeOf(at));
  const complaints: string[] = [];
  context.on('request', (request) => {
    if (!request.url().startsWith(served.url) && !/^(data|blob):/.test(request.url())) complaints.push(request.url());
  });
  context.on('weberror', (error) => complaints.push(String(error.error())));
  context.on('console', (message) => {
    const { url } = message.location();
    // offline the browser itself asks in vain for a newer worker, and for the icon of the tab
    const itself = /ERR_INTERNET_DISCONNECTED|ERR_FAILED/.test(message.text()) && /\/(sw\.js|icon-192\.png)$/.test(url);
    if ((message.type() === 'error' || message.type() === 'warning') && !itself)
      complaints.push(`${message.text()} ${url}`);
  });

  let page = await context.newPage();
  await page.goto(served.url);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (navigator.serviceWorker.controller !== null) return;
    await new Promise((resolve) => {
      navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true });
    });
  });
  await context.setOffline(true);
  await served.stop();
  const tell = async (name: RigName, value: string | number | null): Promise<void> =>
    (context.pages().at(-1) ?? page).evaluate(
      ([key, text]) => (text === null ? localStorage.removeItem(key) : localStorage.setItem(key, text)),
      [`test.${name}`, value === null ? null : String(value)] as const,
    );
  const tab = async (path = '/'): Promise<Page> => {
    const opened = await context.newPage();
    await opened.goto(served.url + path);
    return opened;
  };
  return {
    context,
    get page() {
      return page;
    },
    url: served.url,
    tab,
    tell,
    clock: (time) => tell('now', timeOf(time)),
    async relaunch(path = '/') {
      await Promise.all(context.pages().map((one) => one.close()));
      page = await tab(path);
      return page;
    },
    async stored() {
      const other = await tab('/backup');
      try {
        return await storedOn(other);
      } finally {
        await other.close();
      }
    },
    async close() {
      await context.close();
      if (complaints.length > 0) throw new Error(`the page complained:\n${complaints.join('\n')}`);
    },
  };
}

function timeOf(time: string): number {
  const [day, hours] = time.includes(' ') ? time.split(' ') : [DAY, time];
  return Date.parse(`${day}T${hours}+01:00`);
}

/** Saves the file on a page that shows Backup, and reads it. */
export async function storedOn(page: Page): Promise<Stored> {
  await page.getByRole('button', { name: 'Prepare the file' }).tap();
  const save = page.getByRole('button', { name: 'Save the file' });
  await save.waitFor();
  const [download] = await Promise.all([page.waitForEvent('download'), save.tap()]);
  return storedFrom(readFileSync(await download.path(), 'utf8'));
}
