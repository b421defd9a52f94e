import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Answers } from '../../src/analysis/answers';
import { eraseClient } from '../../src/log/eraseActs';
import { choose } from '../../src/log/settingsActs';
import type { Row } from '../../src/merge/row';
import type { Told } from '../../src/ui/analysing';
import { entry, newSession, SQUAT } from '../log/floor';
import { good } from '../log/gym';
import { REAL } from '../log/room';
import { expected, ROWS, STREAMS, studio, TODAY, taken, withWorkers, worked } from './rig';

const [A = '', B = '', C = '', D = ''] = STREAMS;
const none = (): void => undefined;

afterEach(() => vi.unstubAllGlobals());

/** Returns what is said of one of them. */
const of = (stream: string, all: readonly Answers[]): Answers | undefined => all.find((one) => one.stream === stream);

/** Starts a session now and logs a set in it. */
async function logged({ device, app }: Awaited<ReturnType<typeof studio>>, stream: string) {
  const place = await newSession(REAL, { device, app }, stream);
  const { set, saved } = good(REAL.logSet(app.log, place, entry('250', '5'), SQUAT, device.world));
  await saved;
  return { place, set };
}

describe('in a worker', () => {
  test('every client’s answers are what all rows say at once; each is told as soon as it is there; one client’s rows at a time', async () => {
    const workers = withWorkers();
    const at = await studio();
    const told: [string, Told][] = [];
    const all = await at.analysing.studio(TODAY, (one, progress) => told.push([one.stream, progress]));
    expect(all).toEqual(await expected(at.app));
    expect(told).toEqual([A, B, C, D].map((stream, n) => [stream, { done: n + 1, of: 4 }]));
    // the cues of the others first; then each is read once more for its answers
    expect(workers.map(worked)).toEqual([
      [`uses ${B}`, `uses ${C}`, `uses ${D}`, `answers ${A}`, `answers ${B}`, `answers ${C}`, `answers ${D}`],
    ]);
    const libraries = workers[0]?.told.filter(({ type }) => type === 'library');
    expect(libraries).toHaveLength(1);
    // nobody is held when all is done
    expect(workers[0]?.told.at(-1)).toEqual({ type: 'let-go' });
  });

  test('one client alone is read alone, and said nothing of that leans on others; it is kept by nobody', async () => {
    const workers = withWorkers();
    const at = await studio();
    const said = await at.analysing.alone(C, TODAY);
    const whole = of(C, await expected(at.app));
    expect(said?.others.tonnage).toEqual(whole?.others.tonnage);
    expect(said?.found.filter(({ topic }) => topic !== 'cues')).toEqual(
      whole?.found.filter(({ topic }) => topic !== 'cues'),
    );
    await at.analysing.alone(C, TODAY);
    expect(workers.map(worked)).toEqual([[`answers ${C}`, `answers ${C}`]]);
    expect(await at.analysing.client(C, TODAY)).toEqual(whole);
    expect(await at.analysing.alone('nobody', TODAY)).toBeUndefined();
    await at.app.run(() => eraseClient(at.app.log, C));
    expect(await at.analysing.alone(C, TODAY)).toBeUndefined();
  });

  test('one client’s are told how far they are, and as of an earlier day know nothing later', async () => {
    withWorkers();
    const at = await studio();
    const told: Told[] = [];
    const earlier = '2026-02-10';
    const said = await at.analysing.client(C, earlier, (progress) => told.push(progress));
    expect(said).toEqual(of(C, await expected(at.app, earlier)));
    expect(said?.others.tonnage).not.toEqual(of(C, await expected(at.app))?.others.tonnage);
    expect(told).toEqual([0, 1, 2, 3, 4].map((done) => ({ done, of: 4 })));
  });

  test('a set that was just logged is in them, and sessions that run are too', async () => {
    withWorkers();
    const at = await studio();
    await logged(at, B);
    const said = await at.analysing.client(B, TODAY);
    expect(said).toEqual(of(B, await expected(at.app)));
    const weeks = said?.others.tonnage.weeks.filter(({ week }) => week === '2026-03-02');
    expect(JSON.stringify(weeks)).toContain('1250');
  });

  test('of nobody there are none: a stream that is no client’s, and a log with no clients', async () => {
    const workers = withWorkers();
    const at = await studio([]);
    expect(await at.analysing.client('nobody', TODAY)).toBeUndefined();
    expect(await at.analysing.studio(TODAY, none)).toEqual([]);
    expect(workers).toEqual([]);
  });

  test('a store that cannot be read gives no answer, and the next one is right', async () => {
    withWorkers();
    const at = await studio();
    at.device.disk.readsFail = true;
    expect(await at.analysing.client(A, TODAY)).toBeUndefined();
    expect(await at.analysing.studio(TODAY, none)).toBeUndefined();
    at.device.disk.readsFail = false;
    expect(await at.analysing.client(A, TODAY)).toEqual(of(A, await expected(at.app)));
  });
});

