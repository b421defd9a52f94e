import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, realpathSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { preact } from '@preact/preset-vite';
import { build, type Plugin, type Rolldown } from 'vite';
import { defineConfig } from 'vitest/config';
import { getManifest } from 'workbox-build';
import { PAGE_HEADERS } from './src/cli/hostHeaders.ts';

const mark = buildMark();

export default defineConfig({
  plugins: [preact(), pageRulesOnlyWhenBuilt(), standingApart()],
  define: { BUILD_MARK: JSON.stringify(mark) },
  publicDir: 'src/public',
  build: {
    target: 'es2022',
    manifest: true,
    reportCompressedSize: false,
    // a part finds its own scripts: named in the first screen's, where there is no room, they would be there a little sooner, before all is kept
    modulePreload: {
      resolveDependencies: (_, files, { hostType }) =>
        hostType === 'html' ? files : files.filter((file) => file.endsWith('.css')),
    },
    // what the first screen loads, as one file: split by who else uses it, it would be a tenth larger
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: firstScreen, debugName: 'first screen' }] } } },
  },
  server: { host: '127.0.0.1', strictPort: false },
  // A page or worker taken from the browser's own cache could hold an update back for a day.
  preview: { host: '127.0.0.1', strictPort: false, headers: PAGE_HEADERS },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/{browser,rules,bench,chaos}/**', 'tests/ui/**/*.test.tsx'],
          // properties over random logs; a busy machine is not a fault of theirs
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: { name: 'dom', environment: 'happy-dom', include: ['tests/ui/**/*.test.tsx'], testTimeout: 30_000 },
      },
      {
        extends: true,
        test: {
          name: 'rules',
          environment: 'node',
          include: ['tests/rules/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // what is waited for comes at once on a quiet machine; a busy one is not a fault of the app
          expect: { poll: { timeout: 15_000 } },
        },
      },
      {
        extends: true,
        test: { name: 'chaos', environment: 'node', include: ['tests/chaos/**/*.test.ts'], hookTimeout: 120_000 },
      },
    ],
  },
});

/** Names the file of a module that main imports, itself or through others, and not later on. */
function firstScreen(
  module: string,
  graph: { getModuleInfo: (id: string) => Rolldown.ModuleInfo | null },
): string | null {
  if (module.endsWith('.css')) return null;
  const seen = new Set([module]);
  for (const id of seen) {
    if (id.endsWith('/src/main.ts')) return 'first';
    for (const importer of graph.getModuleInfo(id)?.importers ?? []) seen.add(importer);
  }
  return null;
}

/** Vite's development server puts styles inline, which the page's content security policy forbids; the built page keeps it. */
function pageRulesOnlyWhenBuilt(): Plugin {
  return {
    name: 'page-rules-only-when-built',
    apply: 'serve',
    transformIndexHtml: (html) => html.replace(/<meta\s+http-equiv="Content-Security-Policy"[^>]*>/, ''),
  };
}

/**
 * Builds what stands apart from the app, each one file of its own. Before the list of files: repair.js, for a version that does not start, and version.json,
 * by which a page learns what the server has. With the list inside, and the hash of each file: sw.js. The list is also left in dist/.vite/precache.json for
 * src/cli/sizes.ts.
 */
function standingApart(): Plugin {
  let outDir = '';
  return {
    name: 'standing-apart',
    apply: 'build',
    configResolved: (config) => {
      outDir = config.build.outDir;
    },
    closeBundle: async () => {
      await oneFile(outDir, 'src/repair.ts', 'repair.js', {});
      await writeFile(`${outDir}/version.json`, `${JSON.stringify({ build: mark })}\n`);
      const { manifestEntries } = await getManifest({
        globDirectory: outDir,
        // The PNG icons are fetched once, by the phone, when the app is put on its home screen.
        globPatterns: ['**/*.{html,js,css,svg,webmanifest,woff2}'],
        globIgnores: ['sw.js'],
        // Names under assets/ carry a hash of what is inside.
        dontCacheBustURLsMatching: /^assets\//,
      });
      const files = JSON.stringify(
        await Promise.all(
          manifestEntries.map(async (entry) => ({ ...entry, integrity: await integrityOf(join(outDir, entry.url)) })),
        ),
      );
      await writeFile(`${outDir}/.vite/precache.json`, files);
      await oneFile(outDir, 'sw/worker.ts', 'sw.js', { BUILD_FILES: files });
    },
  };
}

async function integrityOf(path: string): Promise<string> {
  return `sha256-${createHash('sha256')
    .update(await readFile(path))
    .digest('base64')}`;
}

async function oneFile(outDir: string, input: string, file: string, define: Record<string, string>): Promise<void> {
  await build({
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    define: { ...define, 'process.env.NODE_ENV': '"production"' },
    build: {
      outDir,
      emptyOutDir: false,
      copyPublicDir: false,
      target: 'es2022',
      rolldownOptions: { input, output: { format: 'iife', entryFileNames: file } },
    },
  });
}

/**
 * Returns what this build is called: the version, and the commit and its day where the tree is a clone (`+`: with changes). The same tree gives the
 * same mark, so that two builds of it are equal byte for byte. CUEWRIGHT_BUILD names another.
 */
function buildMark(): string {
  const root = import.meta.dirname;
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  const named = process.env['CUEWRIGHT_BUILD'];
  if (named) return named;
  const git = (...args: string[]): string =>
    execFileSync('git', args, { cwd: root, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
  try {
    // a copy that lies inside another repository is no clone
    if (git('rev-parse', '--show-toplevel') !== realpathSync(root)) return version;
    const [commit = '', day] = git('log', '-1', '--format=%H %cs').split(' ');
    const changed = git(
      'status',
      '--porcelain',
      '--',
      'src',
      'sw',
      'fixtures/demo',
      'index.html',
      'vite.config.ts',
      'package-lock.json',
    );
    return `${version} · ${commit.slice(0, 7)}${changed ? '+' : ''} · ${day}`;
  } catch {
    return version;
  }
}
