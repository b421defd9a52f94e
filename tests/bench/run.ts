import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { argv } from 'node:process';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumPath, phone, quiet } from '../tools/chromium';
import { serveApp } from '../tools/serve';
import { engineGoals } from './engine';
import { begin, measure } from './floor';
import { probe } from './probe';
import { type Run, report, table } from './report';

/*
 * Measures the goals of the Floor in a real browser on a profile on disk: `npm run bench`, or with `-- --taps 100 --json FILE`. Everything is a
 * ratio of things that were measured in turn in one run; the milliseconds belong to the machine. It takes about ten minutes.
 */

const PLAIN = `<!doctype html><title>plain</title><button id="log">Log</button><button id="put">Put</button><ol></ol><script>
  document.querySelector('#log').onclick = () => {
    const line = document.createElement('li');
    line.dataset.set = '';
    line.textContent = '57.5 kg × 5';
    document.querySelector('ol').append(line);
  };
  document.querySelector('#put').onclick = () => benchProbe.bare();
</script>`;

const n = Number(option('--taps') ?? 300);
const json = option('--json');
const sizes = JSON.parse(npm('sizes')) as { floorJsGz: number; precacheGz: number };
const runs = await measured();
const goals = [...report(runs, sizes), ...engineGoals()];
console.log(table(goals, runs));
if (json !== undefined) writeFileSync(json, `${JSON.stringify({ goals, sizes, runs }, null, 2)}\n`);

function option(name: string): string | undefined {
  const at = argv.indexOf(name);
  return at === -1 ? undefined : argv[at + 1];
}

/** Builds the app too, where it is older than its source. */
function npm(script: string): string {
  const { stdout, status } = spawnSync('npm', ['run', '-s', script], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`npm run ${script} failed`);
  return stdout;
}

async function measured(): Promise<readonly Run[]> {
  const folder = mkdtempSync(join(tmpdir(), 'cuewright-bench-'));
  const served = await serveApp();
  const context = await chromium.launchPersistentContext(folder, {
    ...phone,
    executablePath: chromiumPath(),
    args: [...quiet],
  });
  try {
    return await measureIn(context, served.url);
  } finally {
    await context.close();
    await served.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measureIn(context: BrowserContext, url: string): Promise<readonly Run[]> {
  // compilers that keep the names of functions leave calls of a helper in those that are sent to the page
  await context.addInitScript('globalThis.__name ??= (fn) => fn');
  await context.addInitScript(probe);
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(url);
  await begin(page);
  const plain = await plainPage(context, url);
  const cdp = await context.newCDPSession(page);
  const plainCdp = await context.newCDPSession(plain);
  const runs: Run[] = [];
  for (const rate of [1, 4]) {
    console.error(`measuring at ${rate} ×, n = ${n}`);
    runs.push({ rate, ...(await measure(page, cdp, plain, plainCdp, rate, n)) });
  }
  return runs;
}

/** A page in the same browser that appends one line at a tap, and does nothing else. */
async function plainPage(context: BrowserContext, url: string): Promise<Page> {
  // a window of its own: of two tabs in one, the hidden one draws no frames
  const first = context.pages()[0];
  if (!first) throw new Error('the browser has no page');
  const cdp = await context.newCDPSession(first);
  const [plain] = await Promise.all([
    context.waitForEvent('page'),
    cdp.send('Target.createTarget', { url: 'about:blank', newWindow: true }),
  ]);
  const address = url.replace('127.0.0.1', 'localhost');
  await plain.route(`${address}/**`, (route) => route.fulfill({ contentType: 'text/html', body: PLAIN }));
  await plain.goto(`${address}/plain`);
  // opens its database
  await plain.evaluate('benchProbe.bare()');
  return plain;
}
