import { instantAt } from '../../domain/day';
import { arrivalAsked, askedOf } from '../../domain/painBefore';
import { type App, useApp } from '../app';
import { arrivalSentence, askSentence } from '../painWords';
import type { Place } from './usePad';

/** Pain of the last session of an exercise, to be asked about before the first set; `dated` where the line above it tells the day. */
export function PainAsk({ place, exercise, dated }: { place: Place; exercise: string; dated?: boolean }) {
  const app = useApp();
  const { log, views } = app;
  const [last] = log.lastTimes(place.stream, exercise, place.session) ?? [];
  const asked = askedOf(last, views.client(log, place.stream)?.clearances[exercise], todayOf(app));
  return asked ? <p class="strip">{askSentence(asked, dated !== true)}</p> : null;
}

/** Pain the client came in with the last time, to be asked about before this session. */
export function ArrivalAsk({ place }: { place: Place }) {
  const app = useApp();
  const [last] = app.log.lastTimes(place.stream, '', place.session) ?? [];
  const asked = arrivalAsked(last, todayOf(app));
  return asked ? <p class="strip">{arrivalSentence(asked)}</p> : null;
}

const todayOf = ({ world }: App): string => instantAt(world.now(), world.zone()).day;
