import { useState } from 'preact/hooks';
import { ATTENDANCES, clockMinutes } from '../../domain/session';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { countOf } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { go } from '../routes';
import { ATTENDANCE } from '../setWords';
import { SessionSummary } from './SessionSummary';
import type { Pad } from './usePad';

/** The end of a session, now or changed later. Nothing here is asked for: what is left empty is not noted. */
export function EndSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, views, world } = useApp();
  const { session, place } = pad;
  const [effort, setEffort] = useState(session.effort ? String(session.effort.value) : '');
  const [minutes, setMinutes] = useState(session.minutes === undefined ? '' : String(session.minutes));
  const [attendance, setAttendance] = useState(session.attendance ?? null);
  const [why, setWhy] = useState(session.why ?? '');
  const [note, setNote] = useState(session.note ?? '');
  const [fault, setFault] = useState<{ field: string; said: string }>();
  const alias = views.client(log, place.stream)?.alias ?? '';
  const counted = session.sets.filter((set) => set.kind !== 'warm-up').length;
  const byClock = clockMinutes(session, session.end?.at ?? world.now());
  const at = (field: string) => (fault?.field === field ? fault.said : undefined);

  const end = () => {
    const ended = acts.endSession(log, place, { effort, minutes, attendance, why, note }, world);
    if (!ended.ok) return setFault({ field: ended.error.field, said: faultSentence(ended.error) });
    // asked from this tap, once there is a session worth keeping
    void log.askToPersist();
    say('Session ended.');
    go({ page: 'today' });
  };
  return (
    <Sheet title={session.end ? 'Change the end' : 'End the session'} onClose={close}>
      <p>
        {countOf(counted, 'set')} of {countOf(session.exercises.length, 'exercise')}
        {byClock === undefined ? '' : `, ${byClock} min by the clock`}.
      </p>
      <SessionSummary pad={pad} />
      <ChipRow label="attendance" of="many">
        {ATTENDANCES.map((one) => (
          <Chip key={one} chosen={attendance === one} onTap={() => setAttendance(attendance === one ? null : one)}>
            {ATTENDANCE[one]}
          </Chip>
        ))}
      </ChipRow>
      {attendance && attendance !== 'done' ? (
        <TextField label="Why" value={why} onText={setWhy} fault={at('why')} />
      ) : null}
      <TextField
        label="Whole-session effort, 0 to 10, as the client tells it"
        value={effort}
        onText={setEffort}
        mode="decimal"
        fault={at('effort')}
        hint="Another scale than a set’s. It may be given later."
      />
      <TextField
        label="Minutes trained, if not as the clock says"
        value={minutes}
        onText={setMinutes}
        mode="numeric"
        fault={at('minutes')}
      />
      <TextField label="Note" value={note} onText={setNote} lines="many" fault={at('note')} />
      <button type="button" class="button button-act" onClick={end}>
        {session.end ? 'Keep these changes' : `End ${alias}’s session`}
      </button>
      {session.end ? null : (
        <button
          type="button"
          class="button button-plain"
          onClick={() => {
            void acts.removeSession(log, place);
            say('Session removed. Undo brings it back.');
            go({ page: 'today' });
          }}
        >
          Remove this session
        </button>
      )}
    </Sheet>
  );
}
