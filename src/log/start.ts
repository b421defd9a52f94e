import { newId } from '../domain/ids';
import type { World } from '../domain/world';
import { createConnection } from './connection';
import type { Core } from './core';
import { createDrafts } from './drafts';
import { forgetErased, marksFor, sweepErased } from './erased';
import { foldEnded, refold } from './fold';
import { keyOf, type RowKey } from './keys';
import { createLocal, type Local } from './local';
import { type Log, logOver } from './log';
import { createMemory } from './memory';
import { createOpenSessions, sessionIdOf } from './openSessions';
import { createQueue } from './queue';
import { compareSecondCopy, forgetSeries, keepOpen, readAgain, readKeys, readStart } from './read';
import { needsRolling, rollLogFile } from './roll';
import { openSecondCopy } from './second';
import { markKept } from './sentinel';
import { createBoard } from './status';
import { joinTabs } from './tabs';
import { createWatchers, draftTopic, kindTopic, type NextFrame, STATUS } from './watch';

/**
 * Returns the log named `name`, being opened (`nextFrame` tells when the screen is drawn next): it can be watched at once, acts wait until it is open, and `ready` resolves when it is
 * (or is known not to open: see its status). Another name is another log that shares nothing with this one.
 */
export function startLog(name: string, world: World, nextFrame: NextFrame = soon): Log {
  const core = createCore(name, world, nextFrame);
  // acts wait until what is stored is in memory, and this tab is the one that writes
  core.queue.hold(true);
  return logOver(core, open(core));
}

/** Where nobody draws, about as long as a frame. */
const soon: NextFrame = (fn) => {
  const timer = setTimeout(fn, 16);
  return () => clearTimeout(timer);
};

function createCore(name: string, world: World, nextFrame: NextFrame): Core {
  const local = createLocal(name);
  const watchers = createWatchers(nextFrame);
  const board = createBoard(local, () => watchers.tell(STATUS));
  const memory = createMemory(`${devicePart(local, world)}-${newId(world.random, 8)}`, (row) => {
    watchers.tell(keyOf(row));
    watchers.tell(kindTopic(row.kind));
  });
  const connection = createConnection(name, {
    onOpen: () => board.set({ phase: 'open', openFault: null }),
    // once open, the screen stays: what cannot be saved then shows as not saved
    onFault: (openFault) =>
      board.set(board.status().phase === 'open' ? { openFault } : { phase: 'cannot-open', openFault }),
    onYielded: () => board.set({ phase: 'yielded' }),
  });
  const queue = createQueue({
    row: memory.get,
    database: connection.database,
    reopen: async (waiting) => (await connection.connect()) && readKeys(core, waiting),
    onPushed: () => board.waiting(queue.unsaved(), world.now()),
    onSaved(rows, bulk) {
      for (const row of rows) {
        memory.markSaved(row);
        // lines that show a set as saved watch its session
        watchers.tell(keyOf(row));
      }
      if (rows.length === 0) return;
      markKept(local, 'rows');
      if (!bulk) void core.second.then((second) => second?.keep(rows));
      core.tabs?.tellChanged(rows.map(keyOf));
    },
    onSettled(saveFault) {
      if (saveFault !== board.status().saveFault) board.set({ saveFault });
      board.waiting(queue.unsaved(), world.now());
    },
  });
  const drafts = createDrafts(
    (waiting) => void queue.push({ drafts: waiting }),
    (key) => watchers.tell(draftTopic(key)),
  );
  const core: Core = {
    name,
    world,
    local,
    memory,
    queue,
    drafts,
    watchers,
    board,
    connection,
    open: createOpenSessions(),
    undo: [],
    series: new Map(),
    wholeSeries: new Set(),
    stale: new Set(),
    reckoning: new Set(),
    reckoned: Promise.resolve(),
    passing: new Set(),
    importing: false,
    absorbing: Promise.resolve(),
    reading: new Set(),
    unreadable: new Set(),
    folding: Promise.resolve(),
    hurry: () => undefined,
    second: openSecondCopy(name),
  };
  return core;
}

