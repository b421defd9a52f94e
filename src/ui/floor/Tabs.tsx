import { useEffect, useRef } from 'preact/hooks';
import { blockClock } from '../../domain/blockClock';
import { type App, useApp, useWatch } from '../app';
import { duration } from '../format';
import { useTicking } from '../parts/useTicking';
import { go, replace } from '../routes';
import { restIsOver } from './alarm';
import type { Place } from './usePad';
import { restNow } from './useRest';

/** The clients being trained, each with its clock, directly above the button. */
export function Tabs({ place }: { place: Place }) {
  const { log, views } = useApp();
  useWatch(['kind:session', 'kind:client']);
  const running = views
    .sessionsInMemory(log)
    .filter((one) => !one.session.end || (one.stream === place.stream && one.session.id === place.session))
    .reverse();
  return (
    <nav class={`tabs${running.length > 2 ? ' tabs-many' : ''}`} aria-label="clients">
      {running.map(({ stream, session }) => (
        <Tab
          key={`${stream}/${session.id}`}
          own={{ stream, session: session.id }}
          current={stream === place.stream && session.id === place.session}
        />
      ))}
      <button
        type="button"
        class="tab"
        onClick={() => go({ page: 'session', ...place, sheet: { name: 'client' } })}
        aria-label="another client"
      >
        +
      </button>
    </nav>
  );
}

/** What a client's tab says of its clock: the block's own, the rest, or what is next. */
function clockText(app: App, own: Place): string {
  const { log, views, world } = app;
  const session = views.session(log, own.stream, own.session);
  if (session?.pauses.some((pause) => pause.to === undefined)) return 'paused';
  const running = session?.blocks.find((block) => block.started && !block.stopped);
  const clock = running && session ? blockClock(running, session.pauses, world.now()) : undefined;
  if (clock && 'left' in clock) return `${clock.phase} ${duration(clock.left)}`;
  const rest = restNow(app, own);
  switch (rest.state) {
    case 'resting':
      return `rest ${duration(rest.left)}`;
    case 'other-side':
      return 'other side';
    case 'next-station':
      return `station ${rest.station}`;
    case 'ready':
      return 'ready';
    case 'no-set-yet':
      return 'no set yet';
  }
}

function Tab({ own, current }: { own: Place; current: boolean }) {
  const app = useApp();
  const { log, views } = app;
  const short = views.client(log, own.stream)?.short ?? '–';
  const resting = useRef(false);
  const text = useTicking(() => clockText(app, own));
  const restsNow = text.startsWith('rest');
  useEffect(() => {
    // only a rest that ran out while it was watched sounds: not one that ended while the app was away
    if (resting.current && text === 'ready') restIsOver();
    resting.current = restsNow;
  }, [restsNow, text]);
  return (
    <button
      type="button"
      class="tab"
      aria-current={current ? 'true' : undefined}
      onClick={() => {
        if (!current) replace({ page: 'session', ...own });
      }}
    >
      <b dir="auto">{short}</b>
      <span>{text}</span>
    </button>
  );
}
