import { describe, expect, test } from 'vitest';
import { NO_PLACE } from '../../src/domain/kitFields';
import type { Result } from '../../src/domain/result';
import type { Saving } from '../../src/log/log';
import type { Json } from '../../src/merge/row';
import { shown } from '../../src/merge/shown';
import { entry, newClient, newSession, onFloor, PULL, SQUAT } from './floor';
import { type At, blockAt, cellOf, exerciseOf, good, missingIn, newBlock, ROUNDS, sessionAt, stations } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';
import { relaunched } from './suite-writes';

type Scene = At & {
  readonly block: string;
  readonly set: string;
  readonly other: At['place'];
  readonly template: string;
  readonly target: string;
};
/** An act, as the screen does it. Returns what tells when it is saved. */
type Act = (
  scene: Scene,
) => Saving | undefined | Result<Saving | { saved: Saving }, { type: string }> | Promise<unknown>;

const TARGET = { goal: '95', unit: 'kg', reps: '5', start: '', day: '2026-05-01' } as const;
const NO_ARRIVAL = { who: 'Dr A.', what: 'no jumps', from: '2026-03-03', until: '' };

/** Every act that is new on the floor, by the name it is undone under. */
const ACTS: Readonly<Record<string, Act>> = {
  'list-exercise': ({ log, place, world }) =>
    REAL.listExercise(log, place, 'lib-deadlift', world, SQUAT.id, { reps: '5', sets: 3 }),
  skip: ({ log, place, block }) =>
    REAL.skip(
      log,
      place,
      [
        { type: 'exercise', id: SQUAT.id },
        { type: 'block', id: block },
      ],
      'late',
    ),
  'take-up': ({ log, place }) => REAL.takeUp(log, place, { type: 'exercise', id: 'lib-bench-press' }),
  swap: ({ log, place, world }) =>
    REAL.swap(log, place, { type: 'exercise', id: SQUAT.id }, 'lib-front-squat', 'taken', world, {
      key: REAL.padDraft(place),
      value: { exercise: 'lib-front-squat' },
    }),
  reorder: ({ log, place, world }) => REAL.moveItem(log, place, SQUAT.id, 1, world),
  tally: ({ log, place, world }) => REAL.spread(log, place, 'lib-push-up', '30', world),
  plan: ({ log, place, block, ...at }) =>
    REAL.planThing(
      log,
      place,
      { type: 'station', block, id: blockAt(REAL, { log, place, ...at }, block).stations[0]?.id ?? '' },
      { reps: '12' },
    ),
  'remove-thing': ({ log, place, block }) => REAL.removeThing(log, place, { type: 'block', id: block }),
  'add-block': ({ log, place, world }) =>
    REAL.addBlock(log, place, { ...ROUNDS, kind: 'list', reps: '21-15-9' }, stations('lib-push-up'), world, SQUAT.id),
  'edit-block': ({ log, place, block }) => REAL.editBlock(log, place, block, { ...ROUNDS, kind: 'every', every: '60' }),
  'add-station': ({ log, place, block, world }) =>
    REAL.addStation(log, place, blockAt(REAL, { log, place, world }, block), 'lib-calf-raise', { reps: '15' }, world),
  'start-clock': ({ log, place, block, world }) => REAL.startClock(log, place, block, world),
  'stop-clock': ({ log, place, block, world }) => REAL.stopClock(log, place, block, world),
  tick: ({ log, place, block, world }) =>
    REAL.tickBlock(log, place, blockAt(REAL, { log, place, world }, block), world),
  'log-round': (scene) => REAL.logCells(scene.log, scene.place, missingIn(REAL, scene, scene.block, 2), scene.world),
  'log-together': ({ log, place, other, world }) =>
    REAL.logTogether(
      log,
      [place, other].map((at) => ({ place: at, entry: entry('60', '8'), exercise: SQUAT })),
      world,
    ),
  'add-tally': ({ log, place, world }) =>
    REAL.addToTally(log, place, { entry: entry('', '6', { exercise: PULL.id }), exercise: PULL }, world),
  'keep-template': ({ log, place, world }) => REAL.keepTemplate(log, place, 'Legs', ['mon'], world),
  'remove-template': ({ log, place, template }) => REAL.removeTemplate(log, place.stream, template),
  'start-session': ({ log, place, template, world }) => REAL.startFromTemplate(log, place.stream, template, world),
  arrival: ({ log, place }) => REAL.tellArrival(log, place, 'sleep', 2),
  'stop-sign': ({ log, place, world }) => REAL.noteSign(log, place, 'joint', SQUAT.id, world),
  clearance: ({ log, place, world }) => REAL.noteClearance(log, place.stream, SQUAT.id, 'Dr A.', world),
  'add-restriction': ({ log, place, world }) =>
    REAL.addRestriction(log, place.stream, NO_ARRIVAL, ['lib-box-jump'], world),
  'add-target': ({ log, place, world }) => REAL.addTarget(log, place.stream, SQUAT.id, TARGET, world),
  'remove-target': ({ log, place, target }) => REAL.removeTarget(log, place.stream, target),
  'other-work': ({ log, place, world }) =>
    REAL.noteOtherWork(log, place.stream, { work: 'class', day: '2026-03-02', hours: 1.5, effort: 4 }, world),
  'rest-day': ({ log, place, world }) =>
    REAL.noteOtherWork(log, place.stream, { work: 'rest day', day: '2026-03-03', hours: null, effort: null }, world),
  place: ({ log, world }) =>
    REAL.savePlace(log, { ...NO_PLACE, name: 'Basement', bands: 'red, green', pins: '15' }, world),
  'choose-place': ({ log, place }) => REAL.choosePlace(log, place, 'somewhere'),
  'edit-exercise': ({ log }) =>
    REAL.editExercise(log, SQUAT, { ...REAL.exerciseTexts(SQUAT), name: 'Low-bar squat', rest: '200' }),
  pause: ({ log, place, world }) => REAL.pauseSession(log, place, world),
  'end-pause': ({ log, place, world }) => REAL.endPauses(log, place, world),
  'missed-session': ({ log, place, world }) => REAL.noteMissedSession(log, place.stream, 'no-show', 'ill', world),
  'move-set': ({ log, place, set, other, world }) => REAL.moveSet(log, place, set, other, world),
};

