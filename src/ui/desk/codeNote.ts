import { daysBetween, instantAt } from '../../domain/day';
import type { World } from '../../domain/world';
import type { App } from '../app';

/*
 * When this device is to ask its recovery code back: a week after it was made, since only a paper that is still there then will be there when it is needed.
 */

const NOTE = 'code-ask';
/** After so many days something is asked for again. */
export const ASK_DAYS = 7;

/** Notes that a code was made at a time. */
export const noteCode = (notes: App['notes'], at: number): void => notes.set(NOTE, String(at));

/** Returns whether the code is to be asked back today. */
export function isCodeDue(notes: App['notes'], { now, zone }: World): boolean {
  const noted = notes.get(NOTE);
  if (!noted) return false;
  const dayOf = (at: number): string => instantAt(at, zone()).day;
  return daysBetween(dayOf(Number(noted)), dayOf(now())) >= ASK_DAYS;
}

/** Notes that the code was typed back: once it was due, it is not asked for again. */
export function noteRight(notes: App['notes'], world: World): void {
  if (isCodeDue(notes, world)) notes.set(NOTE, '');
}
