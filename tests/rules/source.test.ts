import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { broken } from './source';

const root = join(import.meta.dirname, '../..');

describe('planted faults', () => {
  test.each([
    ['src/ui/page.tsx', "node.innerHTML = 'a';", 'makes markup from text'],
    ['sw/worker.ts', "self.indexedDB.open('log');", 'reaches a denied global around a corner'],
    ['src/domain/day.ts', 'const now = new Date();', 'reads the clock'],
    ['src/domain/day.ts', 'const now = Date.now();', 'reads the clock'],
    ['src/ui/page.tsx', "import { open } from '../log/open';", 'imports more than types from log or sync'],
    [
      'src/ui/floor/pad.tsx',
      "import {\n  type Log,\n} from '../../log/open';",
      'imports more than types from log or sync',
    ],
    ['src/ui/page.tsx', "const log = await import('../log/open');", 'imports more than types from log or sync'],
    ['src/ui/page.tsx', "import '../sync/round';", 'imports more than types from log or sync'],
    ['src/merge/row.ts', 'export function merge(a: Row): Row {', 'exports merge without a docblock'],
    ['src/plan/dose.ts', 'export const dose = (a: number) => a;', 'exports dose without a docblock'],
    ['src/ui/page.css', '\n'.repeat(301), 'is over 300 lines'],
  ])('%s: %s', (path, text, sentence) => expect(broken(path, text)).toEqual([sentence]));

  test.each([
    ['src/ui/page.tsx', "import type { Log } from '../log/open';\nimport { catalog } from './log/names';"],
    ['src/domain/day.ts', "// not new Date()\nconst day = new Date('2026-01-01');"],
    [
      'src/merge/row.ts',
      '/** The merged row. */\nexport function merge(a: Row): Row;\nexport function merge(a: Set): Set {',
    ],
    ['src/merge/row.ts', 'export const none = 0;\nexport const all = (1 + 1) * 2;\nfunction inner() {}'],
    ['src/log/open.ts', 'export function open() {}'],
  ])('none in %s: %s', (path, text) => expect(broken(path, text)).toEqual([]));
});

test('no file of the tree breaks a rule', () => {
  const paths = ['src', 'sw', 'fixtures/demo', 'tests'].flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' }).map((path) => join(room, path)),
  );
  const checked = paths.filter((path) => /\.(tsx?|css)$/.test(path));
  const found = checked.flatMap((path) =>
    broken(path, readFileSync(join(root, path), 'utf8')).map((it) => `${path} ${it}`),
  );
  expect(found).toEqual([]);
});

test('the top level holds only what the house allows', () => {
  const allowed =
    /^(README\.md|DEVELOPERS\.md|LICENSE|package\.json|package-lock\.json|tsconfig\.json|index\.html|vite\.config\.ts|biome\.json|\.gitignore|\.git|\.ci|src|sw|tests|fixtures|node_modules|dist|coverage)$/;
  expect(readdirSync(root).filter((name) => !allowed.test(name))).toEqual([]);
});

test('the lock file names no registry', () => {
  const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
  expect(lock).not.toMatch(/"resolved"|https?:\/\/[^"]*\bregistry\b/);
});
