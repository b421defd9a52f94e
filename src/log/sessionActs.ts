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

/** Puts an exercise at the end of today's list. */
export function listExercise(log: Log, { stream, session: id }: SessionPlace, exercise: string, world: World): Saving {
  // the order is a fractional index with a random tail: "at the end" needs no more than a text after every other
  const order = `${String(session(log, stream, id)?.exercises.length ?? 0).padStart(4, '0')}${newId(world.random, 8)}`;
  return log.commit({
    act: { type: 'list-exercise', stream, exercise },
    rows: [{ name: { stream, id, kind: 'session' }, changes: { [`exercises/${exercise}/order`]: order } }],
  });
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
