import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { argv, exit, stdout } from 'node:process';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

/** One file of the build; sizes in bytes, `gz` by zlib at level 9. */
export interface SizedFile {
  readonly file: string;
  readonly raw: number;
  readonly gz: number;
  /** Whether the first screen's script waits for it. */
  readonly floor: boolean;
}

type Chunks = Readonly<Record<string, { readonly file: string; readonly imports?: readonly string[] }>>;

/** The scripts that load before the first screen is drawn: the page's entry and what it imports statically, each once. */
export function firstLoad(chunks: Chunks): Set<string> {
  const seen = new Set<string>();
  const follow = (key: string) => {
    const chunk = chunks[key];
    if (chunk === undefined) throw new Error(`the build lists no ${key}`);
    if (seen.has(chunk.file)) return;
    seen.add(chunk.file);
    chunk.imports?.forEach(follow);
  };
  follow('index.html');
  return seen;
}

/** Every file that the service worker of the build in `dist` keeps, biggest first. Throws when there is no build. */
export function sizedFiles(dist: string): SizedFile[] {
  const read = (path: string) => readFileSync(join(dist, path));
  const floor = firstLoad(JSON.parse(read('.vite/manifest.json').toString()) as Chunks);
  const kept = JSON.parse(read('.vite/precache.json').toString()) as { url: string }[];
  const files = kept.map(({ url }) => {
    const bytes = read(url);
    return { file: url, raw: bytes.length, gz: gzipSync(bytes, { level: 9 }).length, floor: floor.has(url) };
  });
  const lost = [...floor].filter((file) => !files.some((it) => it.file === file));
  if (lost.length > 0) throw new Error(`the service worker does not keep ${lost.join(', ')}`);
  return files.sort((a, b) => b.gz - a.gz);
}

/** The two sums that have a budget, bytes of gz. */
export function sums(files: readonly SizedFile[]): { floorJsGz: number; precacheGz: number } {
  const total = (some: readonly SizedFile[]) => some.reduce((sum, { gz }) => sum + gz, 0);
  return { floorJsGz: total(files.filter(({ floor }) => floor)), precacheGz: total(files) };
}

/** Whether something under `sources` (files or folders) is younger than `built`, or `built` is missing. */
export function isStale(built: string, sources: readonly string[]): boolean {
  if (!existsSync(built)) return true;
  const time = statSync(built).mtimeMs;
  return sources.some((source) => {
    const inside = statSync(source).isDirectory() ? readdirSync(source, { recursive: true, encoding: 'utf8' }) : [];
    return [source, ...inside.map((path) => join(source, path))].some((path) => statSync(path).mtimeMs > time);
  });
}

/** The files as lines for a reader, the two sums last. */
export function table(files: readonly SizedFile[]): string {
  const width = Math.max(...files.map(({ file }) => file.length));
  const line = (file: string, raw: string, gz: string, note: string) =>
    `${file.padEnd(width)} ${raw.padStart(9)} ${gz.padStart(9)}  ${note}`.trimEnd();
  const { floorJsGz, precacheGz } = sums(files);
  return [
    line('file', 'raw', 'gz', ''),
    ...files.map((it) => line(it.file, String(it.raw), String(it.gz), it.floor ? 'first load' : '')),
    line('first-load scripts', '', String(floorJsGz), ''),
    line('kept for offline use', '', String(precacheGz), ''),
  ].join('\n');
}

function main(): void {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const dist = join(root, 'dist');
  const sources = ['src', 'sw', 'fixtures/demo', 'index.html', 'vite.config.ts', 'package-lock.json'].map((path) =>
    join(root, path),
  );
  if (isStale(join(dist, 'sw.js'), sources)) {
    const vite = join(root, 'node_modules/.bin/vite');
    const built = spawnSync(vite, ['build', '--logLevel', 'error'], {
      cwd: root,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    if (built.status !== 0) exit(1);
  }
  const files = sizedFiles(dist);
  stdout.write(`${argv.includes('--table') ? table(files) : JSON.stringify(sums(files))}\n`);
}

if (argv[1] === fileURLToPath(import.meta.url)) main();
