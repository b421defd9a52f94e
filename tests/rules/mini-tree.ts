import { execFile } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';

const root = join(import.meta.dirname, '../..');
const settings = /(^|\/)(biome|tsconfig)\.json$/;
const places = ['.', 'src', 'sw', 'fixtures/demo', 'tests'];

/** What a tool said about one file: the path from the root, and the rule (Biome) or error number (tsc). */
export interface Finding {
  readonly file: string;
  readonly rule: string;
}

/** A throw-away tree with the real settings, the given files and the real packages. Call `remove` when done. */
export function miniTree(files: Readonly<Record<string, string>>) {
  const dir = mkdtempSync(join(tmpdir(), 'cuewright-rules-'));
  for (const path of everySetting()) {
    mkdirSync(dirname(join(dir, path)), { recursive: true });
    cpSync(join(root, path), join(dir, path));
  }
  // Each package is linked, not the folder, so that the compiler's cache of this tree stays inside it.
  mkdirSync(join(dir, 'node_modules'));
  for (const name of readdirSync(join(root, 'node_modules'))) {
    if (!name.startsWith('.')) symlinkSync(join(root, 'node_modules', name), join(dir, 'node_modules', name));
  }
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(dir, path)), { recursive: true });
    writeFileSync(join(dir, path), text);
  }
  return {
    lint: () => lint(dir),
    typeCheck: () => typeCheck(dir),
    remove: () => rmSync(dir, { recursive: true, force: true }),
  };
}

/** The settings at the top and of each room, so that a new room is checked without being named here. */
function everySetting(): string[] {
  return places
    .flatMap((place) =>
      readdirSync(join(root, place), { recursive: place !== '.', encoding: 'utf8' }).map((name) => join(place, name)),
    )
    .filter((path) => settings.test(path));
}

async function lint(dir: string): Promise<Finding[]> {
  const out = await run(dir, '@biomejs/biome/bin/biome', ['lint', '--reporter=json', '--max-diagnostics=none']);
  const report = JSON.parse(out) as {
    diagnostics: { category: string; location: { path: string } }[];
  };
  return report.diagnostics.map(({ category, location }) => ({
    file: location.path,
    rule: category.split('/').at(-1) ?? '',
  }));
}

async function typeCheck(dir: string): Promise<Finding[]> {
  const out = await run(dir, 'typescript/bin/tsc', ['-b', '--pretty', 'false']);
  return [...out.matchAll(/^(\S+?)\(\d+,\d+\): error (TS\d+)/gm)].map(([, file, rule]) => ({
    file: file ?? '',
    rule: rule ?? '',
  }));
}

/** Both tools exit with 1 when they find something, so only their output counts here. */
async function run(cwd: string, tool: string, args: readonly string[]): Promise<string> {
  const command = [join(root, 'node_modules', tool), ...args];
  const result = await promisify(execFile)(process.execPath, command, { cwd, maxBuffer: 1e8 }).catch(
    (failed: { stdout?: string }) => failed,
  );
  if (result.stdout === undefined) throw new Error(`${tool} could not be started`);
  return result.stdout;
}
