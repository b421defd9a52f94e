import type { EntryFault } from '../../domain/entry';
import { useApp, useWatch } from '../app';
import { faultSentence } from '../faultWords';
import { say } from '../parts/say';
import { replace } from '../routes';
import { closedFor } from './closed';
import { type Pad, padOf } from './usePad';

/** The same again for this client and the others who are being trained: one set each as their pads have it. Only where each has done one. */
export function TogetherButton({ pad, onRefused }: { pad: Pad; onRefused: (fault: EntryFault) => void }) {
  const app = useApp();
  const { log, views, acts, world } = app;
  const running = views.sessionsInMemory(log).filter((one) => !one.session.end);
  const places = running.map(({ stream, session }) => ({ stream, session: session.id }));
  useWatch(places.flatMap((place) => [`draft:${acts.padDraft(place)}`, `series:${place.stream}`]));
  const sets = places.flatMap((place) => {
    const own = place.session === pad.place.session ? pad : padOf(app, place);
    if (!own?.entry || !own.exercise || own.block || own.today.length === 0) return [];
    const isPaused = own.session.pauses.some((pause) => pause.to === undefined);
    if (isPaused || closedFor(app, place, own.session, own.exercise.id)) return [];
    return [{ place, entry: own.entry, exercise: own.exercise }];
  });
  if (sets.length < 2 || !sets.some(({ place }) => place.session === pad.place.session)) return null;
  const names = sets.map(({ place }) => views.client(log, place.stream)?.short ?? '–');
  const count = sets.length === 2 ? 'Both' : `All ${sets.length}`;
  return (
    <button
      type="button"
      class="button no-rest-button"
      aria-label={`${count}, same again: ${names.join(' and ')}`}
      onClick={() => {
        const logged = acts.logTogether(log, sets, world);
        if (logged.ok) return;
        const refused = sets.find((set) => set.exercise.id === logged.error.exercise)?.place;
        if (!refused || refused.session === pad.place.session) return onRefused(logged.error.fault);
        // whose numbers are refused is where they are mended
        say(faultSentence(logged.error.fault));
        replace({ page: 'session', ...refused });
      }}
    >
      {count}, same again
    </button>
  );
}
