// Runs every step, also after one has failed, and ends with the line "N passed, N failed".
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';

const root = join(import.meta.dirname, '..');
const bin = (name) => join(root, 'node_modules/.bin', name);
const floorLimit = 60_000;

const steps = [
  ['types', () => one(run(bin('tsc'), ['-b']))],
  ['lint', () => one(run(bin('biome'), ['check', '--error-on-warnings']))],
  ['unit, dom and rules', () => vitest(['unit', 'dom', 'rules'])],
  ['build', () => one(run(bin('vite'), ['build', '--logLevel', 'warn']))],
  ['sizes', () => one(floorIsSmall())],
  ['browser', () => twice('browser')],
  ['kills', () => vitest(['chaos'])],
];

let passed = 0;
let failed = 0;
/** Tests that failed once and passed when their file was run again: told before the last line, never hidden. */
const second = [];
for (const [name, step] of steps) {
  console.log(`\n== ${name}`);
  const start = performance.now();
  const result = step();
  passed += result.passed;
  failed += result.failed;
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  console.log(`== ${name}: ${result.passed} passed, ${result.failed} failed, ${seconds} s`);
}
for (const name of second) console.log(`\npassed only at the second try: ${name}`);
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

/** Runs a project; the files of at most three failed tests once more, for a machine that stood still for a while is not a fault of the app. */
function twice(project) {
  const first = vitest([project]);
  if (first.failed === 0 || first.failed > 3 || first.failures.length !== first.failed) return first;
  const files = [...new Set(first.failures.map((one) => one.file))];
  console.log(`\nonce more: ${files.join(' ')}`);
  const again = vitest([project], files);
  const still = again.failures.map((one) => one.name);
  for (const { name } of first.failures) if (!still.includes(name)) second.push(name);
  return { passed: first.passed + first.failed - again.failed, failed: again.failed };
}

function vitest(projects, files = []) {
  const folder = mkdtempSync(join(tmpdir(), 'cuewright-test-'));
  const report = join(folder, 'report.json');
  const named = projects.flatMap((project) => ['--project', project]);
  const reporters = ['--reporter', 'dot', '--reporter', 'json', '--outputFile.json', report];
  const good = run(bin('vitest'), ['run', ...named, ...files, ...reporters]);
  try {
    return counted(JSON.parse(readFileSync(report, 'utf8')), good);
  } catch {
    return { ...one(false), failures: [] };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A file that cannot be loaded holds no tests, and an error between tests fails none: each still counts as a failure. */
function counted(report, good) {
  const broken = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  const failed = report.numFailedTests + broken.length;
  const silent = !good || report.numTotalTests === 0;
  const failures = report.testResults.flatMap((file) =>
    file.assertionResults
      .filter((test) => test.status === 'failed')
      .map((test) => ({ name: test.fullName, file: relative(root, file.name) })),
  );
  return { passed: report.numPassedTests, failed: failed === 0 && silent ? 1 : failed, failures };
}
