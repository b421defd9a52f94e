import { useEffect, useRef, useState } from 'preact/hooks';
import { faultsIn } from '../../domain/cues';
import type { Entry, EntryFault } from '../../domain/entry';
import { fieldsFrom } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { SHIPPED_FAULTS } from '../../domain/library';
import { parseNumber } from '../../domain/number';
import { BOUNDS, type SetRecord } from '../../domain/set';
import { distanceUnitOf, type Settings } from '../../domain/settings';
import { type SetUp, setUpTexts } from '../../domain/setUp';
import { useApp } from '../app';
import { BesideChoice } from '../desk/BesideChoice';
import { faultSentence } from '../faultWords';
import { timeOfDay } from '../format';
import { FAULTS } from '../libraryWords';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { RECORDS } from '../recordWords';
import { heldText } from '../sentence';
import { ENDED, FORM, unreadSentence } from '../setWords';
import { EntryEditor } from './EntryEditor';
import { PainRow } from './PainRow';
import { SetUpFields } from './SetUpFields';
import { CueRow, EffortRow, GoodRow } from './TouchUp';
import type { Pad, Place } from './usePad';

type SetSheetProps = { readonly pad: Pad; readonly set: SetRecord; readonly close: () => void };

/** Everything about one set: what it held, its minute, what was observed, and where it belongs. */
export function SetSheet({ pad, set, close }: SetSheetProps) {
  const { log, acts, views } = useApp();
  const { place } = pad;
  const exercise = set.exercise === undefined ? undefined : views.exercise(log, set.exercise);
  const unread = unreadSentence(set.unread);
  return (
    <Sheet title={`${exercise?.name ?? 'Set'}: ${heldText(set, exercise)}`} onClose={close}>
      {unread ? <p class="fault">{unread}</p> : null}
      <OnTwoDevices place={place} set={set} />
      <MoveRow place={place} set={set} close={close} />
      <Observed place={place} set={set} />
      {exercise ? <Held pad={pad} set={set} exercise={exercise} close={close} /> : null}
      <div class="chips">
        <button
          type="button"
          class="button"
          onClick={() => {
            void acts.removeSet(log, place, set.id);
            say('Set removed. Undo brings it back.');
            close();
          }}
        >
          Remove this set
        </button>
      </div>
    </Sheet>
  );
}

/** [M6] What two devices wrote of this set without seeing each other: the same choice as on the Records page. */
function OnTwoDevices({ place, set }: { place: Place; set: SetRecord }) {
  const { log, acts } = useApp();
  const found = acts.besideOfSet(log, place, set.id);
  if (found.length === 0) return null;
  return (
    <section class="card" aria-label="written on two devices">
      <p class="fault">{RECORDS.onTwo}</p>
      {found.map((one) => (
        <BesideChoice key={one.path} found={one} as="open" />
      ))}
    </section>
  );
}

/** Other clients being trained now: one tap gives them a set that was logged here by mistake. */
function MoveRow({ place, set, close }: { place: Place; set: SetRecord; close: () => void }) {
  const { log, acts, views, world } = useApp();
  const others = views.sessionsInMemory(log).filter((one) => !one.session.end && one.stream !== place.stream);
  if (others.length === 0) return null;
  return (
    <ChipRow label="move to another client">
      {others.map(({ stream, session }) => {
        const client = views.client(log, stream);
        return (
          <Chip
            key={session.id}
            onTap={() => {
              void acts.moveSet(log, place, set.id, { stream, session: session.id }, world);
              say(`Moved to ${client?.alias ?? 'the other client'}.`);
              close();
            }}
          >
            move to <b dir="auto">{client?.short ?? '–'}</b>
          </Chip>
        );
      })}
    </ChipRow>
  );
}

function Observed({ place, set }: { place: Place; set: SetRecord }) {
  const { log, acts, views } = useApp();
  const [note, setNote] = useState(set.note ?? '');
  const [noteFault, setNoteFault] = useState<string>();
  const [rpe, setRpe] = useState(
    set.effort && 'as' in set.effort && set.effort.as === 'rpe' ? String(set.effort.value) : '',
  );
  const [rpeFault, setRpeFault] = useState<string>();
  const put = (values: Parameters<typeof acts.touchUp>[3]) => acts.touchUp(log, place, set.id, values);

  const keepRpe = () => {
    const parsed = parseNumber('rpe', rpe, BOUNDS.rpe);
    if (!parsed.ok)
      return setRpeFault(faultSentence({ ...parsed.error, field: 'rpe' } as Parameters<typeof faultSentence>[0]));
    setRpeFault(undefined);
    void put({ effort: { value: parsed.value, as: 'rpe' } });
  };
  const keepNote = () => {
    const kept = acts.noteSet(log, place, set.id, note);
    setNoteFault(kept.ok ? undefined : faultSentence(kept.error));
  };
  const typed = useRef(note);
  typed.current = note;
  useEffect(
    // closed with a note half kept: it is kept, unless the set went with it
    () => () => {
      const now = views.session(log, place.stream, place.session)?.sets.find((one) => one.id === set.id);
      if (now && typed.current.trim() !== (now.note ?? '')) acts.noteSet(log, place, set.id, typed.current);
    },
    [],
  );

  return (
    <>
      <GoodRow place={place} set={set} />
      <EffortRow effort={set.effort} onEffort={(effort) => put({ effort })} />
      <ChipRow label="form and end" of="many">
        {(['clean', 'slipping'] as const).map((form) => (
          <Chip key={form} chosen={set.form === form} onTap={() => put({ form: set.form === form ? null : form })}>
            {FORM[form]}
          </Chip>
        ))}
        {(['made', 'missed', 'stopped', 'pain'] as const).map((ended) => (
          <Chip
            key={ended}
            chosen={set.ended === ended}
            onTap={() => put({ ended: set.ended === ended ? null : ended })}
          >
            {ended === 'pain' ? 'ended in pain' : ENDED[ended]}
          </Chip>
        ))}
      </ChipRow>
      <CueRow place={place} set={set} />
      <FaultRow place={place} set={set} />
      <PainRow place={place} set={set} onPain={(pain) => put({ pain })} />
      <div class="field-act">
        <TextField label="Effort as RPE" value={rpe} onText={setRpe} mode="decimal" fault={rpeFault} />
        <button type="button" class="button" onClick={keepRpe}>
          Keep RPE
        </button>
      </div>
      <div class="field-act">
        <TextField label="Note" value={note} onText={setNote} lines="many" fault={noteFault} />
        <button type="button" class="button" onClick={keepNote}>
          Keep note
        </button>
      </div>
    </>
  );
}

