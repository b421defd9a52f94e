import { expect } from 'vitest';
import { plannedSessionId } from '../../src/domain/ids';
import type { Json } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';
import { turns } from './fakes/life';
import { entry, type Floor, newClient, newSession, onFloor, SQUAT, sessionOnDisk } from './floor';
import {
  type At,
  blockAt,
  cellOf,
  exerciseOf,
  good,
  gridAt,
  missingIn,
  newBlock,
  sessionAt,
  setsAt,
  stations,
} from './gym';
import type { LogRoom } from './room';
import { lastTimes, nextDay, trained } from './suite-series';
import { relaunched } from './suite-writes';

/* What must hold of the acts on a whole session: functions over a room, as in suite-sets.ts. */

export const atOf = ({ app, place, device }: Floor): At => ({ log: app.log, place, world: device.world });

const CIRCUIT = stations('lib-push-up', 'lib-single-leg-squat', 'lib-inverted-row');

/** A round logs what is missing and nothing else, in its order, as one act that one undo takes back. */
export async function aRoundFillsWhatIsMissing(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const block = await newBlock(room, at, {}, CIRCUIT);
  const changed = cellOf(block, 1, 1, { reps: '6', side: 'right' });
  const single = exerciseOf('lib-single-leg-squat') ?? SQUAT;
  await good(room.logSet(at.log, at.place, changed, single, at.world)).saved;
  at.world.pass(60_000);
  const before = setsAt(room, at);
  await good(room.logCells(at.log, at.place, missingIn(room, at, block.id, 1), at.world));
  const filled = ['single-leg-squatr r1 x6', 'push-up r1 x8', 'single-leg-squatl r1 x8', 'inverted-row r1 x8'];
  expect(setsAt(room, at)).toEqual(filled);
  expect(missingIn(room, at, block.id, 1)).toEqual([]);
  expect(missingIn(room, at, block.id, 2)).toHaveLength(4);
  expect(
    new Set(
      sessionAt(room, at)
        .sets.slice(1)
        .map((set) => set.at?.at),
    ).size,
    'one instant',
  ).toBe(1);
  // in their order after a restart too, and whatever ids they were given
  const next = await relaunched(room, floor);
  expect(setsAt(room, { ...at, log: next.log })).toEqual(filled);
  expect(next.log.undo()).toMatchObject({ act: { type: 'log-round', count: 3 }, changedSince: 0 });
  expect(setsAt(room, { ...at, log: next.log })).toEqual(before);
  await next.log.retry();
}

/** One bad set of a round, and nothing of the round is stored: the fault names the exercise and the field. */
export async function aBadRoundStoresNothing(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const block = await newBlock(room, at, {}, CIRCUIT);
  const sets = missingIn(room, at, block.id, 1);
  const last = sets.at(-1);
  if (!last) throw new Error('no set');
  const bad = [...sets.slice(0, -1), { ...last, entry: { ...last.entry, reps: 'x' } }];
  const stored = await sessionOnDisk(floor.device, floor.place);
  const act = floor.app.log.lastAct();
  expect(room.logCells(at.log, at.place, bad, at.world)).toEqual({
    ok: false,
    error: {
      type: 'set-refused',
      exercise: 'lib-inverted-row',
      fault: { type: 'not-a-number', field: 'reps', text: 'x' },
    },
  });
  expect(setsAt(room, at)).toEqual([]);
  await turns(20);
  expect(await sessionOnDisk(floor.device, floor.place)).toEqual(stored);
  expect(floor.app.log.lastAct()).toBe(act);
}

/** [M5] A block or station that is removed leaves its sets, in none; undo puts them back where they were. */
export async function aRemovedBlockLeavesItsSets(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const block = await newBlock(room, at, {}, CIRCUIT);
  await good(room.logCells(at.log, at.place, missingIn(room, at, block.id, 1), at.world));
  const sets = setsAt(room, at);
  const grid = gridAt(room, at, block.id);
  await room.removeThing(at.log, at.place, { type: 'block', id: block.id });
  expect(sessionAt(room, at).blocks).toEqual([]);
  expect(setsAt(room, at)).toEqual(sets);
  expect(sessionAt(room, at).items.map(({ id }) => id)).toEqual([
    'lib-push-up',
    'lib-single-leg-squat',
    'lib-inverted-row',
  ]);
  await at.log.undo()?.saved;
  expect(gridAt(room, at, block.id)).toEqual(grid);
  const [first] = block.stations;
  await room.removeThing(at.log, at.place, { type: 'station', block: block.id, id: first?.id ?? '' });
  expect(blockAt(room, at, block.id).stations).toEqual(block.stations.slice(1));
  expect(setsAt(room, at)).toEqual(sets);
}

