import { useState } from 'preact/hooks';
import { type EntryFault, fieldsOf } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { rampTo } from '../../domain/prefill';
import { useApp, useWatch } from '../app';
import { typedNumber } from '../format';
import { say } from '../parts/say';
import { go } from '../routes';
import { sentenceOf } from '../sentence';
import { faultSentence, SIDE } from '../words';
import { Control } from './Control';
import { NotSaved } from './NotSaved';
import { type Selection, Sentence } from './Sentence';
import { Tabs } from './Tabs';
import { TouchUp } from './TouchUp';
import type { Pad } from './usePad';
import { useRest } from './useRest';

/** The pad of one session: what is noted of the last set while the rest runs, the next set as a sentence, the clients, and the one act. */
export function PadView({ pad }: { pad: Pad }) {
  const { log } = useApp();
  useWatch(['status']);
  const { place, session, exercise } = pad;
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
  if (!exercise || !pad.entry) {
    return (
      <BarePad pad={pad} said="Nothing is in hand yet.">
        <button
          type="button"
          class="button button-act log-button"
          onClick={() => go({ page: 'session', ...place, sheet: { name: 'exercise' } })}
        >
          Choose an exercise
        </button>
      </BarePad>
    );
  }
  return <LivePad key={`${place.session}/${exercise.id}`} pad={pad} exercise={exercise} entry={pad.entry} />;
}

function BarePad({ pad, said, children }: { pad: Pad; said: string; children: preact.ComponentChildren }) {
  return (
    <section class="pad" aria-label="pad">
      <NotSaved />
      <p class="pad-said">{said}</p>
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

type LivePadProps = { readonly pad: Pad; readonly exercise: Exercise; readonly entry: NonNullable<Pad['entry']> };

function LivePad({ pad, exercise, entry }: LivePadProps) {
  const { log, acts, views, world } = useApp();
  const { place, session, today, lastTime } = pad;
  const [chosen, setChosen] = useState<Selection | null>(null);
  const [fault, setFault] = useState<EntryFault | null>(null);
  const rest = useRest(place, 'state');
  const selection = stillThere(chosen, entry, exercise) ?? firstSelection(entry, exercise);
  const resting = rest.state === 'resting' ? session.sets.find((set) => set.id === rest.set) : undefined;
  const short = views.client(log, place.stream)?.short ?? '';
  const counted = today.filter(
    (set) => set.kind !== 'warm-up' && (entry.side === null || set.side === entry.side),
  ).length;
  const what = entry.kind === 'warm-up' ? 'warm-up' : `set ${counted + 1}`;
  const steps = today.length === 0 && entry.kind === 'working' ? rampTo(entry, exercise, lastTime) : [];

  const change: Pad['change'] = (patch) => {
    setFault(null);
    pad.change(patch);
  };
  const logNow = (noRest: boolean) => {
    const logged = acts.logSet(log, place, entry, exercise, world, noRest);
    if (!logged.ok) {
      setFault(logged.error);
      const { field, part = 1 } = logged.error;
      if (field === 'load' || field === 'reps' || field === 'band' || field === 'pin' || field === 'seconds') {
        setChosen({ type: 'field', field, part: part - 1, typing: true });
      }
      return;
    }
    setFault(null);
    setChosen(null);
    if (logged.value.continued) say('This session holds 300 sets: it goes on in a continuation, shown as one.');
  };
  const sides = entry.side ? `${SIDE[entry.side]}, ` : '';
  const pieces = sentenceOf(entry, exercise).filter((piece) => piece.type !== 'choice');
  // a set in parts is too long for a button
  const next = pieces.length > 3 ? '' : pieces.map((piece) => piece.text).join(' ');

  return (
    <section class="pad" aria-label="pad">
      <NotSaved />
      {resting ? (
        <TouchUp
          place={place}
          set={resting}
          title={`Last set${resting.side ? `, ${SIDE[resting.side]}` : ''}, while you rest`}
        />
      ) : null}
      {steps.length > 0 ? (
        <button
          type="button"
          class="button ramp"
          onClick={() => {
            const ramp = acts.logRamp(log, place, steps, entry, exercise, world);
            if (!ramp.ok) setFault(ramp.error);
          }}
        >
          Ramp done: {steps.map((step) => `${typedNumber(step.load)} × ${step.reps}`).join(' · ')}
        </button>
      ) : null}
      {fault ? (
        <p class="fault" role="alert">
          {faultSentence(fault)}
        </p>
      ) : null}
      <div class="control">
        <Control
          entry={entry}
          exercise={exercise}
          selection={selection}
          today={today}
          lastTime={lastTime}
          onChange={change}
          onSelect={setChosen}
        />
      </div>
      <Sentence
        entry={entry}
        exercise={exercise}
        selection={selection}
        onSelect={setChosen}
        onType={(field, part, text) =>
          change(
            part === 0
              ? { [field]: text }
              : { parts: entry.parts.map((one, index) => (index === part - 1 ? { ...one, [field]: text } : one)) },
          )
        }
        invalid={fault ? { field: fault.field, part: (fault.part ?? 1) - 1 } : undefined}
        slim={resting !== undefined}
      />
      <Tabs place={place} />
      <div class="pad-acts">
        <button type="button" class="button no-rest-button" onClick={() => logNow(true)}>
          Log, no rest
        </button>
        <button
          type="button"
          class={`button log-button ${resting ? 'log-button-resting' : 'button-act'}`}
          onClick={() => logNow(false)}
        >
          Log <span dir="auto">{short}</span> · {sides}
          {what}
          {resting && next !== '' ? ` · ${next}` : ''}
        </button>
      </div>
    </section>
  );
}

function firstSelection(entry: LivePadProps['entry'], exercise: Exercise): Selection {
  const fields = fieldsOf(exercise.holds, entry.body);
  const field = exercise.holds === 'time' ? 'seconds' : (fields[0] ?? 'reps');
  return { type: 'field', field, part: 0, typing: false };
}

/** A part in hand may be gone: the body way changed, or the parts did. */
function stillThere(selection: Selection | null, entry: LivePadProps['entry'], exercise: Exercise): Selection | null {
  if (selection?.type !== 'field') return selection?.choice === 'body' && exercise.holds !== 'body' ? null : selection;
  const parts = entry.kind === 'drop' || entry.kind === 'cluster' ? entry.parts.length : 0;
  return selection.part <= parts && fieldsOf(exercise.holds, entry.body).includes(selection.field) ? selection : null;
}
