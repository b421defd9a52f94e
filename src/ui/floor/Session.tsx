import { useEffect } from 'preact/hooks';
import { daysBetween, instantAt } from '../../domain/day';
import { clockMinutes } from '../../domain/session';
import { useApp, useWatch } from '../app';
import { Boundary } from '../parts/Boundary';
import { later } from '../parts/later';
import { Sheet } from '../parts/Sheet';
import { useTicking } from '../parts/useTicking';
import { back, go, type Route, type Sheet as SheetRoute } from '../routes';
import { daysTo } from '../words';
import { keepAwake } from './alarm';
import { BlockClockBar, hasClock } from './BlockClockBar';
import { PadView } from './PadView';
import { Record } from './Record';
import { RestClock } from './RestClock';
import { type Pad, type Place, usePad } from './usePad';
import { useRest } from './useRest';

// sheets are loaded behind the first screen: it is the floor that has to be there at once
const ArrivalSheet = later(() => import('./ArrivalSheet').then((file) => file.ArrivalSheet));
const BlockSheet = later(() => import('./BlockSheet').then((file) => file.BlockSheet));
const ChangeSheet = later(() => import('./ChangeSheet').then((file) => file.ChangeSheet));
const ClearanceSheet = later(() => import('./ClearanceSheet').then((file) => file.ClearanceSheet));
const ClientSheet = later(() => import('./ClientSheet').then((file) => file.ClientSheet));
const CueSheet = later(() => import('./CueSheet').then((file) => file.CueSheet));
const EndSheet = later(() => import('./EndSheet').then((file) => file.EndSheet));
const ExerciseSheet = later(() => import('./ExerciseSheet').then((file) => file.ExerciseSheet));
const MoreSheet = later(() => import('./MoreSheet').then((file) => file.MoreSheet));
const PlaceSheet = later(() => import('./PlaceSheet').then((file) => file.PlaceSheet));
const SetSheet = later(() => import('./SetSheet').then((file) => file.SetSheet));
const SetUpSheet = later(() => import('./SetUpSheet').then((file) => file.SetUpSheet));
const SignsSheet = later(() => import('./SignsSheet').then((file) => file.SignsSheet));
const TallySheet = later(() => import('./TallySheet').then((file) => file.TallySheet));
const TemplateSheet = later(() => import('./TemplateSheet').then((file) => file.TemplateSheet));
const TrendSheet = later(() => import('./TrendSheet').then((file) => file.TrendSheet));

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
  const { world } = useApp();
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
          {pad.block && !pad.session.end && hasClock(pad.block, pad.session.pauses, world.now()) ? (
            <BlockClockBar pad={pad} block={pad.block} />
          ) : null}
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
  const minutes = useTicking(() => (start ? (clockMinutes(pad.session, end?.at ?? world.now()) ?? 0) : null));
  const today = instantAt(world.now(), world.zone()).day;
  return (
    <header class="session-head">
      <button type="button" class="button button-plain session-back" onClick={() => go({ page: 'today' })}>
        ‹ Today
      </button>
      <div class="session-who">
        <h1 dir="auto">{client?.alias ?? 'A client that is not on this phone'}</h1>
        <p class="session-days">
          {minutes === null ? null : <span class="session-minutes">{minutes} min</span>}
          {client?.date ? (
            <span class="days-to">{daysTo(daysBetween(today, client.date.day), client.date.name)}</span>
          ) : null}
        </p>
      </div>
      <span class="session-head-acts">
        <button
          type="button"
          class="button button-plain"
          onClick={() => go({ page: 'session', ...pad.place, sheet: { name: 'signs' } })}
        >
          Stop signs
        </button>
        <button
          type="button"
          class="button button-plain"
          aria-label={`Show ${client?.short ?? 'the client'}`}
          onClick={() => go({ page: 'view', ...pad.place })}
        >
          Show
        </button>
      </span>
    </header>
  );
}

function OpenSheet({ pad, sheet, close }: { pad: Pad; sheet: SheetRoute; close: () => void }) {
  const { place } = pad;
  switch (sheet.name) {
    case 'set': {
      const set = pad.session.sets.find((one) => one.id === sheet.set);
      return set ? <SetSheet pad={pad} set={set} close={close} /> : <Gone close={close} />;
    }
    case 'cue': {
      const set = pad.session.sets.find((one) => one.id === sheet.set);
      return set ? <CueSheet place={place} set={set} close={close} /> : <Gone close={close} />;
    }
    case 'exercise':
      return <ExerciseSheet pad={pad} to={sheet.to} close={close} />;
    case 'set-up':
      return <SetUpSheet place={place} exercise={sheet.exercise} close={close} />;
    case 'trend':
      return <TrendSheet place={place} exercise={sheet.exercise} close={close} />;
    case 'clearance':
      return <ClearanceSheet place={place} exercise={sheet.exercise} close={close} />;
    case 'tally':
      return <TallySheet pad={pad} exercise={sheet.exercise} close={close} />;
    case 'block':
      return <BlockSheet pad={pad} block={sheet.block} close={close} />;
    case 'client':
      return <ClientSheet close={close} />;
    case 'end':
      return <EndSheet pad={pad} close={close} />;
    case 'change':
      return <ChangeSheet pad={pad} close={close} />;
    case 'more':
      return <MoreSheet pad={pad} close={close} />;
    case 'arrival':
      return <ArrivalSheet pad={pad} close={close} />;
    case 'signs':
      return <SignsSheet pad={pad} close={close} />;
    case 'place':
      return <PlaceSheet pad={pad} close={close} />;
    case 'template':
      return <TemplateSheet pad={pad} close={close} />;
  }
}

function Gone({ close }: { close: () => void }) {
  return (
    <Sheet title="Set" onClose={close}>
      <p>This set is not here any more: it was removed, moved or undone.</p>
    </Sheet>
  );
}
