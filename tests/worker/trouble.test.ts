import { afterEach, describe, expect, test, vi } from 'vitest';
import { createAnalyst, type Handed } from '../../src/worker/analyst';
import { workerDesk } from '../../src/worker/desk';
import { createDesks } from '../../src/worker/desks';
import { instantIn } from '../domain/made';
import { expected, STREAMS, studio, TODAY, withWorkers, worked } from './rig';

const [A = '', B = ''] = STREAMS;
const none = (): void => undefined;
const question = { type: 'uses', asOf: '2026-11-24' } as const;

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('called off', () => {
  test('at once, wherever it stands: no answer comes, the worker is ended, and the next question has a new one', async () => {
    const stop = new AbortController();
    const workers = withWorkers(() => {
      if (stop.signal.aborted) return undefined;
      stop.abort();
      return 'silent';
    });
    const at = await studio();
    expect(await at.analysing.client(A, TODAY, none, stop.signal)).toBeUndefined();
    await expect.poll(() => workers[0]?.ended).toBe(true);
    expect(await at.analysing.client(A, TODAY)).toEqual((await expected(at.app)).find(({ stream }) => stream === A));
    expect(workers).toHaveLength(2);
  });

  test('between two clients of the studio: those who were told stay told, and no more come', async () => {
    withWorkers();
    const at = await studio();
    const stop = new AbortController();
    const told: string[] = [];
    const all = await at.analysing.studio(
      TODAY,
      ({ stream }) => {
        told.push(stream);
        if (stream === B) stop.abort();
      },
      stop.signal,
    );
    expect(all).toBeUndefined();
    expect(told).toEqual([A, B]);
  });

  test('before it began, nothing begins', async () => {
    const workers = withWorkers();
    const at = await studio();
    const stop = new AbortController();
    stop.abort();
    expect(await at.analysing.client(A, TODAY, none, stop.signal)).toBeUndefined();
    expect(await at.analysing.studio(TODAY, none, stop.signal)).toBeUndefined();
    expect(workers).toEqual([]);
  });

  test('one of two who ask: the other is answered', async () => {
    withWorkers();
    const at = await studio();
    const stop = new AbortController();
    const first = at.analysing.studio(TODAY, none, stop.signal);
    const second = at.analysing.client(B, TODAY);
    stop.abort();
    expect(await first).toBeUndefined();
    expect((await second)?.stream).toBe(B);
  });
});

