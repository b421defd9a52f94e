import { describe, expect, test } from 'vitest';
import { blockState } from '../../src/domain/block';
import { blockClock } from '../../src/domain/blockClock';
import { restOf } from '../../src/domain/rest';
import type { BlockFields } from '../../src/log/blockActs';
import { turns } from './fakes/life';
import { onFloor, sessionOnDisk } from './floor';
import { blockAt, exerciseOf, good, gridAt, missingIn, newBlock, ROUNDS, sessionAt, setsAt, stations } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';
import { relaunched } from './suite-writes';

describe('a block', () => {
  test.each<[fields: Partial<BlockFields>, registers: object]>([
    [
      { kind: 'rounds', rounds: '3', rest: '90' },
      { kind: 'rounds', rounds: 3, rest: 90 },
    ],
    [
      { kind: 'rounds', rounds: '3', rest: ' ' },
      { kind: 'rounds', rounds: 3 },
    ],
    [
      { kind: 'list', reps: '21-15-9' },
      { kind: 'list', rounds: 3, reps: [21, 15, 9] },
    ],
    [
      { kind: 'list', reps: '10, 8; 6–4 2' },
      { kind: 'list', rounds: 5, reps: [10, 8, 6, 4, 2] },
    ],
    [
      { kind: 'every', rounds: '10', every: '60' },
      { kind: 'every', rounds: 10, every: 60 },
    ],
    [
      { kind: 'most', cap: '720', rounds: 'nonsense' },
      { kind: 'most', rounds: 0, cap: 720 },
    ],
    [
      { kind: 'timed', rounds: '3', work: '40', off: '0' },
      { kind: 'timed', rounds: 3, work: 40, off: 0 },
    ],
    [
      { kind: 'mobility', rounds: '', rest: 'x' },
      { kind: 'mobility', rounds: 1 },
    ],
  ])('of %j is kept whole, with its stations in their order', async (fields, registers) => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const of = stations('lib-push-up', 'lib-calf-raise', 'lib-push-up');
    const { id } = await newBlock(REAL, at, fields, of);
    const next = await relaunched(REAL, floor);
    const { order, stations: read, ...rest } = blockAt(REAL, { ...at, log: next.log }, id);
    expect(rest).toEqual({ id, ...registers });
    expect(read.map(({ exercise, plan }) => ({ exercise, plan }))).toEqual(of);
    expect(typeof order).toBe('string');
  });

  test.each<[fields: Partial<BlockFields>, error: object]>([
    [{ rounds: '' }, { type: 'empty', field: 'rounds' }],
    [{ rounds: '41' }, { type: 'out-of-range', field: 'rounds', min: 1, max: 40, unit: '' }],
    [{ rounds: '2.5' }, { type: 'off-step', field: 'rounds', step: 1 }],
    [{ rest: 'long' }, { type: 'not-a-number', field: 'rest', text: 'long' }],
    [
      { kind: 'list', reps: '' },
      { type: 'not-a-list', field: 'reps', text: '' },
    ],
    [
      { kind: 'list', reps: '21-x-9' },
      { type: 'not-a-list', field: 'reps', text: '21-x-9' },
    ],
    [
      { kind: 'list', reps: '5-0' },
      { type: 'not-a-list', field: 'reps', text: '5-0' },
    ],
    [
      { kind: 'list', reps: '501' },
      { type: 'not-a-list', field: 'reps', text: '501' },
    ],
    [
      { kind: 'list', reps: '1e2 5' },
      { type: 'not-a-list', field: 'reps', text: '1e2 5' },
    ],
    [
      { kind: 'list', reps: '1 '.repeat(21) },
      { type: 'not-a-list', field: 'reps' },
    ],
    [
      { kind: 'every', every: '9' },
      { type: 'out-of-range', field: 'every', min: 10, max: 1800, unit: 's' },
    ],
    [
      { kind: 'most', cap: '' },
      { type: 'empty', field: 'cap' },
    ],
    [
      { kind: 'timed', work: '4', off: '0' },
      { type: 'out-of-range', field: 'work', min: 5, max: 1800, unit: 's' },
    ],
    [
      { kind: 'timed', work: '40', off: '' },
      { type: 'empty', field: 'off' },
    ],
  ])('of %j is refused by its field, new or edited, and nothing is stored', async (fields, error) => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const { id } = await newBlock(REAL, at, {}, stations('lib-push-up'));
    await at.log.retry();
    const stored = await sessionOnDisk(floor.device, floor.place);
    const act = at.log.lastAct();
    const bad = { ...ROUNDS, ...fields };
    expect(REAL.addBlock(at.log, at.place, bad, [], at.world)).toMatchObject({ ok: false, error });
    expect(REAL.editBlock(at.log, at.place, id, bad)).toMatchObject({ ok: false, error });
    await turns(20);
    expect(await sessionOnDisk(floor.device, floor.place)).toEqual(stored);
    expect(at.log.lastAct()).toBe(act);
  });

  test('has at most twelve stations', async () => {
    const at = atOf(await onFloor(REAL));
    const error = { type: 'too-many-stations', field: 'stations', most: 12 };
    const twelve = stations(...Array.from({ length: 12 }, () => 'lib-push-up'));
    expect(REAL.addBlock(at.log, at.place, ROUNDS, [...twelve, ...stations('lib-push-up')], at.world)).toEqual({
      ok: false,
      error,
    });
    expect(sessionAt(REAL, at).blocks).toEqual([]);
    const block = await newBlock(REAL, at, {}, twelve);
    expect(REAL.addStation(at.log, at.place, block, 'lib-push-up', {}, at.world)).toEqual({ ok: false, error });
    expect(blockAt(REAL, at, block.id).stations).toHaveLength(12);
  });

  test('edited, keeps its sets and stations; a rest that is emptied is the exercise’s own again', async () => {
    const at = atOf(await onFloor(REAL));
    const block = await newBlock(REAL, at, { rest: '45' }, stations('lib-push-up'));
    await good(REAL.logCells(at.log, at.place, missingIn(REAL, at, block.id, 1), at.world));
    const rest = () => {
      const { sets, blocks } = sessionAt(REAL, at);
      return restOf(sets, exerciseOf, null, at.world.now(), blocks);
    };
    expect(rest()).toMatchObject({ state: 'resting', of: 45 });
    await good(REAL.editBlock(at.log, at.place, block.id, { ...ROUNDS, rounds: '5', rest: '' }));
    const edited = blockAt(REAL, at, block.id);
    expect(edited).not.toHaveProperty('rest');
    expect([edited.rounds, edited.stations]).toEqual([5, block.stations]);
    // a push-up rests 90 s
    expect(rest()).toMatchObject({ state: 'resting', of: 90 });
    expect(setsAt(REAL, at)).toEqual(['push-up r1 x8']);
  });

  test('goes station by station without rest, and rests after the round', async () => {
    const at = atOf(await onFloor(REAL));
    const block = await newBlock(REAL, at, { rounds: '2', rest: '60' }, stations('lib-push-up', 'lib-side-plank'));
    const stands = () => {
      const { sets, blocks } = sessionAt(REAL, at);
      return [
        blockState(blockAt(REAL, at, block.id), gridAt(REAL, at, block.id)).state,
        restOf(sets, exerciseOf, null, at.world.now(), blocks).state,
      ];
    };
    const seen = [stands()];
    for (let n = 0; n < 6; n += 1) {
      const [next] = missingIn(REAL, at, block.id);
      if (!next) throw new Error('nothing is missing');
      const typed = { ...next.entry, seconds: '30' };
      await good(REAL.logSet(at.log, at.place, typed, next.exercise, at.world)).saved;
      at.world.pass(10_000);
      seen.push(stands());
    }
    expect(seen).toEqual([
      ['working', 'no-set-yet'],
      ['working', 'next-station'],
      ['working', 'other-side'],
      ['round-done', 'resting'],
      ['working', 'next-station'],
      ['working', 'other-side'],
      ['done', 'resting'],
    ]);
  });

  test('its clock comes back in a new launch, at the same second', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const { id } = await newBlock(REAL, at, { kind: 'every', rounds: '10', every: '60' }, stations('lib-push-up'));
    await REAL.startClock(at.log, at.place, id, at.world);
    at.world.pass(130_000);
    const next = await relaunched(REAL, floor);
    const clock = (log = next.log) => {
      const on = { ...at, log };
      return blockClock(blockAt(REAL, on, id), sessionAt(REAL, on).pauses, at.world.now());
    };
    expect(clock()).toEqual({ phase: 'work', left: 50, round: 3, station: 0 });
    await REAL.pauseSession(next.log, at.place, at.world);
    at.world.pass(3_600_000);
    expect(clock()).toMatchObject({ left: 50, round: 3 });
    await REAL.endPauses(next.log, at.place, at.world);
    at.world.pass(20_000);
    await REAL.stopClock(next.log, at.place, id, at.world);
    expect(clock()).toEqual({ phase: 'over', gone: 150 });
    await REAL.startClock(next.log, at.place, id, at.world);
    expect(clock(), 'anew').toEqual({ phase: 'work', left: 60, round: 1, station: 0 });
  });

  test('a tick is taken back by the next', async () => {
    const at = atOf(await onFloor(REAL));
    const { id } = await newBlock(REAL, at, { kind: 'mobility' }, []);
    await REAL.tickBlock(at.log, at.place, blockAt(REAL, at, id), at.world);
    expect(blockAt(REAL, at, id).done?.at).toBe(at.world.now());
    await REAL.tickBlock(at.log, at.place, blockAt(REAL, at, id), at.world);
    expect(blockAt(REAL, at, id)).not.toHaveProperty('done');
  });
});

