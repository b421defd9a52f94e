import { vi } from 'vitest';
import type { Plant } from '../laws/plant';
import { FLOOR_FAULTS } from './plants-floor';
import type { LogRoom } from './room';
import { moveIsOneAct, undoLeavesWhatCameLater } from './suite-acts';
import {
  aBadRoundStoresNothing,
  aCountLeavesThePadAlone,
  aMoveKeepsEverything,
  anOldSessionLosesItsExposure,
  aRemovedBlockLeavesItsSets,
  aRoundFillsWhatIsMissing,
  aStartedSessionKeepsItsPlan,
  pausesEndAfterTheyBegan,
  plannedIdsCountUp,
} from './suite-floor';
import { seriesAreARebuild } from './suite-series';
import { allOrNothing, oneStrictTransaction, savedIsOnDisk, unknownSurvives } from './suite-sets';
import { handedOver, nothingOldOver, thawedIsPutRight } from './suite-tabs';
import { burntStampStaysBurnt, lostIsReadAndMerged, stampNamesOneValue } from './suite-writes';

/** A fault that someone could make in the log, and the suite function that must fail on it. */
export type LogFault = Plant & { readonly what: string; readonly foundBy: keyof typeof SUITE };

/** The suite functions, each with cases that pass on the real room. */
export const SUITE = {
  async allOrNothing(room: LogRoom): Promise<void> {
    for (let turns = 0; turns <= 14; turns += 1) {
      for (const lands of [false, true]) await allOrNothing(room, { turns, steps: turns % 3, lands }, turns);
    }
  },
  savedIsOnDisk,
  oneStrictTransaction,
  unknownSurvives,
  undoLeavesWhatCameLater,
  async moveIsOneAct(room: LogRoom): Promise<void> {
    for (let turns = 0; turns <= 10; turns += 1) await moveIsOneAct(room, { turns, steps: 0, lands: false }, turns);
  },
  async stampNamesOneValue(room: LogRoom): Promise<void> {
    for (const seed of [0, 1, 2, 40_217]) await stampNamesOneValue(room, seed);
  },
  async handedOver(room: LogRoom): Promise<void> {
    for (const delay of [0, 4]) await timed(() => handedOver(room, delay));
  },
  async thawedIsPutRight(room: LogRoom): Promise<void> {
    for (let turn = 0; turn < 8; turn += 1) await timed(() => thawedIsPutRight(room, turn, 15));
  },
  nothingOldOver: (room: LogRoom) => timed(() => nothingOldOver(room)),
  async seriesAreARebuild(room: LogRoom): Promise<void> {
    for (let seed = 0; seed < 24; seed += 1) await seriesAreARebuild(room, seed);
  },
  aRoundFillsWhatIsMissing,
  aBadRoundStoresNothing,
  aRemovedBlockLeavesItsSets,
  plannedIdsCountUp,
  aStartedSessionKeepsItsPlan,
  aMoveKeepsEverything,
  pausesEndAfterTheyBegan,
  aCountLeavesThePadAlone,
  anOldSessionLosesItsExposure,
  async burntStampStaysBurnt(room: LogRoom): Promise<void> {
    burntStampStaysBurnt(room);
  },
  async lostIsReadAndMerged(room: LogRoom): Promise<void> {
    for (const type of ['aborts', 'stored-but-lost'] as const)
      await lostIsReadAndMerged(room, { type, error: 'UnknownError' });
  },
};

/** Runs something whose timers are moved by hand. */
async function timed(fn: () => Promise<void>): Promise<void> {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  try {
    await fn();
  } finally {
    vi.useRealTimers();
  }
}

