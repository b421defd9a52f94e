import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { firstLoad, isStale, sizedFiles, sums, table } from '../../src/cli/sizes';

const chunks = {
  'index.html': { file: 'a.js', imports: ['_b'], dynamicImports: ['desk'] },
  _b: { file: 'b.js', imports: ['_c'] },
  _c: { file: 'c.js', imports: ['_b'] },
  desk: { file: 'desk.js', imports: ['_d'] },
  _d: { file: 'd.js' },
};

let dist: string;
beforeEach(() => {
  dist = mkdtempSync(join(tmpdir(), 'cuewright-sizes-'));
});
afterEach(() => rmSync(dist, { recursive: true }));

describe('the first load', () => {
  test('follows static imports alone, through a ring and only once', () => {
    expect([...firstLoad(chunks)]).toEqual(['a.js', 'b.js', 'c.js']);
  });
  test('is a bug when the build names a script it does not list', () => {
    expect(() => firstLoad({ 'index.html': { file: 'a.js', imports: ['_b'] } })).toThrow('the build lists no _b');
  });
});

describe('a build', () => {
  const kept = ['a.js', 'b.js', 'c.js', 'desk.js', 'index.html'];
  const write = (files: readonly string[]) => {
    mkdirSync(join(dist, '.vite'));
    writeFileSync(join(dist, '.vite/manifest.json'), JSON.stringify(chunks));
    writeFileSync(join(dist, '.vite/precache.json'), JSON.stringify(files.map((url) => ({ url, revision: null }))));
    for (const [n, file] of files.entries()) writeFileSync(join(dist, file), 'row\n'.repeat(100 * (n + 1)));
  };

  test('sums the scripts of the first load, and everything kept', () => {
    write(kept);
    const gz = kept.map((_, n) => gzipSync('row\n'.repeat(100 * (n + 1)), { level: 9 }).length);
    const sum = (sizes: number[]) => sizes.reduce((a, b) => a + b);
    const files = sizedFiles(dist);
    expect(sums(files)).toEqual({ floorJsGz: sum(gz.slice(0, 3)), precacheGz: sum(gz) });
    expect(
      table(files)
        .split('\n')
        .filter((line) => line.endsWith('first load')),
    ).toHaveLength(3);
  });
  test('that would not start without a network is a bug', () => {
    write(kept.slice(1));
    expect(() => sizedFiles(dist)).toThrow('the service worker does not keep a.js');
  });
});

test('a build is stale when missing, or older than a file deep in a source folder', () => {
  const [built, folder] = [join(dist, 'sw.js'), join(dist, 'src')];
  mkdirSync(join(folder, 'ui'), { recursive: true });
  writeFileSync(join(folder, 'ui/page.ts'), '');
  expect(isStale(built, [folder])).toBe(true);
  writeFileSync(built, '');
  const later = (path: string, seconds: number) => utimesSync(path, seconds, seconds);
  const now = Date.now() / 1000;
  later(built, now + 10);
  expect(isStale(built, [folder])).toBe(false);
  later(join(folder, 'ui/page.ts'), now + 20);
  expect(isStale(built, [folder])).toBe(true);
});
