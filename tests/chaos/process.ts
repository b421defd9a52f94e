import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { type Browser, type CDPSession, chromium, type Page } from 'playwright-core';
import { chromiumPath, phone, quiet } from '../tools/chromium';

/** A browser process of its own on a profile that stays on disk. */
export type Started = {
  /** When the process was started, ms. */
  readonly at: number;
  /** Connects to it, and gives its one page the measures of a phone. Rejects where it is killed first. */
  readonly connect: () => Promise<{ readonly page: Page; readonly cdp: CDPSession }>;
  /** Kills the whole process group with SIGKILL, and resolves when none of it is left. */
  readonly kill: () => Promise<void>;
};

/** Starts Chromium on a profile, as the leader of its own process group. */
export function startBrowser(profile: string): Started {
  const at = Date.now();
  const args = [
    '--headless',
    ...quiet,
    `--user-data-dir=${profile}`,
    '--remote-debugging-port=0',
    '--hide-crash-restore-bubble',
    '--touch-events=enabled',
    'about:blank',
  ];
  const child = spawn(chromiumPath(), args, { detached: true, stdio: ['ignore', 'ignore', 'pipe'] });
  let browser: Browser | undefined;
  let killed = false;
  return {
    at,
    async connect() {
      browser = await chromium.connectOverCDP(await endpoint(child));
      if (killed) throw new Error('killed');
      const context = browser.contexts()[0];
      const page = context?.pages()[0] ?? (await context?.newPage());
      if (!page || !context) throw new Error('the browser has no page');
      // compilers that keep the names of functions leave calls of a helper in those that are sent to the page
      await context.addInitScript('globalThis.__name ??= (fn) => fn');
      const cdp = await context.newCDPSession(page);
      const { width, height } = phone.viewport;
      await cdp.send('Emulation.setDeviceMetricsOverride', { width, height, deviceScaleFactor: 1, mobile: true });
      await cdp.send('Emulation.setTouchEmulationEnabled', { enabled: true });
      return { page, cdp };
    },
    async kill() {
      killed = true;
      if (child.pid === undefined) throw new Error('the browser did not start');
      process.kill(-child.pid, 'SIGKILL');
      while (groupIsAlive(child.pid)) await wait(5);
      await browser?.close().catch(() => undefined);
    },
  };
}

/** Resolves with the address that the browser writes once it listens; rejects where it ends before. */
function endpoint(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    child.stderr?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (found?.[1] !== undefined) resolve(found[1]);
    });
    child.once('exit', () => reject(new Error('the browser ended before it listened')));
  });
}

/** A process that ended and was not waited for still has a number: it counts as gone. */
function groupIsAlive(group: number): boolean {
  return readdirSync('/proc').some((name) => {
    if (!/^\d+$/.test(name)) return false;
    try {
      const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
      const [state, , pgrp] = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
      return Number(pgrp) === group && state !== 'Z' && state !== 'X';
    } catch {
      return false;
    }
  });
}
