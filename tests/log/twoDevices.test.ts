import { describe, expect, test } from 'vitest';
import { gridOf } from '../../src/domain/block';
import { clockMinutes } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { shown } from '../../src/merge/shown';
import { entry, PULL, SQUAT } from './floor';
import { type At, blockAt, cellOf, exerciseOf, good, missingIn, ROUNDS, stations } from './gym';
import { met, two } from './meeting';
import { type Paper, paper } from './paper';
import { REAL } from './room';

const push = exerciseOf('lib-push-up') ?? PULL;

describe('what two devices did apart is one session', () => {
  test('both add a block and a station: all are there, in one order', async () => {
    const all = await two();
    const { onA, onB, block } = all;
    for (const on of [onA, onB]) {
      good(REAL.addBlock(on.log, on.place, { ...ROUNDS, kind: 'most', cap: '600' }, stations('lib-push-up'), on.world));
      good(REAL.addStation(on.log, on.place, blockAt(REAL, on, block), 'lib-calf-raise', {}, on.world));
    }
    const { blocks, unread } = met(all);
    expect(blocks.map(({ kind }) => kind)).toEqual(['rounds', 'most', 'most']);
    expect(blocks[0]?.stations.map(({ exercise }) => exercise)).toEqual([
      'lib-push-up',
      'lib-pull-up',
      'lib-calf-raise',
      'lib-calf-raise',
    ]);
    expect(unread).toEqual([]);
  });

  test('both log the round: no set is lost, and the cells hold two each', async () => {
    const all = await two();
    for (const on of [all.onA, all.onB]) {
      good(REAL.logCells(on.log, on.place, missingIn(REAL, on, all.block, 1), on.world));
    }
    const { sets, blocks } = met(all);
    expect(sets).toHaveLength(4);
    const grid = gridOf(blocks[0]!, sets, exerciseOf);
    expect(grid.map((row) => row.map(({ done }) => done.length))).toEqual([
      [2, 0],
      [2, 0],
    ]);
  });

  test('[M5] one removes the block while the other logs in it: its set is there, in no block', async () => {
    const all = await two();
    const { onA, onB, block } = all;
    const typed = cellOf(blockAt(REAL, onB, block), 0, 1, {});
    good(REAL.logSet(onB.log, onB.place, typed, push, onB.world));
    await REAL.removeThing(onA.log, onA.place, { type: 'block', id: block });
    const { sets, blocks, items } = met(all);
    expect(blocks).toEqual([]);
    expect(sets.map(({ exercise, reps }) => [exercise, reps])).toEqual([['lib-push-up', 8]]);
    expect(items).toEqual([{ id: 'lib-push-up' }]);
  });

  test('[M5] one removes the block while the other changes it: it stays, with all its stations', async () => {
    const all = await two();
    const { onA, onB, block } = all;
    await REAL.removeThing(onA.log, onA.place, { type: 'block', id: block });
    good(REAL.editBlock(onB.log, onB.place, block, { ...ROUNDS, rounds: '5' }));
    const [read] = met(all).blocks;
    expect(read).toMatchObject({ id: block, rounds: 5 });
    expect(read?.stations).toHaveLength(2);
  });

  test('both swap a station: the later write shows, the other stands beside it, and the sets keep their exercises', async () => {
    const all = await two();
    const { onA, onB, block } = all;
    const id = blockAt(REAL, onA, block).stations[1]?.id ?? '';
    good(REAL.logCells(onA.log, onA.place, missingIn(REAL, onA, block, 1), onA.world));
    const swap = (on: At, by: string) =>
      REAL.swap(on.log, on.place, { type: 'station', block, id }, by, '', on.world, { key: 'pad', value: null });
    await swap(onA, 'lib-inverted-row');
    onB.world.pass(60_000);
    await swap(onB, 'lib-band-pull-apart');
    const { blocks, sets } = met(all);
    expect(blocks[0]?.stations[1]).toMatchObject({ exercise: 'lib-band-pull-apart', was: 'lib-pull-up' });
    expect(sets.map(({ exercise }) => exercise)).toEqual(['lib-push-up', 'lib-pull-up']);
    const register = all.a.log.get(REAL.keyOf({ stream: onA.place.stream, id: onA.place.session }))?.body;
    expect(register?.[`blocks/${block}/stations/${id}/exercise`]?.map(({ value }) => value)).toEqual([
      'lib-band-pull-apart',
      'lib-inverted-row',
    ]);
  });

  test('both pause and go on: two pauses, and what overlaps counts once', async () => {
    const all = await two();
    const { onA, onB } = all;
    const begin = onA.world.now();
    for (const [on, from, long] of [
      [onA, 10, 10],
      [onB, 15, 10],
    ] as const) {
      on.world.pass(from * 60_000);
      await REAL.pauseSession(on.log, on.place, on.world);
      on.world.pass(long * 60_000);
      await REAL.endPauses(on.log, on.place, on.world);
    }
    const read = met(all);
    expect(read.pauses.map(({ from, to }) => [(from - begin) / 60_000, ((to ?? 0) - begin) / 60_000])).toEqual([
      [10, 20],
      [15, 25],
    ]);
    expect(clockMinutes(read, begin + 60 * 60_000)).toBe(45);
  });

  test('[M9] landings judged on one while the other says there were fewer: kept, named, not mended', async () => {
    const all = await two();
    const { onA, onB } = all;
    const jump = exerciseOf('lib-box-jump') ?? SQUAT;
    const typed = entry('', '', { exercise: jump.id, landings: '6' });
    const { set } = good(REAL.logSet(onA.log, onA.place, typed, jump, onA.world));
    met(all);
    await REAL.touchUp(onA.log, onA.place, set, { 'marks/6': { good: false, held: false }, 'marks/1': { good: true } });
    await REAL.touchUp(onB.log, onB.place, set, { landings: 4 });
    const { sets, unread } = met(all);
    expect(sets[0]).toMatchObject({
      landings: 4,
      marks: [
        { n: 1, good: true },
        { n: 6, good: false, held: false },
      ],
    });
    expect(unread).toEqual([{ type: 'more-good-than-done', path: `sets/${set}` }]);
  });

  test('[M9] a kind changed on one and parts on the other, added and assisted: kept and named', async () => {
    const all = await two();
    const { onA, onB } = all;
    const typed = entry('10', '5', { exercise: PULL.id, body: 'added' });
    const { set } = good(REAL.logSet(onA.log, onA.place, typed, PULL, onA.world));
    met(all);
    await REAL.touchUp(onA.log, onA.place, set, { assist: { value: 20, unit: 'kg' } });
    await REAL.touchUp(onB.log, onB.place, set, { 'parts/1a/reps': 3 });
    const { sets, unread } = met(all);
    expect(sets[0]).toMatchObject({ added: { value: 10 }, assist: { value: 20 }, parts: [{ id: '1a', reps: 3 }] });
    expect(unread.map(({ type }) => type)).toEqual(['added-and-assist', 'parts-unasked']);
  });

  test('[M11] the same planned session started on both is one row, with the sets of both', async () => {
    const all = await two();
    const { a, b, onA, onB } = all;
    const { stream } = onA.place;
    const { id } = good(REAL.keepTemplate(a.log, onA.place, 'Circuit', ['tue'], a.world));
    met(all);
    const started = await Promise.all([a, b].map((one) => REAL.startFromTemplate(one.log, stream, id, one.world)));
    expect(started[0]?.session).toBe(started[1]?.session);
    const place = { stream, session: started[0]?.session ?? '' };
    const [mine, theirs] = [onA, onB].map((on) => ({ ...on, place }));
    for (const on of [mine!, theirs!]) good(REAL.logSet(on.log, place, entry('60', '5'), SQUAT, on.world));
    const read = met({ ...all, onA: mine!, onB: theirs! });
    expect(read.sets).toHaveLength(2);
    expect(read.blocks.map((block) => block.id)).toEqual([all.block]);
    expect(REAL.sessionsInMemory(a.log)).toHaveLength(2);
  });
});

/** The order in which two devices meet does not matter to what is shown. */
test('rows of two devices show the same, whoever takes in whom first', async () => {
  const all = await two(3);
  good(REAL.logCells(all.onA.log, all.onA.place, missingIn(REAL, all.onA, all.block, 1), all.onA.world));
  await REAL.moveItem(all.onB.log, all.onB.place, all.block, 1, all.onB.world);
  good(REAL.logCells(all.onB.log, all.onB.place, missingIn(REAL, all.onB, all.block, 2), all.onB.world));
  const [c, d] = [paper('c-1', 5), paper('d-1', 6)];
  c.meet(all.a);
  c.meet(all.b);
  d.meet(all.b);
  d.meet(all.a);
  const sets = (one: Paper): readonly SetRecord[] | undefined =>
    REAL.session(one.log, all.onA.place.stream, all.onA.place.session)?.sets;
  expect(sets(c)).toHaveLength(4);
  expect(sets(d)).toEqual(sets(c));
  expect(c.rows().map(shown)).toEqual(expect.arrayContaining(d.rows().map(shown)));
});
