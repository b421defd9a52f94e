import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type Answers, answersOf } from '../../src/analysis/answers';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { DEFAULT_SETTINGS } from '../../src/domain/settings';
import type { App } from '../../src/ui/app';
import { type Heads, watchHeads } from '../../src/ui/floor/heads';
import { clientWith, did } from '../analysis/foundIn';
import { dayIn, kg } from '../reference/records';

/* What Today says of a client, of all that is found; when it is worked out, and when not. */

const TODAY = dayIn(11);
const exercises = new Map(SHIPPED_EXERCISES.map((one) => [one.id, one]));
const hurt = (day: number, value?: number) =>
  did(dayIn(day), 'lib-back-squat', [{ load: kg(60), reps: 5, ...(value === undefined ? {} : { pain: { value } }) }]);
const AGAIN = [hurt(0, 3), hurt(3), hurt(7), hurt(10, 2)];

/** A log of one client, and an analysis that is answered by the test. */
function floor(said?: { readonly text: string; readonly day: string }) {
  const watchers = new Set<() => void>();
  const calls: {
    asOf: string;
    signal: AbortSignal | undefined;
    answer: (sessions: typeof AGAIN) => void;
    fail: () => void;
  }[] = [];
  let running = false;
  let now = Date.parse(`${TODAY}T09:00Z`);
  const studio = (asOf: string, each: (answers: Answers) => void, signal?: AbortSignal) =>
    new Promise<readonly Answers[] | undefined>((resolve) => {
      calls.push({
        asOf,
        signal,
        answer(sessions) {
          const answers = answersOf(clientWith(sessions), [], { exercises, firstDay: 'mon' }, asOf);
          each(answers);
          resolve([answers]);
        },
        fail: () => resolve(undefined),
      });
    });
  const app = {
    log: {
      watch: (_topics: readonly string[], fn: () => void) => {
        watchers.add(fn);
        return () => watchers.delete(fn);
      },
      ends: () => [],
      exposures: () => [],
    },
    acts: { targets: () => [] },
    views: {
      sessionsInMemory: () => (running ? [{ session: {} }] : []),
      settings: () => DEFAULT_SETTINGS,
      exercise: (_log: unknown, id: string) => exercises.get(id),
      cues: () => [],
    },
    world: { now: () => now, zone: () => 'UTC' },
    snapshot: {
      read: () => said && JSON.stringify({ version: 4, lines: [{ stream: clientWith([]).stream, head: { ...said } }] }),
    },
    analysing: () => Promise.resolve({ studio }),
  } as unknown as App;
  const redraw = vi.fn();
  const heads = watchHeads(app, redraw);
  const say = (of: Heads = heads, day = TODAY) => of.of(app, clientWith([]).stream, day);
  return {
    app,
    calls,
    heads,
    redraw,
    say,
    run: (isNow: boolean) => {
      running = isNow;
    },
    at: (day: string) => {
      now = Date.parse(`${day}T07:00Z`);
    },
    change: () => {
      for (const fn of watchers) fn();
    },
  };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});
const quiet = () => vi.advanceTimersByTimeAsync(2000);

describe('what Today says of a client', () => {
  test('nothing of the other answers at once; once it has been quiet, what presses most', async () => {
    const { calls, say, redraw } = floor();
    expect(say()).toBeNull();
    expect(calls).toHaveLength(0);
    await quiet();
    expect(calls).toHaveLength(1);
    calls[0]?.answer(AGAIN);
    expect(redraw).toHaveBeenCalledTimes(1);
    const head = say();
    expect(head).toMatchObject({ isHeadsUp: true, day: TODAY });
    expect(head?.text).toContain('Pain: 2 of 10. Back squat');
    expect(head?.text).not.toMatch(/undefined|NaN/);
  });

  test('what was said earlier today stands until all is known again; of another day it does not', async () => {
    const { calls, say } = floor({ text: 'Pain: 2 of 10.', day: TODAY });
    expect(say()).toBeUndefined();
    await quiet();
    expect(calls).toHaveLength(0);
    await vi.advanceTimersByTimeAsync(20_000);
    calls[0]?.answer([hurt(0), hurt(3)]);
    expect(say()).toBeNull();
    expect(floor({ text: 'Pain: 2 of 10.', day: dayIn(10) }).say()).toBeNull();
  });

  test('left open into the next day it is worked out anew, though nothing has happened', async () => {
    const { calls, say, at, heads } = floor();
    await quiet();
    calls[0]?.answer(AGAIN);
    expect(say()?.text).toContain('Pain');
    at(dayIn(12));
    expect(say(heads, dayIn(12))).toBeNull();
    await quiet();
    expect(calls.map(({ asOf }) => asOf)).toEqual([TODAY, dayIn(12)]);
    calls[1]?.answer(AGAIN);
    expect(say(heads, dayIn(12))).toMatchObject({ day: dayIn(12), isHeadsUp: true });
    await quiet();
    expect(calls).toHaveLength(2);
  });

  test('what a session changed while Today was away is not put off, whatever was said earlier', async () => {
    const { app, calls, heads, change } = floor({ text: 'Flat for 3 weeks.', day: TODAY });
    heads.stop();
    change();
    watchHeads(app, () => undefined);
    await quiet();
    expect(calls).toHaveLength(1);
  });

  test('where it cannot be worked out, what is at hand is said', async () => {
    const { calls, say, redraw, change } = floor({ text: 'Pain: 2 of 10.', day: TODAY });
    change();
    await quiet();
    calls[0]?.fail();
    await quiet();
    expect(redraw).toHaveBeenCalledTimes(1);
    expect(say()).toBeNull();
  });

  test('beside a running session nothing is worked out; once it has ended it is, and anew after each change', async () => {
    const { calls, run, change, say } = floor();
    run(true);
    await quiet();
    expect(calls).toHaveLength(0);
    run(false);
    change();
    await quiet();
    expect(calls).toHaveLength(1);
    // a session starts before the answer: it is called off
    run(true);
    change();
    expect(calls[0]?.signal?.aborted).toBe(true);
    await quiet();
    expect(calls).toHaveLength(1);
    run(false);
    change();
    await quiet();
    calls[1]?.answer(AGAIN);
    expect(say()?.text).toContain('Pain');
  });

  test('leaving calls it off, and coming back finds what is known', async () => {
    const first = floor();
    await quiet();
    first.calls[0]?.answer(AGAIN);
    first.change();
    await quiet();
    first.heads.stop();
    expect(first.calls[1]?.signal?.aborted).toBe(true);
    first.change();
    await quiet();
    expect(first.calls).toHaveLength(2);
    expect(first.say(watchHeads(first.app, () => undefined))?.text).toContain('Pain');
  });
});
