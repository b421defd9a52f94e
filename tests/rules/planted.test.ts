import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Finding, miniTree } from './mini-tree';

const clean = {
  'src/domain/reps.ts': "import * as z from 'zod/mini';\n\nexport const reps = z.number();\n",
  'src/domain/day.ts':
    "import { addDays } from 'date-fns';\n\nexport const next = (day: string): Date => addDays(new Date(day), 1);\n",
  'src/merge/row.ts': "import { reps } from '../domain/reps';\n\nexport const row = { reps };\n",
  'src/log/open.ts':
    "import { openDB } from 'idb';\nimport { row } from '../merge/row';\n\nexport const open = () => openDB(String(row), 1);\n",
  'fixtures/demo/cast.ts': "import { row } from '../../src/merge/row';\n\nexport const cast = [row];\n",
  'src/sync/seal.ts':
    "import { sha256 } from '@noble/hashes/sha2.js';\nimport { row } from '../merge/row';\n\nexport const seal = [sha256, row, crypto.subtle];\n",
  'src/worker/desk.ts':
    "import { row } from '../merge/row';\n\nexport const desk = (): unknown => [new Worker('a'), row, setTimeout(() => {}, 1)];\n",
  'src/ui/page.tsx':
    "import type { open } from '../log/open';\n\nexport const Page = (props: { open: typeof open }) => <p>{String(props.open)}</p>;\n",
  'src/main.ts': "import { open } from './log/open';\n\nexport const now = () => [open, new Date(), Math.random()];\n",
  'src/cli/judge.ts':
    "import { argv } from 'node:process';\nimport { row } from '../merge/row';\n\nexport const judge = [argv, row];\n",
  'sw/worker.ts': "import { precache } from 'workbox-precaching';\n\nprecache([]);\n",
  'tests/reps.test.ts': "import { row } from '../src/merge/row';\n\nexport const seen = row;\n",
};

const lintFaults: readonly [what: string, rule: string, files: Record<string, string>][] = [
  ['merge imports log', 'noRestrictedImports', { 'src/merge/a.ts': "export { open as a } from '../log/open';\n" }],
  ['merge imports a package', 'noRestrictedImports', { 'src/merge/b.ts': "import 'idb';\n" }],
  ['domain imports merge', 'noRestrictedImports', { 'src/domain/a.ts': "import '../merge/row';\n" }],
  ['date-fns outside day.ts', 'noRestrictedImports', { 'src/domain/b.ts': "import 'date-fns';\n" }],
  ['the whole zod in domain', 'noRestrictedImports', { 'src/domain/c.ts': "import 'zod';\n" }],
  ['ui imports idb', 'noRestrictedImports', { 'src/ui/a.ts': "import 'idb';\n" }],
  ['ui imports hub', 'noRestrictedImports', { 'src/ui/floor/a.ts': "import '../../hub/routes';\n" }],
  ['analysis imports ui', 'noRestrictedImports', { 'src/analysis/stats/a.ts': "import '../../ui/page';\n" }],
  ['log imports ui', 'noRestrictedImports', { 'src/log/a.ts': "import '../ui/page';\n" }],
  ['log imports zod', 'noRestrictedImports', { 'src/log/b.ts': "import 'zod/mini';\n" }],
  ['the demo imports log', 'noRestrictedImports', { 'fixtures/demo/a.ts': "import '../../src/log/open';\n" }],
  ['the demo reads the clock', 'noRestrictedGlobals', { 'fixtures/demo/b.ts': 'export const a = Date.now();\n' }],
  [
    'the demo draws a random number',
    'noJsRestrictedProperties',
    { 'fixtures/demo/c.ts': 'export const a = Math.random();\n' },
  ],
  ['ui imports the demo', 'noRestrictedImports', { 'src/ui/f.ts': "import '../../fixtures/demo/cast';\n" }],
  ['sync imports log', 'noRestrictedImports', { 'src/sync/a.ts': "import '../log/open';\n" }],
  ['sync imports ui', 'noRestrictedImports', { 'src/sync/b.ts': "import '../ui/page';\n" }],
  [
    'sync imports a package that is not its own',
    'noRestrictedImports',
    { 'src/sync/c.ts': "import 'age-encryption';\n" },
  ],
  ['sync opens a database', 'noRestrictedGlobals', { 'src/sync/d.ts': "indexedDB.open('log');\n" }],
  ['sync reads the clock', 'noRestrictedGlobals', { 'src/sync/e.ts': 'export const a = Date.now();\n' }],
  ['sync draws a random number', 'noJsRestrictedProperties', { 'src/sync/f.ts': 'export const a = Math.random();\n' }],
  ['the analysis worker imports the log', 'noRestrictedImports', { 'src/worker/a.ts': "import '../log/open';\n" }],
  ['the analysis worker imports ui', 'noRestrictedImports', { 'src/worker/b.ts': "import '../ui/page';\n" }],
  ['the analysis worker imports a package', 'noRestrictedImports', { 'src/worker/c.ts': "import 'idb';\n" }],
  ['the analysis worker opens a database', 'noRestrictedGlobals', { 'src/worker/d.ts': "indexedDB.open('log');\n" }],
  [
    'the analysis worker reads the clock',
    'noRestrictedGlobals',
    { 'src/worker/e.ts': 'export const a = Date.now();\n' },
  ],
  [
    'the analysis worker draws a random number',
    'noJsRestrictedProperties',
    { 'src/worker/f.ts': 'export const a = Math.random();\n' },
  ],
  ['the worker imports the log', 'noRestrictedImports', { 'sw/a.ts': "import '../src/log/open';\n" }],
  ['merge reads the clock', 'noRestrictedGlobals', { 'src/merge/c.ts': 'export const a = new Date();\n' }],
  ['merge sets a timer', 'noRestrictedGlobals', { 'src/merge/d.ts': 'setTimeout(() => {}, 1);\n' }],
  ['analysis touches localStorage', 'noRestrictedGlobals', { 'src/analysis/a.ts': 'localStorage.clear();\n' }],
  ['plan reaches the clock around a corner', 'noRestrictedGlobals', { 'src/plan/a.ts': 'globalThis.close();\n' }],
  ['ui reads the clock', 'noRestrictedGlobals', { 'src/ui/b.ts': 'export const a = Date.now();\n' }],
  ['ui opens a database', 'noRestrictedGlobals', { 'src/ui/c.ts': "indexedDB.open('log');\n" }],
  ['log reads the clock', 'noRestrictedGlobals', { 'src/log/c.ts': 'export const a = Date.now();\n' }],
  ['the service worker opens the log', 'noRestrictedGlobals', { 'sw/b.ts': "indexedDB.open('log');\n" }],
  [
    'merge draws a random number',
    'noJsRestrictedProperties',
    { 'src/merge/e.ts': 'export const a = Math.random();\n' },
  ],
  [
    'markup from text in a part',
    'noDangerouslySetInnerHtml',
    { 'src/ui/e.tsx': "export const E = () => <p dangerouslySetInnerHTML={{ __html: 'a' }} />;\n" },
  ],
  [
    'a cycle of two files',
    'noImportCycles',
    {
      'src/plan/b.ts': "import { c } from './c';\n\nexport const b = () => c;\n",
      'src/plan/c.ts': "import { b } from './b';\n\nexport const c = () => b;\n",
    },
  ],
  ['a barrel', 'noReExportAll', { 'src/plan/d.ts': "export * from './b';\n" }],
  ['a barrel by name', 'noBarrelFile', { 'src/plan/e.ts': "export { b } from './b';\nexport { c } from './c';\n" }],
  ['a default export', 'noDefaultExport', { 'src/plan/f.ts': 'export default 1;\n' }],
  ['an any', 'noExplicitAny', { 'src/plan/g.ts': 'export const a: any = 1;\n' }],
  ['a promise nobody waits for', 'noFloatingPromises', { 'src/plan/h.ts': 'async function a() {}\na();\n' }],
  [
    'a file over 300 lines',
    'noExcessiveLinesPerFile',
    { 'src/plan/i.ts': `${Array.from({ length: 301 }, (_, n) => `export const a${n} = ${n};`).join('\n')}\n` },
  ],
];