describe('a session of 60 exercises and more than 300 sets in blocks', { timeout: 30_000 }, () => {
  test('reads as one, in a new launch too, and its blocks find their sets in whatever row they lie', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const ids = Array.from({ length: 60 }, (_, n) => `own-${String(n).padStart(2, '0')}`);
    for (const id of ids) void REAL.listExercise(at.log, at.place, id, at.world);
    const many = stations(...Array.from({ length: 12 }, () => 'lib-push-up'));
    const blocks: string[] = [];
    for (let n = 0; n < 5; n += 1) blocks.push((await newBlock(REAL, at, { rounds: '6' }, many)).id);
    // 5 blocks × 6 rounds × 12 stations
    for (const block of blocks) {
      for (let round = 1; round <= 6; round += 1) {
        void good(REAL.logCells(at.log, at.place, missingIn(REAL, at, block, round), at.world));
        at.world.pass(60_000);
      }
    }
    await at.log.retry();
    const next = await relaunched(REAL, floor);
    const on = { ...at, log: next.log };
    const read = sessionAt(REAL, on);
    expect(read.sets).toHaveLength(360);
    expect(read.items.map(({ id }) => id)).toEqual(ids);
    expect(read.unread).toEqual([]);
    for (const block of blocks) expect(missingIn(REAL, on, block)).toEqual([]);
    expect(next.log.get(REAL.keyOf({ stream: at.place.stream, id: `${at.place.session}-2` }))).toBeDefined();
    // a set of the continuation is in its block, and stays when that goes
    await REAL.removeThing(next.log, at.place, { type: 'block', id: blocks[4] ?? '' });
    expect(sessionAt(REAL, on).sets).toHaveLength(360);
    expect(sessionAt(REAL, on).blocks).toHaveLength(4);
  });
});
