import { countField } from '../../domain/tally';
import { useApp, useWatch } from '../app';
import { Sheet } from '../parts/Sheet';
import { go, replace, type Sheet as SheetRoute } from '../routes';
import type { Pad } from './usePad';

/** What a session can do beside logging; each is one tap from here. */
export function MoreSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, views, world } = useApp();
  const { place, session, exercise } = pad;
  useWatch(['kind:kit', `${place.stream}/${place.session}`]);
  const at = views.places(log).find((one) => one.id === session.place);
  const to = (sheet: SheetRoute) => () => replace({ page: 'session', ...place, sheet });
  const running = !session.end;
  const spreads = exercise && countField(exercise.holds) !== undefined;
  const isSpread = session.items.some((item) => item.id === exercise?.id && item.tally !== undefined);
  return (
    <Sheet title="More" onClose={close}>
      <ul class="pick-list">
        {running ? (
          <>
            <Entry onTap={to({ name: 'block', block: null })}>Add a block: rounds, list, clock</Entry>
            <Entry
              onTap={() => {
                void acts.pauseSession(log, place, world);
                close();
              }}
            >
              Pause the session
            </Entry>
          </>
        ) : null}
        {running && spreads ? (
          <Entry onTap={to({ name: 'tally', exercise: exercise.id })}>
            {isSpread ? 'Change the count of' : 'Spread over the session:'} {exercise.name}
          </Entry>
        ) : null}
        <Entry onTap={to({ name: 'arrival' })}>Before we start: how they came in</Entry>
        <Entry onTap={to({ name: 'signs' })}>Stop signs</Entry>
        <Entry onTap={to({ name: 'place' })}>{at ? `Place: ${at.name}` : 'Place, with its bands and pins'}</Entry>
        <Entry onTap={to({ name: 'template' })}>Keep as a template</Entry>
        {running && session.sets.length === 0 ? (
          <Entry
            onTap={() => {
              void acts.repeatLast(log, place, world);
              close();
            }}
          >
            Repeat last session
          </Entry>
        ) : null}
        <Entry onTap={() => go({ page: 'client', stream: place.stream })}>The client’s page</Entry>
      </ul>
    </Sheet>
  );
}

function Entry({ onTap, children }: { onTap: () => void; children: preact.ComponentChildren }) {
  return (
    <li>
      <button type="button" class="button pick" onClick={onTap}>
        {children}
      </button>
    </li>
  );
}
