import { byDay } from '../analysis/onTime';
import { instantAt } from '../domain/day';
import { newId } from '../domain/ids';
import { ok, type Result } from '../domain/result';
import { parseTarget, readTargets, type Target, type TargetFault, type TargetFields } from '../domain/target';
import type { World } from '../domain/world';
import { removing } from '../merge/removal';
import type { Json, Row } from '../merge/row';
import type { Added } from './libraryActs';
import type { Log, Saving } from './log';
import { shownOf } from './views';

/*
 * What a client's role asks for in numbers. Every role row of a client may hold targets: two devices may each have begun one.
 */

/** Returns a client's targets, the nearest day first. */
export function targets(log: Pick<Log, 'ofKind'>, stream: string): readonly Target[] {
  return byDay(rolesOf(log, stream).flatMap((row) => readTargets(shownOf(row))));
}

/** Sets a target of an exercise, from today on. */
export function addTarget(
  log: Log,
  stream: string,
  exercise: string,
  fields: TargetFields,
  world: World,
): Result<Added, TargetFault> {
  const parsed = parseTarget(fields, instantAt(world.now(), world.zone()).day);
  if (!parsed.ok) return parsed;
  const id = newId(world.random, 8);
  const held = rolesOf(log, stream)[0];
  const changes: Record<string, Json> = {};
  for (const [name, value] of Object.entries({ exercise, ...parsed.value })) changes[`targets/${id}/${name}`] = value;
  const name = held ?? { stream, id: newId(world.random, 16), kind: 'role' };
  const saved = log.commit({
    act: { type: 'add-target', stream, exercise },
    rows: [{ name, changes, ...(held ? {} : { fresh: true }) }],
  });
  return ok({ id, saved });
}

/** Removes a target [M5]: what it said stays in its row, and undo brings it back. */
export function removeTarget(log: Log, stream: string, id: string): Saving {
  const found = rolesOf(log, stream).flatMap((row) =>
    readTargets(shownOf(row)).flatMap((target) => (target.id === id ? [{ row, exercise: target.exercise }] : [])),
  )[0];
  if (!found) throw new Error(`target ${id} is not in memory`);
  return log.commit({
    act: { type: 'remove-target', stream, exercise: found.exercise },
    rows: [{ name: found.row, changes: removing(found.row, `targets/${id}`) }],
  });
}

const rolesOf = (log: Pick<Log, 'ofKind'>, stream: string): readonly Row[] =>
  log
    .ofKind('role')
    .filter((row) => row.stream === stream)
    .sort((a, b) => (a.id < b.id ? -1 : 1));
