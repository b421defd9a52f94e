import { describe, expect, test } from 'vitest';
import { listedThings } from '../../src/domain/session';
import { turns } from './fakes/life';
import { entry, newClient, newSession, onFloor, PULL, SQUAT, sessionOnDisk } from './floor';
import { type At, blockAt, exerciseOf, good, missingIn, newBlock, sessionAt, setsAt, stations } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';

const list = (at: At): string[] => listedThings(sessionAt(REAL, at)).map(({ id }) => id.replace('lib-', ''));
const put = (at: At, id: string, behind?: string) => REAL.listExercise(at.log, at.place, `lib-${id}`, at.world, behind);
const move = (at: At, id: string, by: -1 | 1) => REAL.moveItem(at.log, at.place, id, by, at.world);

describe('the list of today', () => {
  test('takes exercises at its end or behind another, blocks among them', async () => {
    const at = atOf(await onFloor(REAL));
    for (const id of ['back-squat', 'deadlift']) await put(at, id);
    await put(at, 'bench-press', 'lib-back-squat');
    const { id } = good(
      REAL.addBlock(
        at.log,
        at.place,
        { kind: 'most', cap: '600', rounds: '', reps: '', rest: '', work: '', off: '', every: '' },
        [],
        at.world,
        'lib-bench-press',
      ),
    );
    await put(at, 'pull-up', id);
    await put(at, 'push-up', 'not on the list');
    expect(list(at)).toEqual(['back-squat', 'bench-press', id, 'pull-up', 'deadlift', 'push-up']);
  });

  test('moves things one place up or down, and not over its ends', async () => {
    const at = atOf(await onFloor(REAL));
    for (const id of ['back-squat', 'deadlift', 'bench-press']) await put(at, id);
    await move(at, 'lib-back-squat', 1);
    expect(list(at)).toEqual(['deadlift', 'back-squat', 'bench-press']);
    await move(at, 'lib-bench-press', -1);
    expect(list(at)).toEqual(['deadlift', 'bench-press', 'back-squat']);
    expect(move(at, 'lib-deadlift', -1)).toBeUndefined();
    expect(move(at, 'lib-back-squat', 1)).toBeUndefined();
    expect(move(at, 'lib-pull-up', 1)).toBeUndefined();
    expect(list(at)).toEqual(['deadlift', 'bench-press', 'back-squat']);
  });

  test('moves what only sets tell of as well: one place, wherever it stands', async () => {
    const at = atOf(await onFloor(REAL));
    await put(at, 'back-squat');
    for (const id of ['lib-calf-raise', 'lib-push-up', 'lib-pull-up']) {
      const exercise = exerciseOf(id) ?? PULL;
      await good(REAL.logSet(at.log, at.place, entry('', '8', { exercise: id }), exercise, at.world)).saved;
      at.world.pass(1000);
    }
    expect(list(at)).toEqual(['back-squat', 'calf-raise', 'push-up', 'pull-up']);
    await move(at, 'lib-pull-up', -1);
    expect(list(at)).toEqual(['back-squat', 'calf-raise', 'pull-up', 'push-up']);
    await at.log.undo()?.saved;
    expect(list(at)).toEqual(['back-squat', 'calf-raise', 'push-up', 'pull-up']);
    await move(at, 'lib-back-squat', 1);
    expect(list(at)).toEqual(['calf-raise', 'back-squat', 'push-up', 'pull-up']);
  });

  test('any number of moves leaves every thing on it once', async () => {
    const at = atOf(await onFloor(REAL, 40_217));
    const ids = ['back-squat', 'deadlift', 'bench-press', 'pull-up', 'push-up'];
    for (const id of ids) await put(at, id);
    let expected = [...ids];
    for (let n = 0; n < 200; n += 1) {
      const from = at.world.pick(5);
      const by = at.world.pick(2) === 0 ? -1 : 1;
      const id = expected[from] ?? '';
      void move(at, `lib-${id}`, by);
      if (from + by >= 0 && from + by < 5) {
        expected = expected.filter((one) => one !== id);
        expected.splice(from + by, 0, id);
      }
      expect(list(at)).toEqual(expected);
    }
    await at.log.retry();
  });
});

