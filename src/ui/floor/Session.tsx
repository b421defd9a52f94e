import { useEffect } from 'preact/hooks';
import { daysBetween, instantAt } from '../../domain/day';
import { useApp, useWatch } from '../app';
import { Boundary } from '../parts/Boundary';
import { Sheet } from '../parts/Sheet';
import { useTicking } from '../parts/useTicking';
import { back, go, type Route, type Sheet as SheetRoute } from '../routes';
import { daysTo } from '../words';
import { keepAwake } from './alarm';
import { ClientSheet } from './ClientSheet';
import { CueSheet } from './CueSheet';
import { EndSheet } from './EndSheet';
import { ExerciseSheet } from './ExerciseSheet';
import { PadView } from './PadView';
import { Record } from './Record';
import { RestClock } from './RestClock';
import { SetSheet } from './SetSheet';
import { SetUpSheet } from './SetUpSheet';
import { type Pad, type Place, usePad } from './usePad';
import { useRest } from './useRest';

/** A session: the record above, the pad below; its sheets lie over it. */
export function Session({ place, sheet }: { place: Place; sheet: SheetRoute | undefined }) {
  const { log } = useApp();
  useWatch(['status']);
  const pad = usePad(place);
  const { stream, session } = place;
  useEffect(() => {
    // an ended session may not be in memory; a running one is, once the log is open
    void log.ready.then(() => log.loadSession(stream, session));
    return () => log.releaseSession(stream, session);
  }, [log, stream, session]);
  useEffect(keepAwake, []);
  if (!pad) {
    return (
      <main class="page">
        <h1>
          {log.status().phase === 'opening'
            ? 'Opening the log…'
            : 'This session is not on this phone: it was removed, or its start was undone.'}
        </h1>
        <button type="button" class="button" onClick={() => back({ page: 'today' })}>
          Today
        </button>
      </main>
    );
  }
  return <OpenSession pad={pad} sheet={sheet} />;
}

function OpenSession({ pad, sheet }: { pad: Pad; sheet: SheetRoute | undefined }) {
  const { place } = pad;
  const rest = useRest(place, 'state');
  const resting = rest.state === 'resting' ? rest.set : null;
  const home: Route = { page: 'session', ...place };
  const close = () => back(home);
  return (
    <>
      <main class="session" inert={sheet !== undefined}>
        <Head pad={pad} />
        <Boundary what="The record">
          <Record pad={pad} resting={resting} />
        </Boundary>
        <Boundary what="The clock">
          <RestClock pad={pad} />
        </Boundary>
        <Boundary what="The pad">
          <PadView pad={pad} />
        </Boundary>
      </main>
      {sheet ? (
        <Boundary what="The sheet">
          <OpenSheet pad={pad} sheet={sheet} close={close} />
        </Boundary>
      ) : null}
    </>
  );
}

function Head({ pad }: { pad: Pad }) {
  const { log, views, world } = useApp();
  const client = views.client(log, pad.place.stream);
  const { start, end } = pad.session;
  const minutes = useTicking(() =>
    start ? Math.max(0, Math.floor(((end?.at ?? world.now()) - start.at) / 60_000)) : null,
  );
  const today = instantAt(world.now(), world.zone()).day;
  return (
    <header class="session-head">
      <button type="button" class="button button-plain session-back" onClick={() => go({ page: 'today' })}>
        ‹ Today
      </button>
      <h1 dir="auto">{client?.alias ?? 'A client that is not on this phone'}</h1>
      {minutes === null ? null : <span class="session-minutes">{minutes} min</span>}
      {client?.date ? (
        <span class="days-to">{daysTo(daysBetween(today, client.date.day), client.date.name)}</span>
      ) : null}
    </header>
  );
}

function OpenSheet({ pad, sheet, close }: { pad: Pad; sheet: SheetRoute; close: () => void }) {
  switch (sheet.name) {
    case 'set': {
      const set = pad.session.sets.find((one) => one.id === sheet.set);
      return set ? <SetSheet pad={pad} set={set} close={close} /> : <Gone close={close} />;
    }
    case 'cue': {
      const set = pad.session.sets.find((one) => one.id === sheet.set);
      return set ? <CueSheet place={pad.place} set={set} close={close} /> : <Gone close={close} />;
    }
    case 'exercise':
      return <ExerciseSheet pad={pad} close={close} />;
    case 'set-up':
      return <SetUpSheet place={pad.place} exercise={sheet.exercise} close={close} />;
    case 'client':
      return <ClientSheet close={close} />;
    case 'end':
      return <EndSheet pad={pad} close={close} />;
  }
}

function Gone({ close }: { close: () => void }) {
  return (
    <Sheet title="Set" onClose={close}>
      <p>This set is not here any more: it was removed, moved or undone.</p>
    </Sheet>
  );
}
