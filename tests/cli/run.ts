import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';

/* The commands as they are run, each in a process of its own. */

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export type Ran = { readonly code: number; readonly out: string; readonly err: string };

const started = (file: string, args: readonly string[]): Promise<Ran> =>
  new Promise((done) => {
    execFile(file, args, { cwd: ROOT, maxBuffer: 64 * 1024 * 1024 }, (error, out, err) => {
      const code = typeof error?.code === 'number' ? error.code : error ? -1 : 0;
      done({ code, out, err });
    });
  });

/** Returns what a command of src/cli wrote, and its exit code. */
export const run = (command: string, ...args: readonly string[]): Promise<Ran> =>
  started(process.execPath, ['--import', 'tsx', join('src/cli', `${command}.ts`), ...args]);

/** Returns the same of the command as people type it. */
export const npmRun = (command: string, ...args: readonly string[]): Promise<Ran> =>
  started('npm', ['run', '-s', command, '--', ...args]);

/** Returns a way to write files into a folder that goes after the tests of a file: by name and text, the path comes back. */
export function folder(): (name: string, text: string) => string {
  const path = mkdtempSync(join(tmpdir(), 'cuewright-cli-'));
  afterAll(() => rmSync(path, { recursive: true }));
  return (name, text) => {
    const file = join(path, name);
    writeFileSync(file, text);
    return file;
  };
}
