import type { ComponentChildren } from 'preact';
import { useApp, useWatch } from '../app';
import { timeOfDay } from '../format';
import { later } from '../parts/later';
import { go } from '../routes';
import { BlockActs } from './BlockActs';
import { closedFor } from './closed';
import { LivePad } from './LivePad';
import { NotSaved } from './NotSaved';
import { Tabs } from './Tabs';
import { TouchUp } from './TouchUp';
import type { Pad } from './usePad';
import { useRest } from './useRest';

const ClosedPad = later(() => import('./ClosedPad').then((file) => file.ClosedPad));

/** The pad of one session: what is noted of the last set while the rest runs, the next set as a sentence, the clients, and the one act. */
export function PadView({ pad }: { pad: Pad }) {
  const app = useApp();
  const { log, world, acts } = app;
  useWatch(['status', 'kind:restriction']);
  const { place, session, exercise, block } = pad;
  if (log.status().seat === 'follower') {
    return (
      <BarePad pad={pad} said="Another tab of this app is logging.">
        <button type="button" class="button button-act log-button" onClick={() => log.takeSeat()}>
          Use this tab
        </button>
      </BarePad>
    );
  }
  if (session.end) return <EndedPad pad={pad} />;
  const paused = session.pauses.find((pause) => pause.to === undefined);
  if (paused) {
    return (
      <BarePad pad={pad} said={`Paused since ${timeOfDay(paused.from, world.zone())}. What is paused is not training.`}>
        <button type="button" class="button button-act log-button" onClick={() => acts.endPauses(log, place, world)}>
          Go on with the session
        </button>
      </BarePad>
    );
  }
  if (block && !exercise && !pad.cell && block.kind !== 'mobility' && block.stations.length > 0)
    return <DoneBlock pad={pad} />;
  if (block && !exercise) {
    return (
      <BarePad
        pad={pad}
        said={block.stations.length === 0 ? 'This block has no stations left.' : 'A mobility block is in hand.'}
      >
        <BlockActs pad={pad} block={block} />
      </BarePad>
    );
  }
  if (!exercise || !pad.entry) return <NothingInHand pad={pad} />;
  const closed = closedFor(app, place, session, exercise.id);
  if (closed) {
    return (
      <BarePad pad={pad} said="">
        <ClosedPad pad={pad} exercise={exercise} closed={closed} />
      </BarePad>
    );
  }
  const cell = pad.entry.in ? `/${pad.entry.in.station}/${pad.entry.in.round}/${pad.entry.side}` : '';
  return <LivePad key={`${place.session}/${exercise.id}${cell}`} pad={pad} exercise={exercise} entry={pad.entry} />;
}

/** Before the first set: choose an exercise, or do what was done last again. */
function NothingInHand({ pad }: { pad: Pad }) {
  const { log, acts, world } = useApp();
  const { place, session } = pad;
  const last = log.lastTimes(place.stream, '', place.session)?.[0];
  return (
    <BarePad
      pad={pad}
      said="Nothing is in hand yet. Choose an exercise; the next set stands here then, and one tap logs it."
    >
      {last && session.sets.length === 0 ? (
        <button type="button" class="button" onClick={() => acts.repeatLast(log, place, world)}>
          Repeat last session
        </button>
      ) : null}
      <ChooseExercise pad={pad} />
    </BarePad>
  );
}

const ChooseExercise = ({ pad }: { pad: Pad }) => (
  <button
    type="button"
    class="button button-act log-button"
    onClick={() => go({ page: 'session', ...pad.place, sheet: { name: 'exercise' } })}
  >
    Choose an exercise
  </button>
);

/** After the last round of a block with nothing behind it: what was seen of the last set can be noted, and what comes next chosen. */
function DoneBlock({ pad }: { pad: Pad }) {
  const { place, session } = pad;
  const rest = useRest(place, 'state');
  const last = rest.state === 'resting' ? session.sets.find((set) => set.id === rest.set) : undefined;
  return (
    <BarePad
      pad={pad}
      said="This block is done. Choose what comes next."
      above={last ? <TouchUp place={place} set={last} /> : null}
    >
      <ChooseExercise pad={pad} />
    </BarePad>
  );
}

type BarePadProps = {
  readonly pad: Pad;
  readonly said: string;
  readonly above?: ComponentChildren;
  readonly children: ComponentChildren;
};

function BarePad({ pad, said, above, children }: BarePadProps) {
  return (
    <section class="pad" aria-label="pad">
      <NotSaved />
      {above}
      {said === '' ? null : <p class="pad-said">{said}</p>}
      <Tabs place={pad.place} />
      <div class="pad-acts">{children}</div>
    </section>
  );
}

function EndedPad({ pad }: { pad: Pad }) {
  const { log, acts } = useApp();
  return (
    <BarePad pad={pad} said="This session has ended.">
      <button type="button" class="button" onClick={() => go({ page: 'today' })}>
        Today
      </button>
      <button type="button" class="button button-act log-button" onClick={() => acts.resumeSession(log, pad.place)}>
        Go on
      </button>
    </BarePad>
  );
}