const noted = (at: At, id: string): Record<string, Json> => {
  const row = at.log.get(`${at.place.stream}/${id}`);
  return Object.fromEntries(Object.entries(row ? shown(row) : {}).filter(([, value]) => value !== null));
};

/** [M11] Sessions of one template and day count up, past one that was removed or whose start was undone. */
export async function plannedIdsCountUp(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const { stream } = at.place;
  await newBlock(room, at, {}, CIRCUIT);
  const kept = good(room.keepTemplate(at.log, at.place, 'Circuit', ['tue'], at.world));
  await kept.saved;
  const ids = [1, 2, 3, 4].map((n) => plannedSessionId(stream, kept.id, '2026-03-03', n));
  const start = async (log = at.log) => {
    const started = await room.startFromTemplate(log, stream, kept.id, at.world);
    await started.saved;
    at.world.pass(1000);
    return started.session;
  };
  expect([await start(), await start()]).toEqual(ids.slice(0, 2));
  expect(noted(at, ids[0] ?? '')['start'], 'the first is as it was').not.toEqual(noted(at, ids[1] ?? '')['start']);
  await room.removeSession(at.log, { stream, session: ids[1] ?? '' });
  expect(await start()).toBe(ids[2]);
  await at.log.undo()?.saved;
  expect(room.session(at.log, stream, ids[2] ?? '')).toBeUndefined();
  await turns(30);
  // in a new launch too, which has read no ended or removed session
  const next = await relaunched(room, floor);
  expect(await start(next.log)).toBe(ids[3]);
  at.world.pass(86_400_000);
  expect(await start(next.log)).toBe(plannedSessionId(stream, kept.id, '2026-03-04', 1));
}

/** A template is copied at the start: what becomes of it later touches no session. */
export async function aStartedSessionKeepsItsPlan(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const { stream } = at.place;
  await room.listExercise(at.log, at.place, SQUAT.id, at.world, undefined, { load: '100', unit: 'kg', reps: '5' });
  const block = await newBlock(room, at, {}, CIRCUIT);
  const kept = good(room.keepTemplate(at.log, at.place, 'Legs', [], at.world));
  await kept.saved;
  const started = await room.startFromTemplate(at.log, stream, kept.id, at.world);
  await started.saved;
  const mine = { ...at, place: started };
  const plan = sessionAt(room, mine);
  expect(plan.items).toMatchObject([{ id: SQUAT.id, plan: { load: '100', reps: '5' } }]);
  expect(plan.blocks, 'the same blocks under the same ids').toEqual(sessionAt(room, at).blocks);
  expect(plan.blocks[0]?.id).toBe(block.id);
  expect([plan.template, plan.plannedDay]).toEqual([kept.id, '2026-03-03']);
  await at.log.commit({
    act: { type: 'edit-template' },
    rows: [
      {
        name: { stream, id: kept.id, kind: 'template' },
        changes: { [`exercises/${SQUAT.id}/plan`]: { load: '60' }, [`blocks/${block.id}/rounds`]: 9 },
      },
    ],
  });
  expect(sessionAt(room, mine)).toEqual(plan);
  await room.removeTemplate(at.log, stream, kept.id);
  expect(sessionAt(room, mine)).toEqual(plan);
  const next = await relaunched(room, floor);
  expect(sessionAt(room, { ...mine, log: next.log })).toEqual(plan);
}

