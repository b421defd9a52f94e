import { type Entry, FIELDS, fieldsFrom } from './entry';
import type { Plan } from './plan';
import type { SetRecord } from './set';

/** Returns the plan that asks for what a set held again: never for what was seen of it. */
export function planOfSet(set: SetRecord): Plan {
  return planOf(fieldsFrom(set), set.direction ?? null);
}

/** Returns the plan that asks for what an entry holds. */
export function planOfEntry(entry: Entry): Plan {
  return planOf(entry, entry.direction);
}

function planOf(held: ReturnType<typeof fieldsFrom>, direction: Entry['direction']): Plan {
  const plan: Record<string, string> = {};
  for (const field of FIELDS) {
    const text = held[field].trim();
    if (field !== 'good' && text !== '') plan[field] = text;
  }
  if (plan['load'] !== undefined && held.unit) plan['unit'] = held.unit;
  if (plan['distance'] !== undefined && held.distanceUnit) plan['distanceUnit'] = held.distanceUnit;
  if (held.body !== 'alone') plan['body'] = held.body;
  if (direction) plan['direction'] = direction;
  return plan as Plan;
}
