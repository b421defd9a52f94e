import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import { phone } from '../tools/chromium';
import { type Host, openHost } from '../tools/host';
import { breakBuild, buildApp } from './builds';
import { rig } from './rig';

export type BuildName = 'old' | 'new' | 'broken';

/** Three builds: one that phones have, a newer one that shares nearly no file with it, and one that does not start. */
export type Builds = { readonly folder: (name: BuildName) => string; readonly remove: () => void };

/** Returns the three builds, freshly made. */
export function makeBuilds(): Builds {
  const parent = mkdtempSync(join(tmpdir(), 'cuewright-builds-'));
  const folder = (name: BuildName): string => join(parent, name);
  for (const name of ['old', 'new', 'broken'] as const) buildApp(folder(name), `test · ${name}`);
  breakBuild(folder('broken'));
  return { folder, remove: () => rmSync(parent, { recursive: true }) };
}

/** A phone that loaded the old build from a host, and keeps it. */
export type OnHost = {
  readonly context: BrowserContext;
  readonly host: Host;
  readonly page: Page;
  readonly tab: (path?: string) => Promise<Page>;
  /** Which build a page runs, by the script it was loaded with. */
  readonly build: (page: Page) => Promise<string>;
  /** Puts another build in place of the one on the host. */
  readonly publish: (name: BuildName) => void;
  /** Has the browser look for a newer worker, as it does by itself from time to time. */
  readonly look: (page: Page) => Promise<void>;
  readonly worker: (page: Page) => Promise<{ waiting: boolean; installing: boolean }>;
  /** Publishes a build and waits until it is whole on the phone, and waits. */
  readonly bring: (name: BuildName) => Promise<void>;
  /** Has whatever waits take over, whoever asked for it. */
  readonly takeOver: (page: Page) => Promise<void>;
  readonly close: () => Promise<void>;
};

/** Opens a phone on Today of the old build, with its worker in charge (unless workers are blocked). */
export async function openOnHost(
  browser: Browser,
  builds: Builds,
  options: BrowserContextOptions = {},
): Promise<OnHost> {
  const host = await openHost(builds.folder('old'));
  const context = await browser.newContext({
    ...phone,
    deviceScaleFactor: 1,
    locale: 'en-GB',
    timezoneId: 'Europe/Vienna',
    ...options,
  });
  context.setDefaultTimeout(8_000);
  await context.addInitScript({ content: 'globalThis.__name ??= (fn) => fn;' });
  await context.addInitScript(rig, null);
  const tab = async (path = '/'): Promise<Page> => {
    const page = await context.newPage();
    await page.goto(host.url + path);
    return page;
  };
  const page = await tab();
  if (options.serviceWorkers !== 'block') await isKept(page);
  const worker = (on: Page) =>
    on.evaluate(async () => {
      const found = await navigator.serviceWorker.getRegistration();
      return { waiting: Boolean(found?.waiting), installing: Boolean(found?.installing) };
    });
  const publish = (name: BuildName): void => host.swap(builds.folder(name));
  const look = (on: Page): Promise<void> =>
    on.evaluate(async () => {
      await (await navigator.serviceWorker.ready).update().catch(() => undefined);
    });
  return {
    context,
    host,
    page,
    tab,
    publish,
    look,
    worker,
    async build(on) {
      const script = await on.locator('script[type=module]').getAttribute('src');
      const names = ['old', 'new', 'broken'] as const;
      return names.find((name) => entryOf(builds.folder(name)) === script) ?? 'none of them';
    },
    async bring(name) {
      publish(name);
      await look(page);
      await expect.poll(() => worker(page), { timeout: 10_000 }).toEqual({ waiting: true, installing: false });
    },
    takeOver: (on) =>
      on.evaluate(async () => {
        const changed = new Promise((resolve) => {
          navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true });
        });
        (await navigator.serviceWorker.ready).waiting?.postMessage({ type: 'SKIP_WAITING' });
        await changed;
      }),
    async close() {
      await context.close();
      await host.stop().catch(() => undefined);
    },
  };
}

/** Waits until the worker has the whole app and answers for the page. */
export function isKept(page: Page): Promise<unknown> {
  return page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}

function entryOf(folder: string): string {
  return /<script type="module"[^>]* src="([^"]+)"/.exec(readFileSync(join(folder, 'index.html'), 'utf8'))?.[1] ?? '';
}

/** Counts the times a page was loaded from now on. */
export function countLoads(page: Page): () => number {
  let loads = 0;
  page.on('load', () => {
    loads += 1;
  });
  return () => loads;
}
