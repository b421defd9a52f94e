import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import type { Finding } from '../../src/analysis/findings';
import type { OtherFinding } from '../../src/analysis/otherFindings';
import type { Others } from '../../src/analysis/others';
import type { SideSeries } from '../../src/analysis/series';
import { removing } from '../../src/merge/removal';
import type { Row } from '../../src/merge/row';
import { client, dayAt, erased, exported, session, squat, written } from './rows';
import { folder, npmRun, run } from './run';

const write = folder();
const TIME = 30_000;

type Analysed = {
  readonly format: string;
  readonly asOf: string;
  readonly refused: number;
  readonly clients: readonly {
    readonly stream: string;
    readonly alias: string;
    readonly findings: readonly Finding[];
    readonly found: readonly OtherFinding[];
    readonly time: Others['time'];
    readonly volume: Others['volume'];
    readonly learning: Others['learning'];
    readonly series: readonly (SideSeries & { readonly exercise: string; readonly name: string })[];
  }[];
};

let files = 0;
const asked = new Map<string, Promise<Analysed>>();
/** Returns what is said of rows; what was asked before is not asked again. */
function analyse(rows: readonly unknown[], ...more: readonly string[]): Promise<Analysed> {
  const key = JSON.stringify([rows, more]);
  const answer = asked.get(key) ?? answered(rows, more);
  asked.set(key, answer);
  return answer;
}
async function answered(rows: readonly unknown[], more: readonly string[]): Promise<Analysed> {
  files += 1;
  const { code, out, err } = await run('analyse', write(`rows-${files}.jsonl`, exported(rows)), ...more);
  expect([code, err]).toEqual([0, '']);
  return JSON.parse(out) as Analysed;
}
/** Twelve sessions of one client, two a week, each a kilogram heavier. */
const steady: readonly Row[] = [
  client('c1', 'Client Slate'),
  ...Array.from({ length: 12 }, (_, n) => session('c1', Math.floor(n / 2) * 7 + (n % 2) * 3, 80 + n)),
];