/** Faults seen in the set: those of its exercise's kind of work at once, all others behind one chip. A second tap says that one is gone. */
function FaultRow({ place, set }: { place: Place; set: SetRecord }) {
  const { log, acts, views } = useApp();
  const [all, setAll] = useState(false);
  const pattern = set.exercise === undefined ? undefined : views.exercise(log, set.exercise)?.pattern;
  const apt = faultsIn(pattern);
  const shown = SHIPPED_FAULTS.filter((one) => all || apt.includes(one) || set.faults.some(({ id }) => id === one));
  return (
    <ChipRow label="fault" of="many">
      {shown.map((fault) => {
        const seen = set.faults.find((one) => one.id === fault);
        const next = !seen ? 'seen' : seen.gone ? null : 'gone';
        return (
          <Chip
            key={fault}
            chosen={seen !== undefined}
            onTap={() => {
              void acts.touchUp(log, place, set.id, { [`faults/${fault}`]: next });
              // the one that was looked for is among the first now
              setAll(false);
            }}
          >
            {FAULTS[fault]}
            {seen?.gone ? ', gone' : ''}
          </Chip>
        );
      })}
      {shown.length < SHIPPED_FAULTS.length ? <Chip onTap={() => setAll(true)}>other faults</Chip> : null}
    </ChipRow>
  );
}

/** What the set held and when, edited as the same sentence the pad is. */
function Held({ pad, set, exercise, close }: SetSheetProps & { readonly exercise: Exercise }) {
  const { log, acts, views, world } = useApp();
  const [entry, setEntry] = useState<Entry>(() => entryOf(set, exercise, views.settings(log)));
  const [time, setTime] = useState(set.at ? timeOfDay(set.at.at, set.at.zone) : '');
  const [fault, setFault] = useState<EntryFault>();

  const keep = () => {
    const at = set.at ? atTime(set.at.at, timeOfDay(set.at.at, set.at.zone), time) : world.now();
    const edited = acts.editSet(log, pad.place, set.id, entry, exercise, at, world);
    if (!edited.ok) return setFault(edited.error);
    close();
  };
  return (
    <section class="card" aria-label="what it held">
      {fault ? (
        <p class="fault" role="alert">
          {faultSentence(fault)}
        </p>
      ) : null}
      <EntryEditor entry={entry} exercise={exercise} past={pad} onEntry={setEntry} fault={fault} />
      <SetUpFields
        texts={entry.setUp}
        onTexts={(setUp) => setEntry({ ...entry, setUp })}
        label="Set-up in this set"
        fault={fault}
      />
      <TextField label="Time" value={time} onText={setTime} type="time" />
      <button type="button" class="button" onClick={keep}>
        Keep these changes
      </button>
    </section>
  );
}

function entryOf(set: SetRecord, exercise: Exercise, chosen: Settings): Entry {
  const { unit, distanceUnit, ...held } = fieldsFrom(set);
  return {
    ...held,
    unit: unit ?? chosen.load,
    exercise: exercise.id,
    kind: set.kind ?? 'working',
    side: set.side ?? null,
    distanceUnit: distanceUnit ?? distanceUnitOf(chosen),
    direction: set.direction ?? null,
    marks: marksOf(set),
    smooth: set.smooth ?? null,
    parts: set.parts.map((part) => fieldsFrom(part)),
    setUp: setUpTexts(set as SetUp, chosen.length),
    in: set.in ? { block: set.in.block, station: set.in.station, round: set.in.round } : null,
  };
}

/** Returns a set's landings as the pad judges them, one after the other. */
const marksOf = (set: SetRecord): Entry['marks'] =>
  Array.from({ length: set.marks.at(-1)?.n ?? 0 }, (_, at) => {
    const mark = set.marks.find((one) => one.n === at + 1);
    if (!mark) return null;
    const { n: _n, ...judged } = mark;
    return judged;
  });

/** Returns the instant moved by what the clock text was changed by: the day and the seconds stay. */
function atTime(at: number, before: string, after: string): number {
  const minutes = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5));
  return /^\d{2}:\d{2}/.test(after) ? at + (minutes(after) - minutes(before)) * 60_000 : at;
}