describe('changes of today', () => {
  test('a swap puts another right behind, in hand, and keeps what was done', async () => {
    const at = atOf(await onFloor(REAL));
    for (const id of ['back-squat', 'deadlift']) await put(at, id);
    await good(REAL.logSet(at.log, at.place, entry('100', '5'), SQUAT, at.world)).saved;
    const draft = { key: REAL.padDraft(at.place), value: { exercise: 'lib-goblet-squat' } };
    await REAL.swap(at.log, at.place, { type: 'exercise', id: SQUAT.id }, 'lib-goblet-squat', 'taken', at.world, draft);
    expect(list(at)).toEqual(['back-squat', 'goblet-squat', 'deadlift']);
    expect(sessionAt(REAL, at).items[0]?.swappedFor).toEqual({ exercise: 'lib-goblet-squat', why: 'taken' });
    expect(setsAt(REAL, at)).toEqual(['back-squat x5']);
    expect(at.log.draft(draft.key)).toEqual(draft.value);
    await REAL.takeUp(at.log, at.place, { type: 'exercise', id: SQUAT.id });
    expect(sessionAt(REAL, at).items[0]).not.toHaveProperty('swappedFor');
  });

  test('swapping back what was skipped or swapped opens it again', async () => {
    const at = atOf(await onFloor(REAL));
    const draft = { key: REAL.padDraft(at.place), value: null };
    for (const id of ['back-squat', 'deadlift']) await put(at, id);
    await REAL.skip(at.log, at.place, [{ type: 'exercise', id: 'lib-deadlift' }], 'back');
    expect(sessionAt(REAL, at).items[1]?.skipped).toEqual({ why: 'back' });
    await REAL.swap(at.log, at.place, { type: 'exercise', id: SQUAT.id }, 'lib-deadlift', '', at.world, draft);
    expect(sessionAt(REAL, at).items[1]).not.toHaveProperty('skipped');
  });

  test('at a station the new one stands in its stead; what stood there before any swap is remembered', async () => {
    const at = atOf(await onFloor(REAL));
    const block = await newBlock(REAL, at, { rounds: '2' }, stations('lib-pull-up', 'lib-push-up'));
    await good(REAL.logCells(at.log, at.place, missingIn(REAL, at, block.id, 1), at.world));
    const id = block.stations[0]?.id ?? '';
    const swap = (by: string) =>
      REAL.swap(at.log, at.place, { type: 'station', block: block.id, id }, by, '', at.world, {
        key: REAL.padDraft(at.place),
        value: null,
      });
    const station = () => blockAt(REAL, at, block.id).stations[0];
    await swap('lib-inverted-row');
    expect(station()).toMatchObject({ exercise: 'lib-inverted-row', was: 'lib-pull-up', plan: {} });
    await swap('lib-band-pull-apart');
    expect(station()).toMatchObject({ exercise: 'lib-band-pull-apart', was: 'lib-pull-up' });
    expect(setsAt(REAL, at)).toEqual(['pull-up r1 x8', 'push-up r1 x8']);
    expect(missingIn(REAL, at, block.id, 1)).toEqual([]);
    await swap('lib-pull-up');
    expect(station()?.exercise).toBe('lib-pull-up');
    expect(station()).not.toHaveProperty('was');
  });

  test('several things are left out in one act', async () => {
    const at = atOf(await onFloor(REAL));
    for (const id of ['back-squat', 'deadlift']) await put(at, id);
    const { id } = await newBlock(REAL, at, {}, stations('lib-push-up'));
    await REAL.skip(
      at.log,
      at.place,
      [
        { type: 'exercise', id: 'lib-deadlift' },
        { type: 'block', id },
      ],
      'to 30 minutes',
    );
    const { items, blocks } = sessionAt(REAL, at);
    expect(items.map((item) => item.skipped?.why)).toEqual([undefined, 'to 30 minutes']);
    expect(blocks[0]?.skipped).toEqual({ why: 'to 30 minutes' });
    await REAL.takeUp(at.log, at.place, { type: 'block', id });
    expect(sessionAt(REAL, at).blocks[0]).not.toHaveProperty('skipped');
  });

  test('a count over the session is refused by its field, put on the list, and ended without its sets', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const stored = await sessionOnDisk(floor.device, floor.place);
    for (const [text, type] of [
      ['', 'empty'],
      ['0', 'out-of-range'],
      ['2001', 'out-of-range'],
      ['2.5', 'off-step'],
      ['many', 'not-a-number'],
    ] as const) {
      expect(REAL.spread(at.log, at.place, PULL.id, text, at.world)).toMatchObject({
        ok: false,
        error: { type, field: 'tally' },
      });
    }
    await turns(20);
    expect(await sessionOnDisk(floor.device, floor.place)).toEqual(stored);
    await good(REAL.spread(at.log, at.place, PULL.id, '30', at.world));
    await good(
      REAL.addToTally(at.log, at.place, { entry: entry('', '5', { exercise: PULL.id }), exercise: PULL }, at.world),
    );
    expect(list(at)).toEqual(['pull-up']);
    await good(REAL.spread(at.log, at.place, PULL.id, null, at.world));
    expect(sessionAt(REAL, at).items).toEqual([expect.not.objectContaining({ tally: 30 })]);
    expect(setsAt(REAL, at)).toEqual(['pull-up x5']);
  });

  test('the same again for two clients is one act; where one of them is refused, none is stored', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const other = await newSession(REAL, floor, await newClient(REAL, floor, 'Client M'));
    const both = (reps: string) => [
      { place: at.place, entry: entry('60', '8'), exercise: SQUAT },
      { place: other, entry: entry('40', reps), exercise: SQUAT },
    ];
    expect(REAL.logTogether(at.log, both(''), at.world)).toEqual({
      ok: false,
      error: { type: 'set-refused', exercise: SQUAT.id, fault: { type: 'empty', field: 'reps' } },
    });
    expect([setsAt(REAL, at), setsAt(REAL, { ...at, place: other })]).toEqual([[], []]);
    floor.device.disk.asked.length = 0;
    await good(REAL.logTogether(at.log, both('10'), at.world));
    expect(floor.device.disk.asked.filter(({ mode }) => mode === 'readwrite')).toHaveLength(1);
    expect([setsAt(REAL, at), setsAt(REAL, { ...at, place: other })]).toEqual([['back-squat x8'], ['back-squat x10']]);
    at.log.undo();
    expect([setsAt(REAL, at), setsAt(REAL, { ...at, place: other })]).toEqual([[], []]);
  });
});