describe.concurrent('analyse', () => {
  test('of the demo it says that one lift is flat and behind, and how its client stands', {
    timeout: TIME,
  }, async () => {
    const rows = demoRows({ seed: 7, today: '2026-11-25', zone: 'Europe/Vienna' });
    const path = write('demo.jsonl', exported(rows, { log: 'cuewright-demo' }));
    const { code, out, err } = await npmRun('analyse', path);
    expect([code, err]).toEqual([0, '']);
    // what is no number is written as null
    expect(out).not.toContain('null');
    const { format, refused, asOf, clients } = JSON.parse(out) as Analysed;
    expect([format, refused]).toEqual(['cuewright-analysis/1', 0]);
    expect(asOf <= '2026-11-24' && asOf > '2026-11-20').toBe(true);
    expect(clients.map(({ alias }) => alias).sort()).toEqual([
      'Client Fog',
      'Client Gale',
      'Client Puddle',
      'Client Sleet',
    ]);
    const gale = clients.find(({ alias }) => alias === 'Client Gale');
    const [first] = gale?.findings ?? [];
    expect(first).toMatchObject({ type: 'stalled', exercise: 'lib-front-squat', next: { type: 'change' } });
    expect(gale?.findings.filter(({ type }) => type === 'stalled')).toHaveLength(1);
    expect(gale?.findings.find(({ type }) => type === 'behind')).toMatchObject({ exercise: 'lib-front-squat' });
    // what the other methods find, and all that it is made from
    const puddle = clients.find(({ alias }) => alias === 'Client Puddle');
    const best = puddle?.found.find(({ topic, type }) => topic === 'cues' && type === 'often');
    expect(best).toMatchObject({ cue: { cue: 'lib-cue-nobody-hears' } });
    expect(puddle?.learning.map(({ exercise }) => exercise)).toContain('lib-hop-and-hold');
    // planks of 30 s a side, so that weeks have whole times of it
    const planks = puddle?.time.filter(({ exercise }) => exercise === 'lib-side-plank') ?? [];
    expect(planks.length).toBeGreaterThan(8);
    expect(planks.every(({ seconds }) => seconds % 30 === 0)).toBe(true);
    expect(gale?.volume.filter(({ exercise }) => exercise === 'lib-front-squat').length).toBeGreaterThan(8);
    // the evidence are sessions of that lift, the one it lasts since first, the last one last
    const points = gale?.series.find(({ exercise }) => exercise === 'lib-front-squat')?.points ?? [];
    const since = first?.type === 'stalled' ? first.since : undefined;
    const from = points.findIndex(({ session: one }) => one === first?.evidence[0]);
    expect(points[from]?.day).toBe(since);
    expect(points.slice(from).map(({ session: one }) => one)).toEqual(first?.evidence);
    // it stopped after the fifth of twelve weeks
    expect((since ?? '') > '2026-09-20').toBe(true);
  });

  test('of steady gains it says that they grow, in series that end on the last day', { timeout: TIME }, async () => {
    const { asOf, clients } = await analyse(steady);
    expect(asOf).toBe(dayAt(38));
    expect(clients).toHaveLength(1);
    const [{ findings, series } = { findings: [], series: [] }] = clients;
    expect(findings.map(({ type, exercise }) => [type, exercise])).toEqual([['growing', 'lib-front-squat']]);
    expect(series.map(({ name, points, reps, way }) => [name, points.length, reps, way])).toEqual([
      ['Front squat', 12, 5, 'held'],
    ]);
    // the forecast begins at the level, and has the days of 0, 2, 4 and 8 weeks ahead
    expect(series[0]?.fan.map(({ day }) => day)).toEqual([38, 52, 66, 94].map(dayAt));
    expect(series[0]?.fan[0]?.band.mean).toBeCloseTo(series[0]?.points.at(-1)?.band?.mean ?? 0, 9);
  });

  test('as of an earlier day it says what could be said then', { timeout: TIME }, async () => {
    const [earlier, then, later, now] = await Promise.all([
      analyse(steady, '--as-of', dayAt(24)),
      analyse(steady.slice(0, 9)),
      analyse(steady, '--as-of', dayAt(400)),
      analyse(steady),
    ]);
    expect(then.asOf).toBe(dayAt(24));
    expect(earlier).toEqual(then);
    // a later day than the last changes no series, but what is said of it is of that day
    expect(later.clients[0]?.series).toEqual(now.clients[0]?.series);
    expect(later.asOf).toBe(dayAt(400));
  });

  test('as of a day before the first session there is nothing to say', { timeout: TIME }, async () => {
    const [before, idle] = await Promise.all([
      analyse(steady, '--as-of', '2020-02-29'),
      analyse([client('c1', 'Client Slate')]),
    ]);
    expect(before).toMatchObject({
      asOf: '2020-02-29',
      clients: [{ alias: 'Client Slate', findings: [], series: [] }],
    });
    expect(idle).toMatchObject({ asOf: '1970-01-01', clients: [{ findings: [], series: [] }] });
  });

  test('a row that stands twice in two states is merged, whichever comes first', { timeout: TIME }, async () => {
    const old = session('c1', 0, 80);
    const [one, other] = [
      written(old, squat('s2', 82, dayAt(0)), 'phone'),
      written(old, squat('s3', 84, dayAt(0)), 'tablet'),
    ];
    const name = client('c1', 'Client Slate');
    for (const { clients } of await Promise.all([analyse([name, old, one, other]), analyse([other, one, name])]))
      expect(clients[0]?.series[0]?.coverage).toMatchObject({ sets: 3 });
  });

  test('what was erased or removed is not looked at; what is no row is counted', { timeout: TIME }, async () => {
    const other = [client('c2', 'Client Moss'), session('c2', 3, 60)];
    const last = steady.at(-1) ?? session('c1', 38, 91);
    const [gone, removed, { refused, clients }] = await Promise.all([
      analyse([...steady, ...other, erased('c1')]),
      analyse([...steady.slice(0, -1), written(last, removing(last, ''))]),
      analyse([...steady, { ...last, extra: 1 }, { id: 'x' }, { ...last, id: '../x' }]),
    ]);
    expect(gone.clients.map(({ alias }) => alias)).toEqual(['Client Moss']);
    // nothing of them sets the day either
    expect(gone.asOf).toBe(dayAt(3));
    expect(removed.clients[0]?.series[0]?.points).toHaveLength(11);
    expect([refused, clients[0]?.series[0]?.points.length]).toEqual([3, 12]);
  });

  test('the day is that of the last session, be it one whose start is not told', { timeout: TIME }, async () => {
    const startless = written(session('c1', 45, 92), { start: null });
    expect(await analyse([...steady, startless])).toMatchObject({ asOf: dayAt(45) });
  });
});

describe.concurrent('what is no export', () => {
  const [name, first, second] = steady;
  test.each([
    ['of another kind', '{"format":"other/1"}\n', 'this is no export of this app'],
    [
      'of a newer format',
      '{"format":"cuewright-rows/2","rows":0}\n',
      'it was written by a newer app (cuewright-rows/2)',
    ],
    ['that was cut off', exported([name, first, second]).slice(0, -9), 'it says 3 rows and has 2: it was cut off'],
    ['of a line that is no row', `${exported([name])}[1]\n`, 'line 3 is no row'],
  ])('a file %s is refused with one sentence', { timeout: TIME }, async (what, text, said) => {
    const path = write(`${what.replaceAll(' ', '-')}.jsonl`, text);
    expect(await run('analyse', path)).toEqual({ code: 1, out: '', err: `analyse: ${path}: ${said}\n` });
  });

  test('a file that is not there is refused by name', { timeout: TIME }, async () => {
    const missing = join(dirname(write('there.jsonl', '')), 'missing.jsonl');
    expect(await run('analyse', missing)).toEqual({
      code: 1,
      out: '',
      err: `analyse: ${missing} cannot be read: ENOENT: no such file or directory, open '${missing}'\n`,
    });
  });

  const path = write('steady.jsonl', exported(steady));
  test('a day that does not exist is refused', { timeout: TIME }, async () => {
    expect(await run('analyse', path, '--as-of', '2026-02-30')).toEqual({
      code: 1,
      out: '',
      err: 'analyse: --as-of must be a day that exists, such as 2027-02-28; this is 2026-02-30\n',
    });
  });

  test.each([[[]], [[path, '--until', '2026-01-05']]])(
    'of wrong words it says what it needs',
    { timeout: TIME },
    async (args) => {
      expect(await run('analyse', ...args)).toEqual({
        code: 1,
        out: '',
        err: 'analyse: one file is needed: analyse EXPORT.jsonl [--as-of 2027-02-28]\n',
      });
    },
  );
});
