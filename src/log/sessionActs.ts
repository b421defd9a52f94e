import { instantAt } from '../domain/day';
import { newId } from '../domain/ids';
import { type NumberFault, parseNumber } from '../domain/number';
import { fail, ok, type Result } from '../domain/result';
import { type Attendance, SESSION_EFFORT, SESSION_MINUTES } from '../domain/session';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json } from '../merge/row';
import type { Log, Saving } from './log';
import type { SessionPlace } from './logSet';
import { session, sessionRows } from './views';

/** Starts a session for a client now. Returns where it is; the screen need not wait for it to be saved. */
export function startSession(log: Log, stream: string, world: World): SessionPlace & { readonly saved: Saving } {
  const id = newId(world.random, 16);
  const saved = log.commit({
    act: { type: 'start-session', stream },
    rows: [
      { name: { stream, id, kind: 'session' }, changes: { start: instantAt(world.now(), world.zone()) }, fresh: true },
    ],
  });
  return { stream, session: id, saved };
}

/** Notes that a session is interrupted from now: an interruption is not training. */
export function pauseSession(log: Log, place: SessionPlace, world: World): Saving {
  const path = `pauses/${newId(world.random, 8)}/from`;
  return changeSession(log, place, { type: 'pause' }, { [path]: instantAt(world.now(), world.zone()) });
}

/** Goes on after a pause: every pause that is open ends now. */
export function endPauses(log: Log, place: SessionPlace, world: World): Saving {
  const open = session(log, place.stream, place.session)?.pauses.filter((pause) => pause.to === undefined) ?? [];
  const changes = Object.fromEntries(
    // a clock set back in between ends a pause at its begin, not before
    open.map((pause) => [`pauses/${pause.id}/to`, instantAt(Math.max(world.now(), pause.from), world.zone())]),
  );
  return changeSession(log, place, { type: 'end-pause' }, changes);
}

/** Writes registers of a session's own row, as one act. */
export function changeSession(
  log: Log,
  { stream, session: id }: SessionPlace,
  act: { readonly type: string; readonly [fact: string]: string | number },
  changes: Readonly<Record<string, Json>>,
): Saving {
  return log.commit({ act: { ...act, stream }, rows: [{ name: { stream, id, kind: 'session' }, changes }] });
}

/**
 * Notes a session that was agreed on and did not happen, on the day of now: it starts and ends at once, and holds no training. `why` may be empty.
 */
export function noteMissedSession(
  log: Log,
  stream: string,
  attendance: 'cancelled' | 'no-show',
  why: string,
  world: World,
): Result<Saving, EndFault> {
  const text = why.trim();
  if (text.length > MOST.why) return fail({ type: 'too-long', field: 'why', most: MOST.why, has: text.length });
  const now = instantAt(world.now(), world.zone());
  const changes = { start: now, end: now, attendance, ...(text === '' ? {} : { why: text }) };
  return ok(
    log.commit({
      act: { type: 'missed-session', stream },
      rows: [{ name: { stream, id: newId(world.random, 16), kind: 'session' }, changes, fresh: true }],
    }),
  );
}

export type EndFields = {
  readonly effort: string;
  readonly minutes: string;
  readonly attendance: Attendance | null;
  readonly why: string;
  readonly note: string;
};
export type EndFault =
  | NumberFault<'effort' | 'minutes'>
  | { readonly type: 'too-long'; readonly field: 'note' | 'why'; readonly most: number; readonly has: number };

const MOST = { note: 2000, why: 200 } as const;

/**
 * Ends a session, or changes what was said at its end: effort, minutes, attendance, why and note are each not noted where left empty.
 * The first end is now; a later change keeps it.
 */
export function endSession(
  log: Log,
  { stream, session: id }: SessionPlace,
  fields: EndFields,
  world: World,
): Result<Saving, EndFault> {
  const changes: Record<string, Json> = { attendance: fields.attendance };
  for (const [field, bounds, unit] of [
    ['effort', SESSION_EFFORT, ''],
    ['minutes', SESSION_MINUTES, 'min'],
  ] as const) {
    const number = parseNumber(field, fields[field], bounds, unit);
    if (!number.ok && number.error.type !== 'empty') return number;
    const value = number.ok ? number.value : null;
    changes[field] = field === 'effort' && value !== null ? { value, as: 'session' } : value;
  }
  for (const field of ['why', 'note'] as const) {
    const text = fields[field].trim();
    if (text.length > MOST[field]) return fail({ type: 'too-long', field, most: MOST[field], has: text.length });
    changes[field] = text === '' ? null : text;
  }
  const held = session(log, stream, id);
  if (!held?.end) changes['end'] = instantAt(world.now(), world.zone());
  // what was not noted and still is not needs no register
  for (const [path, value] of Object.entries(changes)) {
    if (value === null && held?.[path as keyof typeof held] === undefined) delete changes[path];
  }
  return ok(
    log.commit({ act: { type: 'end-session', stream }, rows: [{ name: { stream, id, kind: 'session' }, changes }] }),
  );
}

/** Goes on with a session that was ended. */
export function resumeSession(log: Log, { stream, session: id }: SessionPlace): Saving {
  return log.commit({
    act: { type: 'resume-session', stream },
    rows: [{ name: { stream, id, kind: 'session' }, changes: { end: null } }],
  });
}

/** Removes a session with its continuations, in one transaction [M5]. */
export function removeSession(log: Log, { stream, session: id }: SessionPlace): Saving {
  const rows = sessionRows(log, stream, id);
  return log.commit({
    act: { type: 'remove-session', stream },
    rows: rows.map((row) => ({ name: row, changes: removing(row, '') })),
  });
}
