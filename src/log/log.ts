import type { End } from '../analysis/ends';
import type { Exposure } from '../domain/exposure';
import type { Used } from '../domain/recent';
import { fail, type Result } from '../domain/result';
import { emptyRow, type Json, type Row, type RowName } from '../merge/row';
import type { Core } from './core';
import { isOfErased } from './erased';
import { ends, exposures, foldEnded, lastTimes, refold, staleMark, usedExercises } from './fold';
import { keyOf, nameOf, type RowKey } from './keys';
import { sessionIdOf } from './openSessions';
import type { SaveFault, Work } from './queue';
import { readAgain, readResults, readRows, readSessionRows } from './read';
import type { Safe } from './second';
import type { LastTime } from './series';
import type { Status } from './status';
import { type ActName, beforeOf, shownAgain, UNDO_KEPT, type UndoEntry, type UndoRow, undoing } from './undo';
import { sessionRows } from './views';
import { type Topic, UNDO } from './watch';

/** What one act changes in one row. The row is in memory, unless the act says that it may be `fresh`: a new one. */
export type RowChange = {
  readonly name: RowName;
  readonly changes: Readonly<Record<string, Json>>;
  readonly fresh?: boolean;
};

/** One act of the trainer: everything it changes is saved in one transaction, and taken back as one. */
export type Act = {
  readonly act: ActName;
  readonly rows: readonly RowChange[];
  /** What the drafts become with this act; `null` clears one. */
  readonly drafts?: readonly { readonly key: string; readonly value: Json }[];
};

export type Saving = Promise<Result<void, SaveFault>>;
/** What an undo did: `changedSince` counts values that were written again after the act, and so were left as they are. */
export type Undone = { readonly act: ActName; readonly changedSince: number; readonly saved: Saving };

/**
 * The trainer's log. Reading is from memory and at once; every change is an act, shown at once and saved through the one write queue.
 */
export type Log = {
  readonly ready: Promise<void>;
  readonly get: (key: RowKey) => Row | undefined;
  readonly ofKind: (kind: string) => readonly Row[];
  /** Every row in memory, of whatever kind. */
  readonly all: () => readonly Row[];
  readonly watch: (topics: readonly Topic[], fn: () => void) => () => void;
  readonly status: () => Status;
  /** Applies an act to memory and saves it. The promise tells when it is in the store, or why it is not (it is then kept and tried again). */
  readonly commit: (act: Act) => Saving;
  /** Returns whether what this launch wrote under a path of a row is in the store. */
  readonly isSaved: (key: RowKey, thing?: string) => boolean;
  /** The last act that can be taken back; undefined for none, or until what it wrote is read (watch `UNDO`). */
  readonly lastAct: () => UndoEntry | undefined;
  readonly undo: () => Undone | undefined;
  readonly draft: (key: string) => Json | undefined;
  readonly setDraft: (key: string, value: Json) => void;
  /**
   * Reads a session with its continuations into memory, if it is not there. Returns false where that was not possible: whether the store holds
   * one is not known then, and none may be written under its name.
   */
  readonly loadSession: (stream: string, id: string) => Promise<boolean>;
  /** Lets go of a session that was read to be looked at: one that is over, folded and saved. Any other stays. */
  readonly releaseSession: (stream: string, id: string) => void;
  /** Reads all results of a client into memory. */
  readonly loadResults: (stream: string) => Promise<void>;
  /**
   * Returns the client's latest sessions that held an exercise (`''`: any), before the session named, the newest first; undefined until
   * they are read (watch `seriesTopic`).
   */
  readonly lastTimes: (stream: string, exercise: string, before: string) => readonly LastTime[] | undefined;
  /** Returns every session of a client's that held an exercise, the oldest first; undefined until they are read (watch `seriesTopic`). */
  readonly exposures: (stream: string, exercise: string) => readonly Exposure[] | undefined;
  /** Returns how a client's exercises stand after their last ended sessions; undefined until it is worked out (watch `seriesTopic`). */
  readonly ends: (stream: string) => readonly End[] | undefined;
  /** Returns the exercises of a client's sessions, with when they were done; undefined until they are read (watch `seriesTopic`). */
  readonly usedExercises: (stream: string) => readonly Used[] | undefined;
  /** Runs a part of the log that is loaded behind the first screen: imports, erasing. */
  readonly inside: <T>(part: (core: Core) => T) => T;
  /** Tries again to save what waits. */
  readonly retry: () => Saving;
  /** Makes this tab the one that writes. */
  readonly takeSeat: () => Promise<void>;
  /** Reads again what is in memory: after a long time in the background the connection may be lost, or another tab may have written. */
  readonly refresh: () => Promise<void>;
  /** Writes drafts and all that waits, also before there is solid ground for it: the page may be frozen next, and what only memory holds is gone then. */
  readonly flush: () => void;
  /** Asks the browser to keep the log when space runs out. Called from a tap, after the first session that is worth it. */
  readonly askToPersist: () => Promise<void>;
  /** Notes that a backup file was made at `at`, and drops the second copy of what it holds. */
  readonly backedUp: (at: number, held: Safe) => Promise<void>;
  /** Returns how many rows are on this device and in no backup; undefined where the browser has no place for a second copy to tell it by. */
  readonly onlyHere: () => Promise<number | undefined>;
};

