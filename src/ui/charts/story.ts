import type { Side } from '../../domain/set';
import { type Held, isCharted, type Visit } from './visits';

/** A side's number, and the earlier one it is compared with: none where this was its first time. */
export type Compared = {
  readonly side: Side | undefined;
  readonly held: Held;
  readonly against: { readonly held: Held; readonly visit: Visit } | undefined;
};

/** What the one sentence above the chart tells of. */
export type Story =
  /** Nothing was done before, or nothing that bears a number. */
  | { readonly type: 'first' | 'nothing-charted' }
  /** This session against last time, or last time against the first of those shown. */
  | { readonly type: 'this' | 'last'; readonly visit: Visit; readonly sides: readonly Compared[] };

/** The sessions that are marked in words: the one that is open, and last time. */
export type Marked = { readonly thisTime: string; readonly lastTime: string | undefined };

/**
 * Returns what to tell above the chart, in the session named, which began at `began`: this time against last time as soon as it holds a
 * number, else last time against the first one shown. Sessions after it are no part of it, unless there are no others (a clock set back).
 */
export function storyOf(
  visits: readonly Visit[],
  shown: readonly Visit[],
  session: string,
  began: number | undefined,
): Story {
  const mine = visits.find((visit) => visit.session === session);
  const others = visits.filter((visit) => visit.session !== session);
  const until = mine?.at ?? began ?? Number.POSITIVE_INFINITY;
  const before = others.filter((visit) => visit.at <= until);
  const earlier = before.length > 0 ? before : others;
  const last = earlier.filter(isCharted).at(-1);
  if (!last) return { type: earlier.length > 0 ? 'nothing-charted' : 'first' };
  const now = mine && isCharted(mine) ? mine : undefined;
  if (now) {
    const latest = [...earlier].reverse();
    return { type: 'this', visit: now, sides: compared(now, latest) };
  }
  const inSight = earlier.filter((visit) => visit !== last && shown.some((one) => one.session === visit.session));
  const firsts = inSight.some(isCharted) ? inSight : earlier.filter((visit) => visit !== last);
  return { type: 'last', visit: last, sides: compared(last, firsts) };
}

/** Returns the sessions to mark, as the sentence tells of them. */
export function markedOf(story: Story, session: string): Marked {
  if (story.type === 'last') return { thisTime: session, lastTime: story.visit.session };
  if (story.type !== 'this') return { thisTime: session, lastTime: undefined };
  const against = story.sides.flatMap((one) => one.against?.visit ?? []);
  return { thisTime: session, lastTime: against.sort((a, b) => b.at - a.at)[0]?.session };
}

/** Each side of a visit with the first of the others that has a number on that side. */
function compared(visit: Visit, others: readonly Visit[]): readonly Compared[] {
  return visit.held
    .filter(({ value }) => value !== undefined)
    .map((held) => {
      const { side } = held.top;
      const pairs = others.flatMap((other) => {
        const same = other.held.find((one) => one.top.side === side && one.value !== undefined);
        return same ? [{ held: same, visit: other }] : [];
      });
      return { side, held, against: pairs[0] };
    });
}
