import type { Samples } from './floor';
import type { Tap } from './probe';
import { ratio, type Told, told } from './stats';

/** What was measured at one speed of the processor: `rate` times slower than the machine is. */
export type Run = Samples & { readonly rate: number };

/** One goal with what was measured; `met` is undefined where there is no bar. */
export type Goal = { readonly goal: string; readonly measured: string; readonly met: boolean | undefined };

/** Returns the goals against what was measured. */
export function report(runs: readonly Run[], sizes: { floorJsGz: number; precacheGz: number }): readonly Goal[] {
  const kB = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;
  return [
    ...runs.flatMap(goalsOf),
    { goal: 'P10 first-load scripts, gz ≤ 45 kB', measured: kB(sizes.floorJsGz), met: sizes.floorJsGz <= 45_000 },
    { goal: 'P10 everything kept, gz ≤ 160 kB', measured: kB(sizes.precacheGz), met: sizes.precacheGz <= 160_000 },
  ];
}

function goalsOf({ rate, taps, plain, plainPut, bare, floor, longFrames, touchUps }: Run): Goal[] {
  const speed = `at ${rate} ×`;
  const one = told(bare);
  const act = told(taps.map(({ complete, handled }) => complete - handled));
  const own = ratio(act, one);
  const both = ({ p50, p95 }: { p50: number; p95: number }) => `p50 ${p50.toFixed(2)}, p95 ${p95.toFixed(2)}`;
  const plainly = (goal: string, a: Told, b: Told): Goal => ({
    goal: `   ${goal}, ${speed}`,
    measured: both(ratio(a, b)),
    met: undefined,
  });
  const each = (all: readonly Tap[], what: keyof Tap) => told(all.map((tap) => tap[what]));
  const paint = ratio(each(taps, 'painted'), each(plain, 'painted'));
  return [
    {
      // from the moment the page has the tap: what the system takes to bring it is told in the line below
      goal: `P1 tap handled → complete, against one bare put in the page, ${speed}: p50 ≤ 1.4, p95 ≤ 1.6`,
      measured: both(own),
      met: own.p50 <= 1.4 && own.p95 <= 1.6,
    },
    plainly(
      'tap → complete, against a tap that makes one bare put on a plain page',
      each(taps, 'complete'),
      each(plainPut, 'complete'),
    ),
    plainly('tap → line shows as saved, against the same', each(taps, 'saved'), each(plainPut, 'complete')),
    plainly('the puts of an act with nothing around them, against one bare put', told(floor), one),
    plainly('tap handled → complete, against those puts', act, told(floor)),
    {
      goal: `P2 tap → painted, against a plain page that adds a line, ${speed}: ≤ 1.5`,
      measured: both(paint),
      met: paint.p50 <= 1.5,
    },
    {
      goal: `P2 frames of 50 ms and more, ${speed}${rate === 4 ? ': none' : ''}`,
      measured: `${longFrames.length} in ${taps.length} sets and ${touchUps} touch-ups${longFrames.length > 0 ? `, longest ${Math.round(Math.max(...longFrames))} ms` : ''}`,
      met: rate === 4 ? longFrames.length === 0 : undefined,
    },
  ];
}

/** Returns all of it as lines for a reader. */
export function table(goals: readonly Goal[], runs: readonly Run[]): string {
  const width = Math.max(...goals.map(({ goal }) => goal.length));
  const met = (goal: Goal) => (goal.met === undefined ? '' : goal.met ? 'met' : 'NOT MET');
  const lines = goals.map((goal) => `${goal.goal.padEnd(width)}  ${goal.measured}  ${met(goal)}`.trimEnd());
  return [...lines, '', ...runs.flatMap(detailsOf)].join('\n');
}

function detailsOf({ rate, taps, plain, plainPut, bare, floor }: Run): string[] {
  const line = (what: string, { n, p50, p95 }: Told) =>
    `  ${what.padEnd(44)} p50 ${p50.toFixed(2).padStart(7)} ms  p95 ${p95.toFixed(2).padStart(7)} ms  n ${n}`;
  const of = (all: readonly Tap[], what: keyof Tap) => told(all.map((tap) => tap[what]));
  const one = told(bare);
  return [
    `at ${rate} ×; the bare put's own p95 is ${(one.p95 / one.p50).toFixed(2)} × its p50: the noise of this machine`,
    line('one bare strict put', one),
    line('the puts of an act, bare', told(floor)),
    line('tap → first handler', of(taps, 'handled')),
    line('tap → its transaction begun', of(taps, 'begun')),
    line('tap → handlers done', of(taps, 'ran')),
    line('tap → complete', of(taps, 'complete')),
    line('tap → line in the document', of(taps, 'shown')),
    line('tap → line shows as saved', of(taps, 'saved')),
    line('tap → painted', of(taps, 'painted')),
    line('plain page: tap → first handler', of(plain, 'handled')),
    line('plain page: tap → painted', of(plain, 'painted')),
    line('plain page: tap → one bare put complete', of(plainPut, 'complete')),
  ];
}
