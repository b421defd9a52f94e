import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { chromiumPath, quiet } from '../tools/chromium';

/** A browser process of its own on a profile that stays on disk. */
export type Started = {
  readonly child: ChildProcess;
  /** Kills the whole process group with SIGKILL, and resolves when none of it is left. */
  readonly kill: () => Promise<void>;
};

/** Starts Chromium on a profile, as the leader of its own process group, to be spoken with over a port or over pipes. */
export function startBrowser(profile: string, over: 'port' | 'pipe'): Started {
  const args = [
    '--headless',
    ...quiet,
    `--user-data-dir=${profile}`,
    over === 'port' ? '--remote-debugging-port=0' : '--remote-debugging-pipe',
    '--hide-crash-restore-bubble',
    '--touch-events=enabled',
    'about:blank',
  ];
  const child = spawn(chromiumPath(), args, {
    detached: true,
    stdio: ['ignore', 'ignore', over === 'port' ? 'pipe' : 'ignore', 'pipe', 'pipe'],
    // what a killed browser leaves behind goes with its profile
    env: { ...process.env, TMPDIR: profile },
  });
  return {
    child,
    async kill() {
      if (child.pid === undefined) throw new Error('the browser did not start');
      process.kill(-child.pid, 'SIGKILL');
      while (groupIsAlive(child.pid)) await wait(5);
    },
  };
}

/** Resolves with the address that the browser writes once it listens on its port; rejects where it ends before. */
export function endpoint({ child }: Started): Promise<string> {
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
