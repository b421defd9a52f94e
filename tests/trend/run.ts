import { readFileSync } from 'node:fs';
import { baseBars, easyThriceBars, easyTwiceBars, hardBars, missed, ruleBars } from './bars';
import { figuresOf } from './figures';
import { judgeAll } from './judgeAll';
import { PRESETS, type PresetName } from './preset';
import type { Judged } from './promise';
import { score } from './score';
import { type Histories, histories } from './world';

/*
 * `tsx tests/trend/run.ts --preset base --seed 1 --n 600 [--perWeek 2]`: the engine's figures on histories that are invented for it, as JSON.
 * `--figures` prints what the histories look like instead, and `--write` the histories themselves. `--file HISTORIES.json` takes others, with
 * their truth. `--bars --seed 1` prints a table of all bars at their full size.
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

function printBars(): void {
  const seed = whole('--seed', 1);
  const judged = (preset: PresetName, count: number, perWeek?: number): readonly Judged[] =>
    judgeAll(histories({ preset, seed, count, ...(perWeek ? { perWeek } : {}) }).histories);
  const base = judged('base', 600);
  const bars = [
    ...baseBars(base),
    ...ruleBars(base),
    ...easyTwiceBars(judged('easy', 400, 2)),
    ...easyThriceBars(judged('easy', 400, 3)),
    ...hardBars(judged('hard', 200)),
  ];
  const digits = (number: number): string => number.toFixed(4);
  for (const bar of bars) {
    const verdict = missed([bar]).length > 0 ? 'MISSED' : '';
    console.log([bar.what, digits(bar.is), `${digits(bar.least)} to ${digits(bar.most)}`, verdict].join('\t'));
  }
  process.exitCode = missed(bars).length > 0 ? 1 : 0;
}

function printOne(): void {
  const file = given('--file');
  const all = file === undefined ? invented() : (JSON.parse(readFileSync(file, 'utf8')) as Histories);
  if (process.argv.includes('--write')) console.log(JSON.stringify(all));
  else if (process.argv.includes('--figures')) print(figuresOf(all.histories));
  else {
    const begun = performance.now();
    const judged = judgeAll(all.histories);
    print({ ...score(judged), seconds: (performance.now() - begun) / 1000 });
  }
}

if (process.argv.includes('--bars')) printBars();
else printOne();
