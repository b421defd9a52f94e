import { ARRIVAL_ITEMS, wasAsked } from '../../domain/arrival';
import { useApp, useWatch } from '../app';
import { ARRIVAL } from '../careWords';
import { dayShort } from '../format';
import { later } from '../parts/later';
import { go } from '../routes';
import { unreadSentence } from '../setWords';
import { restrictionsNow } from './closed';
import type { Pad } from './usePad';

const ArrivalAsk = later(() => import('./PainAsk').then((file) => file.ArrivalAsk));

/** What holds for the whole session: restrictions, how the client came in, and what of the session needs mending. */
export function SessionStrip({ pad }: { pad: Pad }) {
  const app = useApp();
  const { acts, log } = app;
  useWatch(['kind:restriction']);
  const { place, session } = pad;
  const restrictions = restrictionsNow(app, place.stream);
  const asked = wasAsked(session.arrival);
  const ask = () => go({ page: 'session', ...place, sheet: { name: 'arrival' } });
  const own = session.unread.filter((one) => !one.path.startsWith('sets/'));
  const mend = own.length > 0 ? unreadSentence(own) : undefined;
  return (
    <>
      {restrictions.map((one) => (
        <p key={one.id} class="strip">
          <span>
            <b>Restriction</b>: <span dir="auto">{one.what}</span> (<span dir="auto">{one.who}</span>
            {one.until ? `, until ${dayShort(one.until)}` : ''})
          </span>
        </p>
      ))}
      {mend ? <p class="strip">{mend}</p> : null}
      {!asked && session.sets.length === 0 && !session.end ? (
        <section class="card" aria-label="before we start">
          <h2>Before we start</h2>
          <ArrivalAsk place={place} />
          <div class="chips">
            <button type="button" class="button" onClick={() => acts.tellUsual(log, place, true)}>
              The usual
            </button>
            <button type="button" class="button" onClick={ask}>
              Ask
            </button>
          </div>
        </section>
      ) : null}
      {asked ? (
        <button type="button" class="arrival-line" onClick={ask}>
          Came in: {arrivalText(pad)}
        </button>
      ) : null}
    </>
  );
}

function arrivalText({ session: { arrival } }: Pad): string {
  const items = ARRIVAL_ITEMS.flatMap((item) => {
    const told = arrival.items[item];
    return told === undefined ? [] : [`${ARRIVAL[item].asks.toLowerCase()} ${told}`];
  });
  return [
    ...(arrival.usual ? ['the usual'] : []),
    ...items,
    ...(arrival.sore.length > 0 ? [`sore: ${arrival.sore.join(', ')}`] : []),
    ...(arrival.pain === undefined ? [] : [`pain ${arrival.pain}`]),
    ...(arrival.answer ? ['answer noted'] : []),
  ].join(' · ');
}
