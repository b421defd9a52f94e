import { useState } from 'preact/hooks';
import { type Entry, type EntryFault, FIELDS, fieldsOf } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { rampTo } from '../../domain/prefill';
import { type App, useApp } from '../app';
import { adaptSentence } from '../careWords';
import { faultSentence } from '../faultWords';
import { typedNumber } from '../format';
import { later } from '../parts/later';
import { say } from '../parts/say';
import { go } from '../routes';
import { saidText } from '../sentence';
import { SIDE } from '../setWords';
import { BlockActs, StationRow } from './BlockActs';
import { Control } from './Control';
import { heaviestOf, painOf } from './closed';
import { EachSideButton, roundBegins } from './EachSideButton';
import { NotSaved } from './NotSaved';
import { type Selection, Sentence } from './Sentence';
import { Tabs } from './Tabs';
import { Tallies } from './Tallies';
import { TogetherButton } from './TogetherButton';
import { TouchUp } from './TouchUp';
import type { Pad } from './usePad';
import { useRest } from './useRest';

const Uncleared = later(() => import('./Uncleared').then((file) => file.Uncleared));

type LivePadProps = { readonly pad: Pad; readonly exercise: Exercise; readonly entry: Entry };

/** The pad with an exercise in hand. */
export function LivePad({ pad, exercise, entry }: LivePadProps) {
  const app = useApp();
  const { log, acts, views, world } = app;
  const { place, session, today, lastTime, block } = pad;
  const [chosen, setChosen] = useState<Selection | null>(null);
  const [fault, setFault] = useState<EntryFault | null>(null);
  const rest = useRest(place, 'state');
  const selection = stillThere(chosen, entry, exercise) ?? firstSelection(entry, exercise);
  const resting = rest.state === 'resting' ? session.sets.find((set) => set.id === rest.set) : undefined;
  const steps = today.length === 0 && entry.kind === 'working' && !block ? rampTo(entry, exercise, lastTime) : [];

  const change: Pad['change'] = (patch) => {
    setFault(null);
    pad.change(patch);
  };
  const refuse = (refused: EntryFault) => {
    setFault(refused);
    const { part = 1 } = refused;
    const field = FIELDS.find((one) => one === refused.field);
    if (field) setChosen({ type: 'field', field, part: part - 1, typing: true });
  };
  const logNow = (noRest: boolean) => {
    const logged = acts.logSet(log, place, entry, exercise, world, noRest);
    if (!logged.ok) return refuse(logged.error);
    setFault(null);
    setChosen(null);
    if (logged.value.continued) say('This session holds 300 sets: it goes on in a continuation, shown as one.');
  };

  return (
    <section class="pad" aria-label="pad">
      <NotSaved />
      {resting ? <TouchUp place={place} set={resting} /> : null}
      <Adapt app={app} pad={pad} exercise={exercise} />
      <Uncleared pad={pad} entry={entry} />
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
      {block && pad.cell && !resting ? <StationRow pad={pad} block={block} cell={pad.cell} /> : null}
      <div class="control">
        <Control
          entry={entry}
          exercise={exercise}
          selection={selection}
          today={today}
          lastTime={lastTime}
          onChange={change}
          onSelect={setChosen}
          heaviest={heaviestOf(app, place, session, exercise.id) ?? undefined}
          dots={!resting}
          kit={views.places(log).find((one) => one.id === session.place)}
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
      <Tallies place={place} session={session} />
      <Tabs place={place} />
      <div class="pad-acts">
        {block && pad.cell ? (
          <BlockActs pad={pad} block={block} logOne={() => logNow(false)} onRefused={refuse} />
        ) : (
          <>
            <TogetherButton pad={pad} onRefused={refuse} />
            {roundBegins(today, entry) ? (
              // between two sides there is no rest: what is in its place is both at once
              <EachSideButton
                pad={pad}
                exercise={exercise}
                entry={entry}
                onLogged={() => {
                  setFault(null);
                  setChosen(null);
                }}
                onRefused={refuse}
              />
            ) : (
              <button type="button" class="button no-rest-button" onClick={() => logNow(true)}>
                Log, no rest
              </button>
            )}
            <LogButton
              pad={pad}
              exercise={exercise}
              entry={entry}
              resting={resting !== undefined}
              onTap={() => logNow(false)}
            />
          </>
        )}
      </div>
    </section>
  );
}

type LogButtonProps = LivePadProps & { readonly resting: boolean; readonly onTap: () => void };

/** The one act of the floor: it names itself, its client, and what it will log. */
function LogButton({ pad, exercise, entry, resting, onTap }: LogButtonProps) {
  const { log, views } = useApp();
  const { place, session, today } = pad;
  const short = views.client(log, place.stream)?.short ?? '–';
  const counted = today.filter(
    (set) => set.kind !== 'warm-up' && (entry.side === null || set.side === entry.side),
  ).length;
  const planned = session.items.find((item) => item.id === exercise.id)?.plan?.sets;
  const count = `set ${counted + 1}${planned !== undefined && counted < planned ? ` of ${planned}` : ''}`;
  const what = exercise.holds === 'tick' ? 'done' : entry.kind === 'warm-up' ? 'warm-up' : count;
  const sides = entry.side ? `${SIDE[entry.side]}, ` : '';
  const next = saidText(entry, exercise);
  return (
    <button type="button" class={`button log-button ${resting ? 'log-button-resting' : 'button-act'}`} onClick={onTap}>
      Log <span dir="auto">{short}</span> · {sides}
      {what}
      {resting && next !== '' ? ` · ${next}` : ''}
    </button>
  );
}

/** Pain that is rising, or there two sessions running: an easier step is offered, and nothing is closed. */
function Adapt({ app, pad, exercise }: { app: App; pad: Pad; exercise: Exercise }) {
  const { log, views } = app;
  const level = painOf(app, pad.place, pad.session, exercise.id);
  if (level.level !== 'adapt') return null;
  const easier = exercise.easier === undefined ? undefined : views.exercise(log, exercise.easier);
  return (
    <div class="adapt">
      <p class="fault" role="alert">
        {adaptSentence(level)}
      </p>
      <button
        type="button"
        class="button"
        onClick={() => go({ page: 'session', ...pad.place, sheet: { name: 'change' } })}
      >
        {easier ? `Easier: ${easier.name}` : 'Swap or skip it'}
      </button>
    </div>
  );
}

function firstSelection(entry: Entry, exercise: Exercise): Selection {
  const fields = fieldsOf(exercise.holds, entry.body);
  const field = exercise.holds === 'time' ? 'seconds' : fields[0];
  if (field === undefined) return { type: 'choice', choice: entry.side ? 'side' : 'kind' };
  return { type: 'field', field, part: 0, typing: false };
}

/** A part in hand may be gone: the body way changed, or the parts did. */
function stillThere(selection: Selection | null, entry: Entry, exercise: Exercise): Selection | null {
  if (selection?.type !== 'field') return selection?.choice === 'body' && exercise.holds !== 'body' ? null : selection;
  const parts = entry.kind === 'drop' || entry.kind === 'cluster' ? entry.parts.length : 0;
  return selection.part <= parts && fieldsOf(exercise.holds, entry.body).includes(selection.field) ? selection : null;
}
