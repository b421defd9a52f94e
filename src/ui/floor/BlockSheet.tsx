import { useState } from 'preact/hooks';
import { BLOCK_KINDS, type Block, type BlockKind } from '../../domain/block';
import { planOfEntry } from '../../domain/planOf';
import type { BlockField, BlockFields } from '../../log/blockActs';
import { useApp } from '../app';
import { BLOCK_KIND } from '../blockWords';
import { type AnyFault, faultSentence } from '../faultWords';
import { nothingFound } from '../libraryWords';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { replace } from '../routes';
import { planText } from '../sentence';
import { choiceFor, closedNames, findExercises } from './findExercises';
import { PlanEditor } from './PlanEditor';
import { entryOf, type Pad, pastOf } from './usePad';

type BlockSheetProps = { readonly pad: Pad; readonly block: string | null; readonly close: () => void };

const LABEL: Readonly<Record<BlockField, string>> = {
  rounds: 'Rounds',
  reps: 'Reps of each round, such as 21-15-9',
  rest: 'Rest after a round, seconds; empty is as the exercise has it',
  work: 'Work, seconds',
  off: 'Rest between, seconds',
  every: 'One round every … seconds',
  cap: 'Time in all, seconds',
};
const START: Readonly<Record<BlockField, string>> = {
  rounds: '3',
  reps: '',
  rest: '60',
  work: '30',
  off: '15',
  every: '60',
  cap: '600',
};

/** A block that is made or changed: its kind, its numbers, its stations. */
export function BlockSheet({ pad, block: id, close }: BlockSheetProps) {
  const block = pad.session.blocks.find((one) => one.id === id);
  if (id !== null && !block) {
    return (
      <Sheet title="Block" onClose={close}>
        <p>This block is not here any more: it was removed or undone. Its sets stand with their exercises.</p>
      </Sheet>
    );
  }
  return <BlockForm key={id ?? 'new'} pad={pad} block={block} close={close} />;
}

function BlockForm({ pad, block, close }: { pad: Pad; block: Block | undefined; close: () => void }) {
  const app = useApp();
  const { log, acts, views, world } = app;
  const { place, session } = pad;
  const [fields, setFields] = useState<BlockFields>(() => fieldsOf(block));
  const [chosen, setChosen] = useState<readonly string[]>(
    pad.exercise && !block && session.sets.length === 0 ? [] : [],
  );
  const [text, setText] = useState('');
  const [fault, setFault] = useState<AnyFault>();
  const at = (field: BlockField) => (fault?.field === field ? faultSentence(fault) : undefined);
  const choice = choiceFor(app, pad);
  const found = findExercises(choice, text).slice(0, 6);

  const keep = () => {
    if (block) {
      const kept = acts.editBlock(log, place, block.id, fields);
      return kept.ok ? close() : setFault(kept.error);
    }
    const stations = chosen.flatMap((one) => {
      const exercise = views.exercise(log, one);
      if (!exercise) return [];
      const past = pastOf(app, place, session, one);
      const entry = entryOf(app, place.stream, session, exercise, { exercise: one, kind: 'working' }, past);
      return [{ exercise: one, plan: planOfEntry(entry) }];
    });
    const added = acts.addBlock(log, place, fields, stations, world);
    if (!added.ok) return setFault(added.error);
    // its stations are planned where they stand
    replace({ page: 'session', ...place, sheet: { name: 'block', block: added.value.id } });
  };

  return (
    <Sheet title={block ? 'Change the block' : 'A new block'} onClose={close}>
      <ChipRow label="kind of block" of="many">
        {BLOCK_KINDS.map((kind) => (
          <Chip key={kind} chosen={fields.kind === kind} onTap={() => setFields({ ...fields, kind })}>
            {BLOCK_KIND[kind]}
          </Chip>
        ))}
      </ChipRow>
      {acts.BLOCK_ASKS[fields.kind].map((field) => (
        <TextField
          key={field}
          label={LABEL[field]}
          value={fields[field]}
          onText={(typed) => setFields({ ...fields, [field]: typed })}
          mode={field === 'reps' ? 'text' : 'numeric'}
          fault={at(field)}
        />
      ))}
      {block ? (
        <Stations pad={pad} block={block} />
      ) : (
        <section aria-label="stations">
          <h3>Stations, in their order</h3>
          <ol>
            {chosen.map((one, index) => (
              <li key={`${one}${index}`} class="list-line">
                <span dir="auto">{views.exercise(log, one)?.name}</span>
                <button
                  type="button"
                  class="button"
                  aria-label={`take out ${views.exercise(log, one)?.name}`}
                  onClick={() => setChosen(chosen.filter((_, place) => place !== index))}
                >
                  take out
                </button>
              </li>
            ))}
          </ol>
          <TextField label="Find a station" value={text} onText={setText} />
          <ul class="pick-list">
            {found.map((one) => (
              <li key={one.id}>
                <button
                  type="button"
                  class="button pick"
                  onClick={() => {
                    setChosen([...chosen, one.id]);
                    setText('');
                  }}
                >
                  + <span dir="auto">{one.name}</span>
                </button>
              </li>
            ))}
          </ul>
          {found.length === 0 ? <p class="hint">{nothingFound(text, closedNames(choice, text))}</p> : null}
        </section>
      )}
      {fault && !acts.BLOCK_ASKS[fields.kind].some((field) => field === fault.field) ? (
        <p class="fault" role="alert">
          {faultSentence(fault)}
        </p>
      ) : null}
      <button type="button" class="button button-act" onClick={keep}>
        {block ? 'Keep the block' : 'Add the block'}
      </button>
      {block ? (
        <button
          type="button"
          class="button button-plain"
          onClick={() => {
            void acts.removeThing(log, place, { type: 'block', id: block.id });
            say('Block removed; its sets stay. Undo brings it back.');
            close();
          }}
        >
          Remove the block
        </button>
      ) : null}
    </Sheet>
  );
}

