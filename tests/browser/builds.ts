import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');

/** Builds the app into a folder, called `mark`; another mark gives other names to nearly all files. */
export function buildApp(folder: string, mark: string): void {
  execFileSync(
    join(root, 'node_modules/.bin/vite'),
    ['build', '--logLevel', 'error', '--outDir', folder, '--emptyOutDir'],
    {
      cwd: root,
      env: { ...process.env, NODE_ENV: 'production', CUEWRIGHT_BUILD: mark },
      stdio: ['ignore', 'ignore', 'inherit'],
    },
  );
}

/** Makes a build one that was published with a bug: its first script throws before anything is drawn. */
export function breakBuild(folder: string): void {
  const chunks = JSON.parse(readFileSync(join(folder, '.vite/manifest.json'), 'utf8')) as Record<
    string,
    { file: string; imports?: string[] }
  >;
  // what the entry imports runs before it
  const entry = chunks['index.html']!;
  const path = join(folder, (chunks[entry.imports?.[0] ?? ''] ?? entry).file);
  const hashed = (): string => `sha256-${createHash('sha256').update(readFileSync(path)).digest('base64')}`;
  const before = hashed();
  writeFileSync(path, `throw new Error('a version with a bug');${readFileSync(path, 'utf8')}`);
  const worker = join(folder, 'sw.js');
  writeFileSync(worker, readFileSync(worker, 'utf8').replace(before, hashed()));
}
