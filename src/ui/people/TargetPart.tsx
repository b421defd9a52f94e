import { useState } from 'preact/hooks';
import type { Day } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import { isLoad, type Target, type TargetFields, type TargetUnit, targetUnits } from '../../domain/target';
import { ANSWERS } from '../answerWords';
import { useApp } from '../app';
import { goalText } from '../barWords';
import { type AnyFault, faultSentence } from '../faultWords';
import { dayShort } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { UndoLast } from '../parts/UndoLast';
import { dayText } from '../trendWords';

type TargetPartProps = {
  readonly stream: string;
  readonly exercise: Exercise;
  readonly targets: readonly Target[];
  /** The unit loads are told in. */
  readonly unit: 'kg' | 'lb';
  /** How many reps a set has these days. */
  readonly reps: number | undefined;
  /** Where a target would start today, as a text for its field; empty where too little is known. */
  readonly startFor: (unit: TargetUnit, reps: number) => string;
  readonly today: Day;
};

/** The targets of one exercise, and setting one: how it is tested, from where, to what, by when. */
export function TargetPart(props: TargetPartProps) {
  const { stream, exercise, targets, today } = props;
  const { log, acts } = useApp();
  const [adding, setAdding] = useState(false);
  const units = targetUnits(exercise);
  if (!units) return null;
  return (
    <section class="target" aria-label="targets">
      <ul>
        {targets.map((one) => (
          <li key={one.id} class="list-line">
            <span>
              {ANSWERS.targetFor}: {goalText(one, exercise.perHand)} by {dayText(one.day, today)}
              {one.start ? (
                <span class="hint">
                  {' '}
                  from {goalText({ ...one, goal: one.start }, exercise.perHand)}, {dayText(one.from, today)}
                </span>
              ) : null}
            </span>
            <button
              type="button"
              class="button"
              aria-label={`remove the target ${goalText(one)} by ${dayText(one.day, today)}`}
              onClick={() => {
                void acts.removeTarget(log, stream, one.id);
                say('Target removed. Undo brings it back.');
              }}
            >
              remove
            </button>
          </li>
        ))}
      </ul>
      <UndoLast of={UNDONE_HERE} about={{ stream, exercise: exercise.id }} />
      {adding ? (
        <NewTarget {...props} units={units} onAdded={() => setAdding(false)} />
      ) : (
        <button type="button" class="button" onClick={() => setAdding(true)}>
          {ANSWERS.setTarget}
        </button>
      )}
    </section>
  );
}

const UNDONE_HERE = new Set(['add-target', 'remove-target']);

type NewTargetProps = TargetPartProps & { readonly units: readonly TargetUnit[]; readonly onAdded: () => void };

function NewTarget({ stream, exercise, units, unit, reps, startFor, today, onAdded }: NewTargetProps) {
  const { log, acts, world } = useApp();
  const first = units.includes(unit) && units[0] !== 'reps' ? unit : (units[0] ?? unit);
  const usual = String(Math.min(12, reps ?? 5));
  const [fields, setFields] = useState<TargetFields>({
    goal: '',
    unit: first,
    reps: usual,
    start: startFor(first, Number(usual)),
    day: '',
  });
  const [ownStart, setOwnStart] = useState(false);
  const [fault, setFault] = useState<AnyFault>();
  const at = (field: string) => (fault?.field === field ? faultSentence(fault) : undefined);
  const put = (more: Partial<TargetFields>): void => {
    const next = { ...fields, ...more };
    // the start follows unit and reps until it is typed
    setFields(ownStart || more.start !== undefined ? next : { ...next, start: startFor(next.unit, Number(next.reps)) });
  };
  const add = () => {
    const added = acts.addTarget(log, stream, exercise.id, fields, world);
    if (!added.ok) return setFault(added.error);
    say('Target set.');
    onAdded();
  };
  return (
    <form
      class="target-form"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      {units.length > 1 ? (
        <ChipRow label="counted in">
          {units.map((one) => (
            <Chip key={one} chosen={fields.unit === one} onTap={() => put({ unit: one })}>
              {one}
            </Chip>
          ))}
        </ChipRow>
      ) : null}
      <TextField
        label={`Goal, ${fields.unit}`}
        value={fields.goal}
        onText={(goal) => put({ goal })}
        fault={at('goal')}
        mode="decimal"
      />
      {isLoad(fields.unit) ? (
        <TextField
          label="For how many reps"
          value={fields.reps}
          onText={(text) => put({ reps: text })}
          fault={at('target-reps')}
          mode="decimal"
        />
      ) : null}
      <TextField label="By" value={fields.day} onText={(day) => put({ day })} type="date" fault={at('target-day')} />
      <TextField
        label={`Start, ${fields.unit}`}
        value={fields.start}
        onText={(start) => {
          setOwnStart(true);
          put({ start });
        }}
        fault={at('start')}
        mode="decimal"
        hint={`What could be done on ${dayShort(today)}; as the log tells, until you type another. Left empty, it cannot say what each day needs.`}
      />
      <button type="submit" class="button button-act">
        Set this target
      </button>
      <button type="button" class="button button-plain" onClick={onAdded}>
        Not now
      </button>
    </form>
  );
}