/** [M12] A set that is moved keeps all that is noted of it: marks, cell, height, tempo, direction. */
export async function aMoveKeepsEverything(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const to = await newSession(room, floor, await newClient(room, floor, 'Client M'));
  const block = await newBlock(room, at, {}, stations('lib-hop-and-hold'));
  const hop = exerciseOf('lib-hop-and-hold') ?? SQUAT;
  const typed = cellOf(block, 0, 2, {
    reps: '',
    landings: '6',
    side: 'right',
    direction: 'back-out',
    marks: [{ good: true }, null, { good: false, knee: false }],
    setUp: { setUp: 'barefoot', tempo: '3-1-x-0', height: '30', heightUnit: 'cm', pause: '2' },
  });
  const { set, saved } = good(room.logSet(at.log, at.place, typed, hop, at.world));
  await saved;
  await room.touchUp(at.log, at.place, set, { form: 'clean', pain: { value: 2, rising: true, place: 'knee' } });
  const before = sessionAt(room, at).sets[0];
  expect(before).toMatchObject({
    landings: 6,
    direction: 'back-out',
    marks: [
      { n: 1, good: true },
      { n: 3, good: false, knee: false },
    ],
    height: { value: 30, unit: 'cm' },
    pause: 2,
    tempo: '3-1-x-0',
    in: { block: block.id, station: block.stations[0]?.id, round: 2 },
  });
  at.world.pass(600_000);
  await room.moveSet(at.log, at.place, set, to, at.world);
  const [moved] = sessionAt(room, { ...at, place: to }).sets;
  expect({ ...moved, id: set }).toEqual(before);
  expect(setsAt(room, at)).toEqual([]);
  const next = await relaunched(room, floor);
  expect({ ...sessionAt(room, { ...at, place: to, log: next.log }).sets[0], id: set }).toEqual(before);
  await next.log.undo()?.saved;
  expect(sessionAt(room, { ...at, log: next.log }).sets).toEqual([before]);
}

/** [M4] Every open pause ends now; with a clock that was set back, at its begin and not before. */
export async function pausesEndAfterTheyBegan(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const begin = at.world.now();
  await room.pauseSession(at.log, at.place, at.world);
  at.world.pass(60_000);
  await room.pauseSession(at.log, at.place, at.world);
  at.world.pass(-30_000);
  await room.endPauses(at.log, at.place, at.world);
  const { pauses, unread } = sessionAt(room, at);
  expect(unread).toEqual([]);
  expect(pauses.map(({ from, to }) => [from - begin, (to ?? 0) - begin])).toEqual([
    [0, 30_000],
    [60_000, 60_000],
  ]);
}

/** Adding to a count starts no rest and leaves the pad as it is. */
export async function aCountLeavesThePadAlone(room: LogRoom): Promise<void> {
  const floor = await onFloor(room);
  const at = atOf(floor);
  const push = exerciseOf('lib-push-up') ?? SQUAT;
  good(room.spread(at.log, at.place, push.id, '30', at.world));
  const typed = { exercise: SQUAT.id, load: '102.5' };
  at.log.setDraft(room.padDraft(at.place), typed);
  const typedReps = entry('', '12', { exercise: push.id });
  await good(room.addToTally(at.log, at.place, { entry: typedReps, exercise: push }, at.world));
  expect(at.log.draft(room.padDraft(at.place))).toEqual(typed);
  expect(sessionAt(room, at)).toMatchObject({
    items: [{ id: push.id, tally: 30 }],
    sets: [{ exercise: push.id, reps: 12, tally: true, noRest: true }],
  });
}

/** [M7] An old session that loses an exercise loses its exposure too, however many came after it. */
export async function anOldSessionLosesItsExposure(room: LogRoom): Promise<void> {
  let floor = await onFloor(room);
  const first = floor.place;
  const { stream } = first;
  for (let n = 0; n < 7; n += 1) {
    if (n > 0) floor = await nextDay(room, floor);
    await trained(room, floor, [[String(100 + n), '5']]);
  }
  await lastTimes(floor.app, stream, SQUAT.id);
  const loads = (app = floor.app) => app.log.exposures(stream, SQUAT.id)?.map(({ tops }) => tops[0]?.load?.value);
  expect(loads()).toEqual([100, 101, 102, 103, 104, 105, 106]);
  const next = await relaunched(room, floor);
  await next.log.loadSession(stream, first.session);
  const set = room.session(next.log, stream, first.session)?.sets[0]?.id ?? '';
  await room.removeSet(next.log, first, set);
  await turns(40);
  const third = await relaunched(room, { ...floor, app: next });
  await lastTimes(third, stream, SQUAT.id);
  expect(loads(third)).toEqual([101, 102, 103, 104, 105, 106]);
  third.kill();
}