describe('a worker that', () => {
  test('dies on the way is done without: the page gives the same answers', async () => {
    const workers = withWorkers(({ question: { type } }, worker) => {
      if (type !== 'answers') return undefined;
      setTimeout(worker.breakDown, 0);
      return 'silent';
    });
    const at = await studio();
    expect(await at.analysing.studio(TODAY, none)).toEqual(await expected(at.app));
    expect(workers).toHaveLength(1);
    expect(workers[0]?.ended).toBe(true);
  });

  test('does not come up, or that there is none of, is done without too', async () => {
    vi.stubGlobal('Worker', function refused() {
      throw new Error('refused by the page');
    });
    const at = await studio();
    const all = await expected(at.app);
    expect(await at.analysing.studio(TODAY, none)).toEqual(all);
    vi.stubGlobal('Worker', undefined);
    const bare = await studio();
    expect(await bare.analysing.studio(TODAY, none)).toEqual(all);
  });

  test('cannot work one client out says so: that one is missing, and the others are told', async () => {
    const workers = withWorkers(({ question: { type } }, worker) =>
      type === 'answers' && worked(worker).at(-1) === `answers ${B}` ? 'failed' : undefined,
    );
    const at = await studio();
    expect(await at.analysing.client(B, TODAY)).toBeUndefined();
    const all = (await expected(at.app)).filter(({ stream }) => stream !== B);
    expect(await at.analysing.studio(TODAY, none)).toEqual(all);
    expect(workers).toHaveLength(1);
  });

  test('does not answer in a minute is given up', async () => {
    vi.useFakeTimers();
    const workers = withWorkers(() => 'silent');
    const heard = vi.fn();
    void workerDesk()?.ask(question).then(heard);
    await vi.advanceTimersByTimeAsync(59_000);
    expect(heard).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(2_000);
    expect(heard.mock.calls).toEqual([[{ type: 'stuck' }]]);
    expect(workers).toHaveLength(1);
  });

  test('is lost while it is handed things is so at the next question', async () => {
    const workers = withWorkers();
    const desk = workerDesk();
    workers[0]?.breakDown();
    expect(await desk?.ask(question)).toEqual({ type: 'lost' });
  });

  test('is no longer needed is ended after a minute, and not while there is work', async () => {
    vi.useFakeTimers();
    const workers = withWorkers();
    const desks = createDesks();
    const first = await desks.open();
    desks.rest();
    await vi.advanceTimersByTimeAsync(59_000);
    expect(await desks.open()).toBe(first);
    await vi.advanceTimersByTimeAsync(600_000);
    expect(workers[0]?.ended).toBe(false);
    desks.rest();
    await vi.advanceTimersByTimeAsync(61_000);
    expect(workers[0]?.ended).toBe(true);
    expect(await desks.open()).not.toBe(first);
    expect(workers).toHaveLength(2);
    // lost: the page takes over until there is no more work
    const page = await desks.stay();
    expect(await desks.open()).toBe(page);
    desks.rest();
    await vi.advanceTimersByTimeAsync(61_000);
    await desks.open();
    expect(workers).toHaveLength(3);
  });
});

describe('an analyst', () => {
  test('reads a session with its continuation, however many there are and wherever the rows stand', () => {
    const set = (n: number, id: string) => ({
      [`sets/${id}/exercise`]: 'lib-back-squat',
      [`sets/${id}/kind`]: 'working',
      [`sets/${id}/reps`]: 5,
      [`sets/${id}/at`]: instantIn(n),
      [`sets/${id}/cues/c1`]: { cue: 'c1', answer: 'better' },
    });
    const ids = Array.from({ length: 120 }, (_, n) => `s${String(n).padStart(3, '0')}`);
    const parents = ids.map((id, n) => ({
      ...named,
      kind: 'session',
      id,
      values: { start: instantIn(n), ...set(n, 'a') },
    }));
    const continued = ids.map((id, n) => ({
      ...named,
      kind: 'session',
      id: `z${id}`,
      values: { of: id, ...set(n, 'b') },
    }));
    expect(last([{ type: 'rows', rows: [...continued, named, ...parents] }])).toEqual({
      type: 'uses',
      uses: [{ cue: 'c1', used: 240, worked: 240, badUsed: 0, badWorked: 0, unanswered: 0 }],
    });
  });

  const last = (handed: readonly Handed[]) => {
    const analyst = createAnalyst();
    for (const one of handed) analyst.take(one);
    const steps = analyst.reply(question);
    let step = steps.next();
    while (!step.done) step = steps.next();
    return step.value;
  };
  const named = { stream: 'c', id: 'c', kind: 'client', values: { alias: 'Client K' } };

  test('says of rows without a name, and of nothing, that they are nobody’s', () => {
    expect(last([])).toEqual({ type: 'nobody' });
    expect(last([{ type: 'client' }, { type: 'rows', rows: [{ ...named, values: {} }] }])).toEqual({ type: 'nobody' });
  });

  test('holds nothing of a client who was let go, or of the one before', () => {
    const rows = { type: 'rows', rows: [named] } as const;
    expect(last([rows])).toMatchObject({ type: 'uses' });
    expect(last([rows, { type: 'let-go' }])).toEqual({ type: 'nobody' });
    expect(last([rows, { type: 'client' }])).toEqual({ type: 'nobody' });
  });
});
