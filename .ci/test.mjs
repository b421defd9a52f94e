// Runs every step, also after one has failed, and ends with the line "N passed, N failed".
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const bin = (name) => join(root, 'node_modules/.bin', name);
const floorLimit = 60_000;

const steps = [
  ['types', () => one(run(bin('tsc'), ['-b']))],
  ['lint', () => one(run(bin('biome'), ['check', '--error-on-warnings']))],
  ['unit, dom and rules', () => vitest('unit', 'dom', 'rules')],
  ['build', () => one(run(bin('vite'), ['build', '--logLevel', 'warn']))],
  ['sizes', () => one(floorIsSmall())],
  ['browser', () => vitest('browser')],
  ['kills', () => vitest('chaos')],
];

let passed = 0;
let failed = 0;
for (const [name, step] of steps) {
  console.log(`\n== ${name}`);
  const start = performance.now();
  const result = step();
  passed += result.passed;
  failed += result.failed;
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  console.log(`== ${name}: ${result.passed} passed, ${result.failed} failed, ${seconds} s`);
}
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;

function one(good) {
  return { passed: good ? 1 : 0, failed: good ? 0 : 1 };
}

function run(command, args) {
  return spawnSync(command, args, { cwd: root, stdio: 'inherit' }).status === 0;
}

function floorIsSmall() {
  const { stdout, status } = spawnSync(bin('tsx'), ['src/cli/sizes.ts'], { cwd: root, encoding: 'utf8' });
  if (status !== 0) return false;
  const { floorJsGz } = JSON.parse(stdout);
  console.log(`${stdout.trim()} (floorJsGz may be at most ${floorLimit})`);
  return floorJsGz <= floorLimit;
}

function vitest(...projects) {
  const folder = mkdtempSync(join(tmpdir(), 'cuewright-test-'));
  const report = join(folder, 'report.json');
  const named = projects.flatMap((project) => ['--project', project]);
  const reporters = ['--reporter', 'dot', '--reporter', 'json', '--outputFile.json', report];
  const good = run(bin('vitest'), ['run', ...named, ...reporters]);
  try {
    return counted(JSON.parse(readFileSync(report, 'utf8')), good);
  } catch {
    return one(false);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A file that cannot be loaded holds no tests, and an error between tests fails none: each still counts as a failure. */
function counted(report, good) {
  const broken = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  const failures = report.numFailedTests + broken.length;
  const silent = !good || report.numTotalTests === 0;
  return { passed: report.numPassedTests, failed: failures === 0 && silent ? 1 : failures };
}
