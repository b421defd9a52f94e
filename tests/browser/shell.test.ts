import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { launchChromium, phone } from '../tools/chromium';
import { type Served, serveApp } from '../tools/serve';

let browser: Browser;
let folder: string;
let served: Served;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cuewright-shell-'));
  cpSync(process.env['CUEWRIGHT_DIST'] ?? join(import.meta.dirname, '../../dist'), folder, { recursive: true });
  served = await serveApp({ folder });
  context = await browser.newContext(phone);
  page = await context.newPage();
  complaints = [];
  page.on('console', (message) => {
    if (/content security policy/i.test(message.text())) complaints.push(message.text());
  });
  context.on('request', (request) => {
    if (!request.url().startsWith(served.url) && !/^(data|blob):/.test(request.url())) complaints.push(request.url());
  });
});
afterEach(async () => {
  await context.close();
  await served.stop();
  rmSync(folder, { recursive: true });
});

test('the page obeys its own content security policy and asks nobody else for anything', async () => {
  const response = await page.goto(served.url);
  expect(response?.headers()['cache-control']).toBe('no-cache');
  await page.waitForLoadState('networkidle');
  expect(complaints).toEqual([]);
});

test('after one visit every address opens with the server gone', async () => {
  await page.goto(served.url);
  await workerIsActive();
  await served.stop();
  await expect(fetch(served.url)).rejects.toThrow();
  for (const path of ['/', '/s/abc', '/c/abc/trend']) {
    await page.goto(served.url + path);
    expect(await page.locator('#app').count()).toBe(1);
  }
  expect(complaints).toEqual([]);
});

test('the worker keeps exactly the files of the build', async () => {
  await page.goto(served.url);
  await workerIsActive();
  const kept = await page.evaluate(async () => {
    const names = await caches.keys();
    const all = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return all.flat().map(({ url }) => new URL(url).pathname.slice(1));
  });
  const built = JSON.parse(readFileSync(join(folder, '.vite/precache.json'), 'utf8')) as { url: string }[];
  expect(kept.sort()).toEqual(built.map(({ url }) => url).sort());
});

test('a new version waits for the page to ask, and then takes over', async () => {
  await page.goto(served.url);
  await workerIsActive();
  appendFileSync(join(folder, 'sw.js'), '\n// a newer version');
  const state = () =>
    page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      return { waiting: registration.waiting !== null, active: registration.active?.state };
    });
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });
  await expect.poll(state).toEqual({ waiting: true, active: 'activated' });
  await page.waitForTimeout(500);
  expect((await state()).waiting).toBe(true);

  await page.evaluate(async () => {
    const changed = new Promise((resolve) => {
      navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true });
    });
    (await navigator.serviceWorker.ready).waiting?.postMessage({ type: 'SKIP_WAITING' });
    await changed;
  });
  await expect.poll(state).toEqual({ waiting: false, active: 'activated' });
});

/** Registers the worker as the app does (harmless when it has done so) and waits until it holds the page. */
function workerIsActive(): Promise<unknown> {
  return page.evaluate(async () => {
    await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
    await navigator.serviceWorker.ready;
    if (navigator.serviceWorker.controller !== null) return;
    await new Promise((resolve) => {
      navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true });
    });
  });
}