/** Returns the verbs of a log over its parts; `startLog` puts the parts together and opens it. */
export function logOver(core: Core, ready: Promise<void>): Log {
  const { memory, queue, drafts, watchers, board, world } = core;
  const lookingUp = new Set<number>();
  const missing = new Set<number>();
  let isFoldMissed = false;

  /** Writes each change to memory under a fresh stamp, and returns what it takes to undo them. */
  function apply(rows: readonly RowChange[]): UndoRow[] {
    const clock = world.now();
    return rows.map(({ name: { stream, id, kind }, changes, fresh = false }) => {
      // a row is a name too: its body has no place in an undo entry
      const name = { stream, id, kind };
      core.passing.delete(keyOf(name));
      const held = memory.get(keyOf(name));
      // what is in the store unread would be written over by a row that holds this change alone
      if (!held && !fresh) throw new Error(`row ${keyOf(name)} is not in memory`);
      const written = beforeOf(held ?? emptyRow(name), changes);
      return { name, ...written, stamp: memory.write(name, changes, clock) };
    });
  }

  function save(rows: readonly RowChange[], more: Partial<Work>, draw: () => void): Saving {
    const names = rows.map(({ name }) => name);
    const sessions = names.flatMap((name) => (name.kind === 'session' ? (memory.get(keyOf(name)) ?? []) : []));
    const added = core.open.add(sessions.map((row) => keyOf({ stream: row.stream, id: sessionIdOf(row) })));
    // with another body mass, loads that were added to it are another thing: what is kept of them is behind until it is made anew
    const weighed = names.flatMap((name) => (name.kind === 'result' ? name.stream : []));
    for (const stream of weighed) core.stale.add(stream);
    const told = [...(added ? core.open.stored() : []), ...(weighed.length > 0 ? [staleMark(core)] : [])];
    const meta = told.length > 0 ? { meta: new Map(told) } : {};
    const saving = queue.push({ rows: new Set(names.map(keyOf)), ...more, ...meta });
    void saving.then((result) => {
      draw();
      return foldSaved(result, names);
    });
    return saving;
  }

  /** Folds what has ended, once it is saved; with it what could not be saved before, and is now. */
  function foldSaved(result: Result<void, SaveFault>, names: readonly RowName[]): Promise<void> | undefined {
    const missed = result.ok && isFoldMissed ? core.open.keys().flatMap((key) => memory.get(key) ?? []) : [];
    isFoldMissed = !result.ok;
    if (!result.ok) return undefined;
    const folded = foldEnded(core, [...names, ...missed]);
    // an import makes anew what it left behind when it is through
    return core.stale.size > 0 && !core.importing ? folded.then(() => refold(core)) : folded;
  }

  function retry(): Saving {
    const saving = queue.push({});
    void saving.then((result) => foldSaved(result, []));
    return saving;
  }

  function commit({ act, rows, drafts: changed = [] }: Act): Saving {
    // all of an act or none of it: a set that moved to an erased client would be nowhere [M10]
    if (rows.some(({ name }) => memory.isErased(name.stream))) return Promise.resolve(fail({ type: 'erased' }));
    const draw = watchers.holdBack();
    const written = apply(rows);
    // above what is stored too, where that is not read yet: a stamp follows the clock, and no clock makes it no number
    const n = Math.max((core.undo.at(-1)?.n ?? 0) + 1, ...written.map(({ stamp }) => stamp.l));
    const entry: UndoEntry = { n, at: world.now(), act, rows: written };
    core.undo.push(entry);
    const undo = new Map<number, UndoEntry | null>([[n, entry]]);
    const tooOld = core.undo.length > UNDO_KEPT ? core.undo.shift() : undefined;
    if (tooOld) undo.set(tooOld.n, null);
    watchers.tell(UNDO);
    const settled = new Map(changed.flatMap(({ key, value }) => [...drafts.settle(key, value)]));
    return save(rows, settled.size > 0 ? { undo, drafts: settled } : { undo }, draw);
  }

  /** The last act, once the rows it wrote are in memory: after a restart those of an ended session are read first. */
  function lastAct(): UndoEntry | undefined {
    const entry = core.undo.at(-1);
    const isHeld = (row: UndoRow): boolean => memory.get(keyOf(row.name)) !== undefined;
    if (!entry || missing.has(entry.n) || entry.rows.every(isHeld)) return entry;
    if (!lookingUp.has(entry.n)) {
      lookingUp.add(entry.n);
      void readRows(
        core,
        entry.rows.map(({ name }) => name),
      ).then((read) => {
        lookingUp.delete(entry.n);
        if (!read) return;
        // not in the store either: there is nothing to wait for, and the undo says what it could not take back
        if (!entry.rows.every(isHeld)) missing.add(entry.n);
        watchers.tell(UNDO);
      });
    }
    return undefined;
  }

  function undo(): Undone | undefined {
    const entry = lastAct();
    if (!entry) return undefined;
    core.undo.pop();
    let changedSince = 0;
    const undo = new Map<number, UndoEntry | null>([[entry.n, null]]);
    const rows = entry.rows.flatMap((row) => {
      const { name } = row;
      const { changes, ...back } = undoing(memory.get(keyOf(name)) ?? emptyRow(name), row);
      changedSince += back.changedSince.length;
      const paths = Object.keys(changes);
      if (paths.length === 0) return [];
      for (const { stamp } of apply([{ name, changes }])) {
        for (const older of shownAgain(core.undo, row, { paths, stamp })) {
          undo.set(older.n, older);
          core.undo.splice(
            core.undo.findIndex(({ n }) => n === older.n),
            1,
            older,
          );
        }
      }
      return [{ name, changes }];
    });
    watchers.tell(UNDO);
    return { act: entry.act, changedSince, saved: save(rows, { undo }, watchers.holdBack()) };
  }

  return {
    ready,
    get: memory.get,
    ofKind: memory.ofKind,
    all: memory.all,
    watch: watchers.watch,
    status: board.status,
    commit,
    isSaved: (key, thing = '') => memory.isSaved(key, thing),
    lastAct,
    undo,
    draft: drafts.get,
    setDraft(key, value) {
      if (!isOfErased(core, key)) drafts.set(key, value);
    },
    async loadSession(stream, id) {
      const read = await readSessionRows(core, stream, id);
      for (const row of sessionRows(memory, stream, id)) core.passing.delete(keyOf(row));
      return read;
    },
    releaseSession(stream, id) {
      const keys = sessionRows(memory, stream, id).map(keyOf);
      if (core.importing) return;
      if (core.open.keys().includes(keyOf({ stream, id })) || !keys.every((key) => memory.isSaved(key, ''))) return;
      memory.forget(keys);
    },
    async loadResults(stream) {
      await readResults(core, stream);
      for (const key of core.passing) if (nameOf(key)[0] === stream) core.passing.delete(key);
    },
    lastTimes: (stream, exercise, before) => lastTimes(core, stream, exercise, before),
    exposures: (stream, exercise) => exposures(core, stream, exercise),
    ends: (stream) => ends(core, stream),
    usedExercises: (stream) => usedExercises(core, stream),
    inside: (part) => part(core),
    retry,
    takeSeat: async () => core.tabs?.take(),
    refresh: async () => void (await readAgain(core)),
    flush() {
      drafts.flush();
      core.hurry();
    },
    askToPersist: board.askToPersist,
    onlyHere: async () => (await core.second)?.count(),
    async backedUp(at, held) {
      board.backedUp(at);
      await (await core.second)?.drop(held);
    },
  };
}
