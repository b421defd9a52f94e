import { type Rest, type RestChange, restOf } from '../../domain/rest';
import type { Json } from '../../merge/row';
import { type App, useApp } from '../app';
import { useTicking } from '../parts/useTicking';
import type { Place } from './usePad';

export const restKey = ({ stream, session }: Place): string => `rest/${stream}/${session}`;

/** Returns where a session stands between sets, now. */
export function restNow({ log, views, world }: App, place: Place): Rest {
  const session = views.session(log, place.stream, place.session);
  if (!session) return { state: 'no-set-yet' };
  const change = readChange(log.draft(restKey(place)));
  return restOf(session.sets, (id) => views.exercise(log, id), change, world.now(), session.blocks);
}

/** Returns the same, looked at as time goes on; draws again when `by` gives another value. */
export function useRest(place: Place, by: 'second' | 'state'): Rest {
  const app = useApp();
  let rest: Rest = { state: 'no-set-yet' };
  useTicking(() => {
    rest = restNow(app, place);
    if (rest.state !== 'resting') return rest.state;
    return by === 'second' ? rest.left : `resting ${rest.set}`;
  });
  return rest;
}

/** Makes the rest that runs longer or shorter; it is kept like a draft, so the clock is the same after a kill. */
export function changeRest(app: App, place: Place, by: number): void {
  // as it is now, not as it was drawn: two quick taps are two changes
  const rest = restNow(app, place);
  if (rest.state !== 'resting') return;
  app.log.setDraft(restKey(place), { set: rest.set, seconds: Math.max(0, rest.of + by) });
}

function readChange(stored: Json | undefined): RestChange | null {
  if (stored === null || typeof stored !== 'object' || !('set' in stored) || !('seconds' in stored)) return null;
  const { set, seconds } = stored;
  return typeof set === 'string' && typeof seconds === 'number' ? { set, seconds } : null;
}