async function open(core: Core): Promise<void> {
  if (!(await core.connection.connect())) return;
  if (!(await readStart(core))) return notRead(core);
  let clearing: Promise<void> | undefined;
  /** How often this tab got or lost the seat: what was begun in an earlier turn neither stops nor starts anything. */
  let turn = 0;
  /** Until the seat that this tab has is one to write from. */
  let solid: Promise<void> = Promise.resolve();
  core.tabs = await joinTabs(core.name, {
    async onSeated() {
      turn += 1;
      const own = turn;
      core.board.set({ seat: 'writer' });
      // what memory holds may be older than the store: never written over it unread
      const again = readAgain(core);
      solid = again.then(async (isRead) => {
        if (!isRead || own !== turn) return;
        // what is done from here on is this tab's to save, and waits
        core.queue.hold(true);
        core.hurry = () => {
          if (own === turn) core.queue.hold(false);
        };
        clearing ??= clearEnd(core);
        await clearing;
        core.hurry();
      });
      // solid ground is not waited for: acts show at once, and are saved as soon as it is there
      if (!(await again)) notRead(core);
    },
    async onAsked() {
      const own = turn;
      core.drafts.flush();
      // what waits would be handed over as bare rows; who asks takes the seat after a second anyway
      await solid;
      await core.queue.idle();
      if (own !== turn) return;
      core.queue.hold(true);
      await core.queue.idle();
    },
    onUnseated() {
      turn += 1;
      core.queue.letGo();
      core.board.set({ seat: 'follower' });
      // a frozen tab may have lost its seat between memory and store: the new writer merges what it gets
      return [...core.queue.waiting().rows].flatMap((key) => core.memory.get(key) ?? []);
    },
    onChanged: (keys) => void learn(core, keys),
    onHandedOver(rows) {
      for (const row of rows) core.memory.absorb(row);
      void putMerged(core, rows.map(keyOf));
    },
  });
  void settle(core);
}

/** The database opened and could not be read: nothing is written to it, and the screen says so. */
function notRead(core: Core): void {
  core.board.set({ phase: 'cannot-open', openFault: { type: 'open-failed', name: 'read' } });
}

/** Takes in what another tab saved. */
async function learn(core: Core, keys: readonly RowKey[]): Promise<void> {
  forgetSeries(core);
  if (!(await readKeys(core, keys))) return;
  if (core.tabs?.seat() === 'writer') {
    // a tab that froze while it wrote has put its rows over newer ones: they are merged now, and put again
    await putMerged(core, keys);
    return;
  }
  core.queue.strike((key) => core.memory.isSaved(key, ''));
  core.board.waiting(core.queue.unsaved(), core.world.now());
  await readStart(core);
}

/** Puts rows that another tab had a hand in; a session among them may be one that this tab did not know to be running. */
async function putMerged(core: Core, keys: readonly RowKey[]): Promise<void> {
  const sessions = keys.flatMap((key) => core.memory.get(key) ?? []).filter((row) => row.kind === 'session');
  const added = core.open.add(sessions.map((row) => keyOf({ stream: row.stream, id: sessionIdOf(row) })));
  const { meta, ...forgotten } = forgetErased(core);
  await core.queue.push({
    rows: new Set(marksFor(core, keys)),
    ...forgotten,
    meta: new Map([...(meta ?? []), ...(added ? core.open.stored() : [])]),
  });
}

/** Files that do not answer for so long are not waited for: nothing at all would be saved. */
const MOST_KEEPING_MS = 3000;

const passed = (ms: number): Promise<void> => new Promise((next) => setTimeout(next, ms));

/**
 * Is rid of what the last end may have torn, before anything is written: what is saved behind a torn record is gone at the next start, and what makes
 * up for that, the second copy, comes a moment later than the save. Seen: killed as its first set showed as saved, the app had lost it.
 */
async function clearEnd(core: Core): Promise<void> {
  // should the browser throw the database away at the next start, this is what comes back; without it a save is better than none
  await Promise.race([keepOpen(core).catch(() => undefined), passed(MOST_KEEPING_MS)]);
  const db = core.connection.database();
  // what cannot be written now leaves the file as it is: the next start tries again
  if (db && needsRolling() && core.memory.all().length > 0) await rollLogFile(db).catch(() => undefined);
}

/** What a start does once the floor is usable: nothing here is waited for. */
async function settle(core: Core): Promise<void> {
  if (core.tabs?.seat() !== 'writer') return;
  await compareSecondCopy(core);
  await sweepErased(core);
  await foldEnded(
    core,
    core.open.keys().flatMap((key) => core.memory.get(key) ?? []),
  );
  await refold(core);
}

/** The part of a writer's name that tells the device: kept in localStorage, and a new one where that was lost. */
function devicePart(local: Local, world: World): string {
  const known = local.get('device');
  if (known !== undefined && /^[0-9a-z]{8}$/.test(known)) return known;
  const made = newId(world.random, 8);
  local.set('device', made);
  return made;
}