const typeFaults: readonly [what: string, error: string, files: Record<string, string>][] = [
  ['domain imports merge', 'TS6307', { 'src/domain/a.ts': "export { row as a } from '../merge/row';\n" }],
  ['merge imports log', 'TS6307', { 'src/merge/a.ts': "export { open as a } from '../log/open';\n" }],
  ['merge sets a timer', 'TS2304', { 'src/merge/b.ts': 'setTimeout(() => {}, 1);\n' }],
  ['the demo imports log', 'TS6307', { 'fixtures/demo/d.ts': "export { open as a } from '../../src/log/open';\n" }],
  ['sync imports log', 'TS6307', { 'src/sync/g.ts': "export { open as a } from '../log/open';\n" }],
  ['the analysis worker imports log', 'TS6307', { 'src/worker/g.ts': "export { open as a } from '../log/open';\n" }],
  ['the analysis worker imports sync', 'TS6307', { 'src/worker/h.ts': "export { seal as a } from '../sync/seal';\n" }],
  ['domain prints', 'TS2584', { 'src/domain/b.ts': 'console.log(1);\n' }],
  ['ui names a Node module', 'TS2591', { 'src/ui/a.ts': "export { argv as a } from 'node:process';\n" }],
  ['the service worker has no document', 'TS2584', { 'sw/a.ts': 'document.close();\n' }],
  ['a place in a list may be empty', 'TS2322', { 'src/domain/c.ts': 'export const a: number = [1][0];\n' }],
];

describe('the clean mini-tree', () => {
  const tree = miniTree(clean);
  afterAll(tree.remove);
  test('passes the linter', async () => expect(await tree.lint()).toEqual([]));
  test('passes the compiler', async () => expect(await tree.typeCheck()).toEqual([]));
});

planted('the linter finds', lintFaults, (tree) => tree.lint());
planted('the compiler finds', typeFaults, (tree) => tree.typeCheck());

/** All faults lie in one tree, so that the tool runs once; each must be found in its own file, by its own rule. */
function planted(
  name: string,
  faults: typeof lintFaults,
  look: (tree: ReturnType<typeof miniTree>) => Promise<Finding[]>,
) {
  describe(name, () => {
    const tree = miniTree(Object.assign({}, clean, ...faults.map(([, , files]) => files)));
    let findings: Finding[];
    beforeAll(async () => {
      findings = await look(tree);
    });
    afterAll(tree.remove);
    test.each(faults)('%s: %s', (_, rule, files) => {
      for (const file of Object.keys(files)) expect(findings).toContainEqual({ file, rule });
    });
    test('and nothing in a clean file', () => {
      expect(findings.filter(({ file }) => file in clean)).toEqual([]);
    });
  });
}