describe('what was worked out', () => {
  /** Everything worked out; returns what is read for the next question. */
  async function known() {
    const workers = withWorkers();
    const at = await studio();
    const first = await at.analysing.studio(TODAY, none);
    const before = workers.flatMap(worked).length;
    const anew = async (): Promise<readonly string[]> => {
      const had = workers.flatMap(worked).length;
      expect(await at.analysing.studio(TODAY, none)).toEqual(await expected(at.app));
      return workers.flatMap(worked).slice(had);
    };
    return { ...at, first, before, anew };
  }

  test('is kept, and so it stays when records are only looked at', async () => {
    const { app, anew } = await known();
    expect(await anew()).toEqual([]);
    const session = ROWS.find(({ kind, stream }) => kind === 'session' && stream === A) as Row;
    await app.log.loadSession(A, session.id);
    await app.log.loadResults(A);
    expect(app.log.get(`${A}/${session.id}`)).toBeDefined();
    expect(await anew()).toEqual([]);
    app.log.releaseSession(A, session.id);
    expect(await anew()).toEqual([]);
  });

  test('is made anew of the client whose records changed, when it is asked for', async () => {
    const at = await known();
    const { set, place } = await logged(at, B);
    // nothing is worked out before someone asks: B's cues are read again, and say what they said
    expect(await at.anew()).toEqual([`uses ${B}`, `answers ${B}`]);
    await REAL.removeSet(at.app.log, place, set);
    expect(await at.anew()).toEqual([`uses ${B}`, `answers ${B}`]);
    await at.app.log.undo()?.saved;
    expect(await at.anew()).toEqual([`uses ${B}`, `answers ${B}`]);
    good(
      REAL.noteOtherWork(at.app.log, A, { work: 'rest day', day: TODAY, hours: null, effort: null }, at.device.world),
    );
    expect(await at.anew()).toEqual([`answers ${A}`]);
  });

  test('is made anew of all where a cue did with one of them what it had not done', async () => {
    const at = await known();
    const { place, set } = await logged(at, A);
    await at.anew();
    await REAL.touchUp(at.app.log, place, set, { 'cues/cue-x': { cue: 'cue-x', answer: 'better' } });
    // A's are asked for first, and its cues come with them
    expect(await at.anew()).toEqual([A, B, C, D].map((stream) => `answers ${stream}`));
  });

  test('is made anew of all with another first day of the week, or another exercise in the library', async () => {
    const { app, device, anew } = await known();
    const all = [A, B, C, D].map((stream) => `answers ${stream}`);
    await choose(app.log, 'firstDay', 'sun');
    expect(await anew()).toEqual(all);
    const own = ROWS.find(({ kind }) => kind === 'exercise') as Row;
    const l = device.world.now();
    await taken(app, [
      { ...own, seen: { ...own.seen, x: l }, body: { ...own.body, rest: [{ value: 45, stamp: { l, writer: 'x' } }] } },
    ]);
    expect(await anew()).toEqual(expect.arrayContaining(all));
  });

  test('is stale after an import that changed a session which is not in memory', async () => {
    const { app, device, anew } = await known();
    const session = ROWS.find((row) => row.kind === 'session' && row.stream === C && 'effort' in row.body) as Row;
    const l = device.world.now();
    const effort = [{ value: { value: 1, as: 'session' }, stamp: { l, writer: 'x' } }] as const;
    await taken(app, [{ ...session, seen: { ...session.seen, x: l }, body: { ...session.body, effort } }]);
    expect(app.log.get(`${C}/${session.id}`)).toBeUndefined();
    expect(await anew()).toContain(`answers ${C}`);
  });

  test('that changed while it was worked out is given, and not kept', async () => {
    let change: (() => void) | undefined;
    const workers = withWorkers(({ question }) => {
      if (question.type === 'answers') change?.();
      return undefined;
    });
    const at = await studio();
    const { place } = await logged(at, A);
    const before = of(A, await expected(at.app));
    change = () => void good(REAL.logSet(at.app.log, place, entry('260', '4'), SQUAT, at.device.world));
    expect(await at.analysing.client(A, TODAY)).toEqual(before);
    change = undefined;
    expect(await at.analysing.client(A, TODAY)).toEqual(of(A, await expected(at.app)));
    expect(workers.flatMap(worked).slice(-2)).toEqual([`answers ${A}`, `answers ${A}`]);
  });

  test('[M10] of a client who was erased is gone, and their cues with it', async () => {
    const { app, analysing, anew } = await known();
    await app.run(() => eraseClient(app.log, B));
    expect(await analysing.client(B, TODAY)).toBeUndefined();
    const read = await anew();
    expect(read.join()).not.toContain(B);
    expect(read).toEqual([A, C, D].map((stream) => `answers ${stream}`));
  });

  test('[M10] of a client who is erased while it is worked out is not told', async () => {
    let erase: (() => Promise<unknown>) | undefined;
    withWorkers(({ question }) => {
      if (question.type === 'answers') void erase?.();
      return undefined;
    });
    const at = await studio();
    erase = () => at.app.run(() => eraseClient(at.app.log, A));
    expect(await at.analysing.client(A, TODAY)).toBeUndefined();
    erase = undefined;
    expect((await at.analysing.studio(TODAY, none))?.map(({ stream }) => stream)).toEqual([B, C, D]);
  });
});
