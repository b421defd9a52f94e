import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { makePackage } from '../../src/cli/package';
import { launchChromium, phone } from '../tools/chromium';
import { type Host, openHost } from '../tools/host';
import { handsOn } from './hands';
import { says } from './said';
import { isKept } from './updateRig';

/* The packaged folder, served with exactly the headers it names. */

let browser: Browser;
let parent: string;
let host: Host;
const folder = (): string => join(parent, 'package');
const dist = process.env['CUEWRIGHT_DIST'] ?? join(import.meta.dirname, '../../dist');

beforeAll(async () => {
  parent = mkdtempSync(join(tmpdir(), 'cuewright-package-'));
  makePackage(dist, folder());
  host = await openHost(folder());
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  await host.stop();
  rmSync(parent, { recursive: true });
});

test('pages and the worker are asked for anew each time, files with a hash in their name never', async () => {
  const header = async (path: string, name: string) => (await fetch(host.url + path)).headers.get(name);
  for (const path of ['/', '/index.html', '/sw.js', '/version.json', '/guard.js', '/repair.js', '/s/abc/def'])
    expect(await header(path, 'cache-control'), path).toBe('no-cache');
  const script = /src="(\/assets\/[^"]+\.js)"/.exec(readFileSync(join(folder(), 'index.html'), 'utf8'))?.[1] ?? '';
  expect(await header(script, 'cache-control')).toBe('public, max-age=31536000, immutable');
  for (const path of ['/', script]) {
    expect(await header(path, 'x-content-type-options')).toBe('nosniff');
    expect(await header(path, 'referrer-policy')).toBe('no-referrer');
    expect(await header(path, 'cross-origin-opener-policy')).toBe('same-origin');
    expect(await header(path, 'permissions-policy')).toContain('camera=()');
    const rules = (await header(path, 'content-security-policy'))?.split('; ') ?? [];
    expect(rules).toEqual(
      expect.arrayContaining(["default-src 'none'", "script-src 'self'", "frame-ancestors 'none'"]),
    );
  }
});

test('a first set, a deep address and a start with the host gone, under those headers and with no complaint', async () => {
  const context = await browser.newContext({ ...phone, deviceScaleFactor: 1 });
  context.setDefaultTimeout(8000);
  const complaints: string[] = [];
  context.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  context.on('weberror', (error) => complaints.push(String(error.error())));
  const page = await context.newPage();
  // a first visit by a deep address: the host answers it with the page
  await page.goto(`${host.url}/library`);
  await says(page.getByRole('main'), 'Library');
  const floor = handsOn(page);
  await floor.tap('‹ Back');
  await floor.addClient({ alias: 'Client K' });
  await floor.start('K', 'Front squat');
  await floor.say({ load: '60', reps: '5' });
  await floor.log();
  await isKept(page);
  expect(complaints).toEqual([]);
  await host.stop();
  await page.reload();
  await says(floor.lines(), '60 kg × 5');
  await context.close();
});

test('it may be framed by nobody; without the header it could be', async () => {
  const framed = async (served: string): Promise<string> => {
    const other = await openHost(served);
    const page = await browser.newPage();
    await page.setContent(`<iframe src="${other.url}/"></iframe>`);
    await expect.poll(() => page.frames()[1]?.url()).not.toBe('');
    const url = page.frames()[1]?.url() ?? '';
    await page.close();
    await other.stop();
    return url.replace(other.url, '');
  };
  expect(await framed(dist)).toBe('/');
  expect(await framed(folder())).toMatch(/^chrome-error:/);
});

test('a host that knows only 404.html finds the same page there, and nothing of the build’s own lists goes out', () => {
  const read = (name: string) => readFileSync(join(folder(), name), 'utf8');
  expect(read('404.html')).toBe(read('index.html'));
  expect(read('_redirects')).toBe('/* /index.html 200\n');
  expect(existsSync(join(folder(), '.vite'))).toBe(false);
  // every file the worker keeps is in the package, and nothing it keeps was made by packaging
  expect(read('sw.js')).not.toContain('404.html');
  for (const name of ['Caddyfile.example', 'nginx.conf.example'])
    expect(read(name)).toContain("frame-ancestors 'none'");
});