/** The stations of a block: what is planned of each, one more, or one less. */
function Stations({ pad, block }: { pad: Pad; block: Block }) {
  const { log, acts, views } = useApp();
  const { place } = pad;
  const [open, setOpen] = useState<string>();
  return (
    <section aria-label="stations">
      <h3>Stations</h3>
      <ol>
        {block.stations.map((station, index) => {
          const exercise = views.exercise(log, station.exercise);
          const name = `${index + 1} ${exercise?.name ?? 'An exercise that is not in this library'}`;
          const plan = planText(station.plan, exercise);
          return (
            <li key={station.id}>
              <div class="list-line">
                <span dir="auto">
                  {name} <span class="hint">{plan === '' ? 'nothing planned yet' : plan}</span>
                </span>
                <button
                  type="button"
                  class="button"
                  aria-expanded={open === station.id}
                  aria-label={`plan ${name}`}
                  onClick={() => setOpen(open === station.id ? undefined : station.id)}
                >
                  plan
                </button>
                <button
                  type="button"
                  class="button"
                  aria-label={`remove ${name}`}
                  onClick={() => acts.removeThing(log, place, { type: 'station', block: block.id, id: station.id })}
                >
                  remove
                </button>
              </div>
              {open === station.id && exercise ? (
                <PlanEditor
                  pad={pad}
                  exercise={exercise}
                  plan={station.plan}
                  onKeep={(kept) => {
                    void acts.planThing(log, place, { type: 'station', block: block.id, id: station.id }, kept);
                    setOpen(undefined);
                  }}
                />
              ) : null}
            </li>
          );
        })}
      </ol>
      <button
        type="button"
        class="button"
        onClick={() =>
          replace({ page: 'session', ...place, sheet: { name: 'exercise', to: { as: 'station', block: block.id } } })
        }
      >
        + station
      </button>
    </section>
  );
}

function fieldsOf(block: Block | undefined): BlockFields {
  if (!block) return { kind: 'rounds' as BlockKind, ...START };
  const text = (value: number | undefined, otherwise: string) => (value === undefined ? otherwise : String(value));
  return {
    kind: block.kind,
    rounds: text(block.rounds || undefined, START.rounds),
    reps: block.reps?.join('-') ?? '',
    rest: text(block.rest, ''),
    work: text(block.work, START.work),
    off: text(block.off, START.off),
    every: text(block.every, START.every),
    cap: text(block.cap, START.cap),
  };
}
