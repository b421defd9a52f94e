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

const WHO = clientWith([]).stream;

/** A log of one client, and an analysis that is answered by the test. `notes` is what the device keeps from start to start. */
function floor(notes = new Map<string, string>(), build = 'one') {
  const watchers = new Set<() => void>();
  const calls: {
    asOf: string;
    signal: AbortSignal | undefined;
    answer: (sessions: typeof AGAIN) => void;
    fail: () => void;
  }[] = [];
  const undo: { n: number; at: number; rows: { name: { stream: string } }[] }[] = [];
  let running = false;
  let hours = 1;
  let now = Date.parse(`${TODAY}T09:00Z`);
  const alone = (_stream: string, asOf: string, signal?: AbortSignal) =>
    new Promise<Answers | undefined>((resolve) => {
      signal?.addEventListener('abort', () => resolve(undefined));
      calls.push({
        asOf,
        signal,
        answer: (sessions) => resolve(answersOf(clientWith(sessions), [], { exercises, firstDay: 'mon' }, asOf)),
        fail: () => resolve(undefined),
      });
    });
  const app = {
    update: { build },
    kept: { get: (name: string) => notes.get(name), set: (name: string, text: string) => void notes.set(name, text) },
    log: {
      watch: (_topics: readonly string[], fn: () => void) => {
        watchers.add(fn);
        return () => watchers.delete(fn);
      },
      inside: <T,>(part: (core: { undo: typeof undo }) => T) => part({ undo }),
      ends: () => [],
      exposures: () => [],
    },
    acts: { targets: () => [] },
    views: {
      clients: () => [{ id: WHO }],
      sessionsInMemory: () => (running ? [{ session: { start: { at: now - hours * 3_600_000 } } }] : []),
      settings: () => DEFAULT_SETTINGS,
      exercise: (_log: unknown, id: string) => exercises.get(id),
      cues: () => [],
    },
    world: { now: () => now, zone: () => 'UTC' },
    analysing: () => Promise.resolve({ alone }),
  } as unknown as App;
  const redraw = vi.fn();
  const heads = watchHeads(app, redraw);
  const say = (of: Heads = heads, day = TODAY) => of.of(app, WHO, day);
  return {
    app,
    calls,
    heads,
    redraw,
    say,
    run: (isNow: boolean, since = 1) => {
      running = isNow;
      hours = since;
    },
    at: (day: string) => {
      now = Date.parse(`${day}T07:00Z`);
    },
    /** Something is done with a client: theirs to be looked at again. */
    act: (stream = WHO) => {
      const n = undo.length + 1;
      undo.push({ n, at: now + n, rows: [{ name: { stream } }] });
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
    await quiet();
    expect(redraw).toHaveBeenCalledTimes(1);
    const head = say();
    expect(head).toMatchObject({ isHeadsUp: true, day: TODAY });
    expect(head?.text).toContain('Pain: 2 of 10. Back squat');
    expect(head?.text).not.toMatch(/undefined|NaN/);
  });

  test('the next start says it at once, and reads nobody’s records where nothing was done', async () => {
    const notes = new Map<string, string>();
    const first = floor(notes);
    await quiet();
    first.calls[0]?.answer(AGAIN);
    await quiet();
    const next = floor(notes);
    expect(next.say()?.text).toContain('Pain: 2 of 10.');
    await quiet();
    expect(next.calls).toHaveLength(0);
    // nor after something was done with another client
    next.act('another');
    await quiet();
    expect(next.calls).toHaveLength(0);
    next.act();
    await quiet();
    expect(next.calls).toHaveLength(1);
    next.calls[0]?.answer([hurt(0), hurt(3)]);
    await quiet();
    expect(next.say()).toBeNull();
    expect(floor(notes).say()).toBeNull();
  });

  test('what another version of the app kept, or what cannot be read, is looked for again', async () => {
    const notes = new Map<string, string>();
    const first = floor(notes);
    await quiet();
    first.calls[0]?.answer(AGAIN);
    await quiet();
    const newer = floor(notes, 'two');
    expect(newer.say()).toBeNull();
    await quiet();
    expect(newer.calls).toHaveLength(1);
    const torn = floor(new Map([...notes].map(([name, text]) => [name, text.slice(0, 30)])));
    expect(torn.say()).toBeNull();
    await quiet();
    expect(torn.calls).toHaveLength(1);
  });

  test('of a client who is gone nothing is kept', async () => {
    const notes = new Map<string, string>();
    const first = floor(notes);
    await quiet();
    first.calls[0]?.answer(AGAIN);
    await quiet();
    expect([...notes.values()].join()).toContain(WHO);
    const { app } = floor(notes);
    Object.assign(app.views, { clients: () => [] });
    watchHeads(app, () => undefined);
    expect([...notes.values()].join()).not.toContain(WHO);
  });

  test('left open into the next week it is worked out anew, though nothing has happened', async () => {
    const { calls, say, at, heads } = floor();
    await quiet();
    calls[0]?.answer(AGAIN);
    await quiet();
    expect(say()?.text).toContain('Pain');
    // Friday to Saturday of the same week, then Monday
    at(dayIn(12));
    expect(say(heads, dayIn(12))).toMatchObject({ day: dayIn(12), isHeadsUp: true });
    await quiet();
    expect(calls).toHaveLength(1);
    at(dayIn(14));
    expect(say(heads, dayIn(14))).toBeNull();
    await quiet();
    expect(calls.map(({ asOf }) => asOf)).toEqual([TODAY, dayIn(14)]);
    calls[1]?.answer(AGAIN);
    await quiet();
    expect(say(heads, dayIn(14))).toMatchObject({ day: dayIn(14), isHeadsUp: true });
  });

  test('where it cannot be worked out, what is at hand is said, and the next look tries again', async () => {
    const { calls, say, act } = floor();
    await quiet();
    calls[0]?.fail();
    await quiet();
    expect(say()).toBeNull();
    act();
    await quiet();
    expect(calls).toHaveLength(2);
  });

  test('beside a running session nothing is worked out; once it has ended it is', async () => {
    const { calls, run, act, say } = floor();
    run(true);
    await quiet();
    expect(calls).toHaveLength(0);
    run(false);
    act();
    await quiet();
    expect(calls).toHaveLength(1);
    // a session starts before the answer: it is called off
    run(true);
    act();
    expect(calls[0]?.signal?.aborted).toBe(true);
    await quiet();
    expect(calls).toHaveLength(1);
    run(false);
    act();
    await quiet();
    calls[1]?.answer(AGAIN);
    await quiet();
    expect(say()?.text).toContain('Pain');
  });

  test('a session that was forgotten open yesterday is none that runs', async () => {
    const { calls, run } = floor();
    run(true, 13);
    await quiet();
    expect(calls).toHaveLength(1);
  });

  test('leaving calls it off, and what was done meanwhile is looked at on coming back', async () => {
    const first = floor();
    await quiet();
    first.calls[0]?.answer(AGAIN);
    await quiet();
    first.act();
    await quiet();
    first.heads.stop();
    expect(first.calls[1]?.signal?.aborted).toBe(true);
    first.act();
    await quiet();
    expect(first.calls).toHaveLength(2);
    expect(first.say(watchHeads(first.app, () => undefined))?.text).toContain('Pain');
    await quiet();
    expect(first.calls).toHaveLength(3);
  });
});