/** Sets a scene in which every act finds something to do. */
async function scene(): Promise<{ floor: Awaited<ReturnType<typeof onFloor>>; on: Scene }> {
  const floor = await onFloor(REAL, 7);
  const at = atOf(floor);
  const { log, place, world } = at;
  const other = await newSession(REAL, floor, await newClient(REAL, floor, 'Client M'));
  for (const id of [SQUAT.id, 'lib-bench-press']) await REAL.listExercise(log, place, id, world);
  const { id } = await newBlock(REAL, at, { rounds: '3', rest: '90' }, stations('lib-push-up', 'lib-single-leg-squat'));
  await REAL.skip(log, place, [{ type: 'exercise', id: 'lib-bench-press' }], 'taken');
  await good(REAL.logCells(log, place, missingIn(REAL, at, id, 1), world));
  const typed = cellOf(blockAt(REAL, at, id), 0, 2, { reps: '7' });
  const { set, saved } = good(REAL.logSet(log, place, typed, exerciseOf('lib-push-up') ?? SQUAT, world));
  await saved;
  await REAL.tellArrival(log, place, 'sleep', 4);
  await REAL.pauseSession(log, place, world);
  const kept = good(REAL.keepTemplate(log, place, 'Circuit', ['tue'], world));
  await kept.saved;
  const aimed = good(REAL.addTarget(log, place.stream, SQUAT.id, TARGET, world));
  await aimed.saved;
  world.pass(120_000);
  return { floor, on: { ...at, block: id, set, other, template: kept.id, target: aimed.id } };
}

/** Everything that is noted, row by row. */
function everything({ log }: Pick<At, 'log'>): Record<string, Record<string, Json>> {
  const rows = log
    .all()
    .map((row): [string, Record<string, Json>] => [
      `${row.kind} ${row.stream}/${row.id}`,
      Object.fromEntries(
        Object.entries(shown(row)).filter(([path, value]) => value !== null && !/(^|\/)removed$/.test(path)),
      ),
    ]);
  return Object.fromEntries(rows.filter(([, values]) => Object.keys(values).length > 0).sort());
}

describe('undo of each act leaves exactly what was', { timeout: 30_000 }, () => {
  test.each(Object.keys(ACTS))('%s', async (type) => {
    const { floor, on } = await scene();
    const before = everything(on);
    const record = sessionAt(REAL, on);
    const act = ACTS[type];
    const done = await act?.(on);
    if (done && typeof done === 'object' && 'ok' in done && !done.ok) throw new Error(JSON.stringify(done));
    expect(everything(on), 'the act does something').not.toEqual(before);
    expect(on.log.lastAct()?.act.type).toBe(type);
    expect(on.log.undo()).toMatchObject({ act: { type }, changedSince: 0 });
    expect(everything(on)).toEqual(before);
    expect(sessionAt(REAL, on)).toEqual(record);
    await on.log.retry();
    const next = await relaunched(REAL, floor);
    await next.log.loadResults(on.place.stream);
    expect(everything(next)).toEqual(before);
    expect(sessionAt(REAL, { ...on, log: next.log })).toEqual(record);
  });
});
