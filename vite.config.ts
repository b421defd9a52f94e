import { writeFile } from 'node:fs/promises';
import { preact } from '@preact/preset-vite';
import { build, type Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { getManifest } from 'workbox-build';

export default defineConfig({
  plugins: [preact(), pageRulesOnlyWhenBuilt(), serviceWorker()],
  publicDir: 'src/public',
  build: { target: 'es2022', manifest: true, reportCompressedSize: false },
  server: { host: '127.0.0.1', strictPort: false },
  // A page or worker taken from the browser's own cache could hold an update back for a day.
  preview: { host: '127.0.0.1', strictPort: false, headers: { 'Cache-Control': 'no-cache' } },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/{browser,rules,bench,chaos}/**', 'tests/ui/**/*.test.tsx'],
        },
      },
      { extends: true, test: { name: 'dom', environment: 'happy-dom', include: ['tests/ui/**/*.test.tsx'] } },
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
        },
      },
      {
        extends: true,
        test: { name: 'chaos', environment: 'node', include: ['tests/chaos/**/*.test.ts'], hookTimeout: 120_000 },
      },
    ],
  },
});

/** Vite's development server puts styles inline, which the page's content security policy forbids; the built page keeps it. */
function pageRulesOnlyWhenBuilt(): Plugin {
  return {
    name: 'page-rules-only-when-built',
    apply: 'serve',
    transformIndexHtml: (html) => html.replace(/<meta\s+http-equiv="Content-Security-Policy"[^>]*>/, ''),
  };
}

/** After the app is built: lists its files, and builds dist/sw.js with that list inside. The list is also left in
 *  dist/.vite/precache.json for src/cli/sizes.ts. */
function serviceWorker(): Plugin {
  let outDir = '';
  return {
    name: 'service-worker',
    apply: 'build',
    configResolved: (config) => {
      outDir = config.build.outDir;
    },
    closeBundle: async () => {
      const { manifestEntries } = await getManifest({
        globDirectory: outDir,
        // The PNG icons are fetched once, by the phone, when the app is put on its home screen.
        globPatterns: ['**/*.{html,js,css,svg,webmanifest,woff2}'],
        globIgnores: ['sw.js'],
        // Names under assets/ carry a hash of what is inside.
        dontCacheBustURLsMatching: /^assets\//,
      });
      const files = JSON.stringify(manifestEntries);
      await writeFile(`${outDir}/.vite/precache.json`, files);
      await build({
        configFile: false,
        publicDir: false,
        logLevel: 'warn',
        define: { BUILD_FILES: files, 'process.env.NODE_ENV': '"production"' },
        build: {
          outDir,
          emptyOutDir: false,
          copyPublicDir: false,
          target: 'es2022',
          rolldownOptions: { input: 'sw/worker.ts', output: { format: 'iife', entryFileNames: 'sw.js' } },
        },
      });
    },
  };
}