export const LOG_FAULTS: readonly LogFault[] = [
  ...FLOOR_FAULTS,
  {
    what: 'a save is told before its transaction is complete',
    file: 'log/queue.ts',
    find: '    tx.oncomplete = () => resolve();',
    put: '    resolve();',
    foundBy: 'savedIsOnDisk',
  },
  {
    what: 'a save is told before its transaction is complete, seen by kills',
    file: 'log/queue.ts',
    find: '    tx.oncomplete = () => resolve();',
    put: '    resolve();',
    foundBy: 'allOrNothing',
  },
  {
    what: 'the undo entry goes in a second transaction',
    file: 'log/log.ts',
    find: '    return save(rows, settled.size > 0 ? { undo, drafts: settled } : { undo }, draw);',
    put: `    const saved = save(rows, { drafts: settled }, draw);
    void queue.push({ undo });
    return saved;`,
    foundBy: 'allOrNothing',
  },
  {
    what: 'the draft is cleared before the set is committed',
    file: 'log/log.ts',
    find: '    return save(rows, settled.size > 0 ? { undo, drafts: settled } : { undo }, draw);',
    put: `    if (settled.size > 0) void queue.push({ drafts: settled });
    return save(rows, { undo }, draw);`,
    foundBy: 'allOrNothing',
  },
  {
    what: 'a relaxed transaction is thought good enough',
    file: 'log/queue.ts',
    find: "durability: relaxed ? 'relaxed' : 'strict'",
    put: "durability: draftsOnly ? 'relaxed' : 'relaxed'",
    foundBy: 'oneStrictTransaction',
  },
  {
    what: 'the commit is left to the browser',
    file: 'log/queue.ts',
    find: '      tx.commit();',
    put: '',
    foundBy: 'oneStrictTransaction',
  },
  {
    what: 'a row is read again in the transaction that puts it',
    file: 'log/queue.ts',
    find: '      for (const row of rows) tx.objectStore(storeOf(row.kind)).put(packRow(row));',
    put: `      for (const row of rows) {
        tx.objectStore(storeOf(row.kind)).get([row.stream, row.id]);
        tx.objectStore(storeOf(row.kind)).put(packRow(row));
      }`,
    foundBy: 'oneStrictTransaction',
  },
  {
    what: 'an undo entry carries the whole row',
    file: 'log/log.ts',
    find: '      const name = { stream, id, kind };',
    put: '      const name = memory.get(keyOf({ stream, id })) ?? { stream, id, kind };',
    foundBy: 'oneStrictTransaction',
  },
  {
    what: 'what a version knows is written, and the rest is gone',
    file: 'log/memory.ts',
    find: '      keep(writeRow(row, changes, stamp));',
    put: `      const known = Object.entries(row.body).filter(([path]) => /^(sets.[^v]+|exercises.+|start|end|removed|alias|short|attendance)$/.test(path));
      keep(writeRow({ ...row, body: Object.fromEntries(known) }, changes, stamp));`,
    foundBy: 'unknownSurvives',
  },
  {
    what: 'undo rewinds whatever shows',
    file: 'log/undo.ts',
    find: 'if (winner && compareStamps(winner.stamp, stampOf(undo, path)) === 0) changes',
    put: 'if (winner && compareStamps(winner.stamp, winner.stamp) === 0) changes',
    foundBy: 'undoLeavesWhatCameLater',
  },
  {
    what: 'a move is two acts',
    file: 'log/setActs.ts',
    find: 'addingSets(log, to, 1, setChanges(moved, copy)),',
    put: `addingSets(log, to, 1, setChanges(moved, copy))],
  });
  return log.commit({
    act: { type: 'move-set', stream: from.stream, to: to.stream },
    rows: [`,
    foundBy: 'moveIsOneAct',
  },
  {
    what: 'a lost write is put again unread',
    file: 'log/start.ts',
    find: '(await connection.connect()) && readKeys(core, waiting)',
    put: 'connection.connect().then((open) => open && waiting.size >= 0)',
    foundBy: 'lostIsReadAndMerged',
  },
  {
    what: 'a stamp that was given out is forgotten with its row',
    file: 'log/memory.ts',
    find: 'attempted.get(key) ?? 0',
    put: '0',
    foundBy: 'burntStampStaysBurnt',
  },
  {
    what: 'a value is written over under the stamp of the last try',
    file: 'log/memory.ts',
    find: `      const stamp = nextStamp(row, writer, clock, attempted.get(key) ?? 0);
      attempted.set(key, stamp.l);
      keep(writeRow(row, changes, stamp));`,
    put: `      const again = (attempted.get(key) ?? 0) > (savedL.get(key) ?? 0);
      const stamp = again ? { l: attempted.get(key) ?? 0, writer } : nextStamp(row, writer, clock, 0);
      attempted.set(key, stamp.l);
      keep(writeRow(again ? { ...row, seen: { ...row.seen, [writer]: 0 } } : row, changes, stamp));`,
    foundBy: 'stampNamesOneValue',
  },
  {
    what: 'what is handed over before the seat is passed by',
    file: 'log/tabs.ts',
    find: "(taking || seat === 'writer')",
    put: "(!taking && seat === 'writer')",
    foundBy: 'handedOver',
  },
  {
    what: 'a row that another tab put over a newer one is left so',
    file: 'log/start.ts',
    find: "if (core.tabs?.seat() === 'writer') {",
    put: "if (core.tabs?.seat() === 'writer' && keys.length === 0) {",
    foundBy: 'thawedIsPutRight',
  },
  {
    what: 'a tab that lost the seat keeps all its work for later',
    file: 'log/queue.ts',
    find: '      waiting = rowsOf(waiting);',
    put: '',
    foundBy: 'nothingOldOver',
  },
  {
    what: 'two folds start from the same series',
    file: 'log/fold.ts',
    find: '  core.folding = core.folding.then(run, run);',
    put: '  core.folding = run();',
    foundBy: 'seriesAreARebuild',
  },
  {
    what: 'a session that lost an exercise leaves a gap in its series',
    file: 'log/fold.ts',
    find: '  if (names.some((one) => !lastTimeOf(read, one))) return undefined;',
    put: '',
    foundBy: 'seriesAreARebuild',
  },
];
