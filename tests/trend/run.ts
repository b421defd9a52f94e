import { readFileSync } from 'node:fs';
import { figuresOf } from './figures';
import { judgeAll } from './judgeAll';
import { PRESETS, type PresetName } from './preset';
import { score } from './score';
import { type Histories, histories } from './world';

/*
 * `tsx tests/trend/run.ts --preset base --seed 1 --n 600 [--perWeek 2]`: the engine's figures on histories that are invented for it, as JSON.
 * `--figures` prints what the histories look like instead, and `--write` the histories themselves. `--file HISTORIES.json` takes others, with their truth.
 */

const given = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};

const whole = (name: string, otherwise: number): number => {
  const number = Number(given(name) ?? otherwise);
  if (!Number.isSafeInteger(number) || number < 0) throw new Error(`${name} must be a whole number from 0`);
  return number;
};

const isPreset = (name: string): name is PresetName => Object.hasOwn(PRESETS, name);

function invented(): Histories {
  const preset = given('--preset') ?? 'base';
  if (!isPreset(preset)) throw new Error(`--preset must be one of ${Object.keys(PRESETS).join(', ')}`);
  const perWeek = whole('--perWeek', 0);
  return histories({
    preset,
    seed: whole('--seed', 1),
    count: whole('--n', 600),
    ...(perWeek > 0 ? { perWeek } : {}),
  });
}

const print = (what: unknown): void => console.log(JSON.stringify(what, rounded, 1));
const rounded = (_: string, value: unknown): unknown =>
  typeof value === 'number' && Number.isFinite(value) ? Math.round(value * 1e4) / 1e4 : value;

const file = given('--file');
const all = file === undefined ? invented() : (JSON.parse(readFileSync(file, 'utf8')) as Histories);
if (process.argv.includes('--write')) console.log(JSON.stringify(all));
else if (process.argv.includes('--figures')) print(figuresOf(all.histories));
else {
  const begun = performance.now();
  const judged = judgeAll(all.histories);
  const seconds = (performance.now() - begun) / 1000;
  print({ ...score(judged), seconds });
}
