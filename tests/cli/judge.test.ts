import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { folder, npmRun, run } from './run';

const write = folder();
const TIME = 30_000;

type Band = Readonly<Record<'lo80' | 'hi80' | 'lo95' | 'hi95', number>>;
type Answer = Partial<Band> & {
  readonly status: string;
  readonly p_stall: number;
  readonly level?: number;
  readonly p_hit?: number;
  readonly ahead?: Readonly<Record<string, Band & { readonly mean: number }>>;
};
type Golden = {
  readonly histories: readonly {
    readonly input: { readonly id: string; readonly kind: string };
    readonly answers: readonly Answer[];
  }[];
};
type Answers = { readonly answers: readonly { readonly id: string; readonly exposures: readonly Answer[] }[] };

const golden = JSON.parse(readFileSync(new URL('../../fixtures/trend/golden.json', import.meta.url), 'utf8')) as Golden;
/** One of each kind. */
const some = ['e1rm', 'reps', 'deg'].map((kind) => {
  const found = golden.histories.find(({ input }) => input.kind === kind);
  if (!found) throw new Error(`no golden history of ${kind}`);
  return found;
});

/** Returns the names under which numbers stand, and the numbers, deep down. */
function numbers(value: unknown, path = ''): readonly (readonly [path: string, value: number])[] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => numbers(inner, `${path}/${name}`));
}

const history = (more: object) => ({ id: 'a', kind: 'e1rm', exposures: [], ...more });
const file = (...histories: readonly object[]): string =>
  JSON.stringify({ format: 'capacity-histories/1', seed: 1, preset: 'base', histories });

describe.concurrent('judge', () => {
  test('answers golden histories as the other engine did, one answer an exposure', { timeout: TIME }, async () => {
    const path = write('golden.json', file(...some.map(({ input }) => input)));
    const { code, out, err } = await npmRun('judge', path);
    expect([code, err, out.endsWith('\n')]).toEqual([0, '', true]);
    const { answers } = JSON.parse(out) as Answers;
    expect(answers.map(({ id }) => id)).toEqual(some.map(({ input }) => input.id));
    for (const [n, { answers: should }] of some.entries()) {
      const is = answers[n]?.exposures ?? [];
      // `watch` is no word of the format
      expect(is.map(({ status }) => status)).toEqual(should.map(({ status }) => status));
      for (const [at, one] of should.entries()) {
        const found = new Map(numbers(is[at]));
        expect([...found.keys()].sort()).toEqual(
          numbers(one)
            .map(([name]) => name)
            .sort(),
        );
        for (const [name, value] of numbers(one))
          expect(Math.abs((found.get(name) ?? Number.NaN) - value), `${name} of ${at}`).toBeLessThan(
            1e-4 * Math.abs(value) + 1e-5,
          );
      }
    }
  });

  test('looks at no truth, and takes a history without a target, or without an exposure', {
    timeout: TIME,
  }, async () => {
    const [one] = some;
    const truth = { level: [1, 2, 3], state: 'PPS', plateau_day: 2, hit: true };
    const { target: _, ...untargeted } = { target: undefined, ...one?.input };
    const inputs = [{ ...one?.input, truth }, { ...untargeted, id: 'untargeted' }, history({ id: 'empty' })];
    const { out } = await run('judge', write('truth.json', file(...inputs)));
    const { answers } = JSON.parse(out) as Answers;
    const [told, plain, empty] = answers.map(({ exposures }) => exposures);
    expect(told?.at(-1)).toHaveProperty('p_hit');
    // the same but for the chance of the target
    expect(plain).toEqual(told?.map(({ p_hit: __, ...rest }) => rest));
    expect(empty).toEqual([]);
  });

  test('slips of the pen become no NaN: what no body can do is passed over', { timeout: TIME }, async () => {
    const set = (load: number, more: object = {}) => [{ load, reps: 5, rir: 2, ...more }];
    const days = Array.from({ length: 8 }, (_, n) => ({ day: n * 3, deload: false, sets: set(100 + n) }));
    const slips = [
      { day: 24, deload: false, sets: set(1e308) },
      { day: 1e300, deload: false, sets: set(108, { reps: 1e300 }) },
      { day: 0, deload: false, sets: set(108, { unsure: 'very', atLeast: 'no' }) },
    ];
    const target = { value: 0, day: -1e9 };
    const path = write('slips.json', file(history({ target, exposures: [...days, ...slips] })));
    const { code, out } = await run('judge', path);
    expect(code).toBe(0);
    // NaN and Infinity are written as null
    expect(out).not.toContain('null');
    expect((JSON.parse(out) as Answers).answers[0]?.exposures).toHaveLength(11);
  });

  const exposure = (set: object) => ({ day: 0, deload: false, sets: [{ load: 100, reps: 5, rir: 2, ...set }] });
  test.each([
    ['no object', '[]', 'its top'],
    ['nothing of the format', '{"answers":[]}', 'histories'],
    ['an unknown kind', file(history({ kind: 'tonnage' })), 'histories.0.kind'],
    ['a history without an id', file(history({ id: undefined })), 'histories.0.id'],
    ['a load below 0', file(history({ exposures: [exposure({ load: -1 })] })), 'histories.0.exposures.0.sets.0.load'],
    ['reps in words', file(history({ exposures: [exposure({ reps: 'five' })] })), 'histories.0.exposures.0'],
    ['a target without a day', file(history({ target: { value: 100 } })), 'histories.0.target.day'],
    ['an exposure of nothing', file(history({}), history({ exposures: [{ day: 0 }] })), 'histories.1.exposures.0'],
  ])('%s is refused, with where it is', { timeout: TIME }, async (name, text, at) => {
    const path = write(`${name.replaceAll(' ', '-')}.json`, text);
    expect(await run('judge', path)).toEqual({
      code: 1,
      out: '',
      err: `judge: ${path} is not a file of histories: Invalid input at ${at}\n`,
    });
  });

  test('a file that is not there, or no JSON, is refused by name', { timeout: TIME }, async () => {
    const broken = write('broken.json', '{"histories":[');
    const missing = join(dirname(broken), 'missing.json');
    expect(await run('judge', missing)).toEqual({
      code: 1,
      out: '',
      err: `judge: ${missing} cannot be read: ENOENT: no such file or directory, open '${missing}'\n`,
    });
    const { code, out, err } = await run('judge', broken);
    expect([code, out, err.startsWith(`judge: ${broken} cannot be read: `)]).toEqual([1, '', true]);
    // one sentence, and no stack
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  test.each([[[]], [['a.json', 'b.json']]])('with %j it says what it needs', { timeout: TIME }, async (args) => {
    expect(await run('judge', ...args)).toEqual({
      code: 1,
      out: '',
      err: 'judge: one file is needed: judge HISTORIES.json\n',
    });
  });
});
