import * as z from 'zod/mini';
import { instantSchema, type Unread } from './set';

/** An interruption of a session: open while it has no end. Several can overlap, as two devices wrote them. */
export type Pause = { readonly id: string; readonly from: number; readonly to?: number };

/** Returns the pauses of a session's shown values by their begin; one that ends before it begins is kept, and named as needing mending [M9]. */
export function readPauses(values: Readonly<Record<string, unknown>>): {
  readonly pauses: readonly Pause[];
  readonly unread: readonly Unread[];
} {
  const pauses: Pause[] = [];
  const unread: Unread[] = [];
  for (const path of Object.keys(values)) {
    const id = /^pauses\/([^/]+)\/from$/.exec(path)?.[1];
    if (id === undefined || values[path] === null) continue;
    const from = z.safeParse(instantSchema, values[path]);
    if (!from.success) {
      unread.push({ type: 'from-a-newer-app', path, value: values[path] });
      continue;
    }
    const end = values[`pauses/${id}/to`] ?? null;
    const to = z.safeParse(instantSchema, end);
    if (end !== null && !to.success) unread.push({ type: 'from-a-newer-app', path: `pauses/${id}/to`, value: end });
    if (to.success && to.data.at < from.data.at) unread.push({ type: 'pause-backwards', path: `pauses/${id}` });
    else pauses.push({ id, from: from.data.at, ...(to.success ? { to: to.data.at } : {}) });
  }
  return { pauses: pauses.sort((a, b) => a.from - b.from || (a.id < b.id ? -1 : 1)), unread };
}

/** Returns how many ms between two instants were paused; what overlaps counts once, and an open pause lasts. */
export function pausedMs(pauses: readonly Pause[], from: number, to: number): number {
  let paused = 0;
  let counted = from;
  for (const pause of [...pauses].sort((a, b) => a.from - b.from)) {
    const begin = Math.max(pause.from, counted);
    const end = Math.min(pause.to ?? to, to);
    if (end <= begin) continue;
    paused += end - begin;
    counted = end;
  }
  return paused;
}
