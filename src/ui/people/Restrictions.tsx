import { useState } from 'preact/hooks';
import { PATTERNS as PATTERN_NAMES } from '../../domain/exercise';
import { holdsOn, type RestrictionFields } from '../../domain/restriction';
import { useApp, useWatch } from '../app';
import { type AnyFault, faultSentence } from '../faultWords';
import { countOf, dayShort } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { PATTERNS } from '../setWords';

/** What professionals said must not be done: who, what, from, until, and which exercises it hides. */
export function Restrictions({ stream, today }: { stream: string; today: string }) {
  const { log, acts, views } = useApp();
  useWatch(['kind:restriction']);
  const [adding, setAdding] = useState(false);
  const noted = views.restrictions(log, stream);
  return (
    <section class="card" aria-label="restrictions">
      <h2>Restrictions</h2>
      <p class="hint">What a licensed practitioner said. It shows for the whole of each session while it holds.</p>
      <ul>
        {noted.map((one) => (
          <li key={one.id} class="list-line">
            <span>
              <span dir="auto">{one.what}</span>{' '}
              <span class="hint">
                <span dir="auto">{one.who}</span>, from {dayShort(one.from)}
                {one.until ? ` until ${dayShort(one.until)}` : ''}
                {holdsOn(one, today) ? '' : ', not now'}; hides {countOf(one.hides.length, 'exercise')}
              </span>
            </span>
            <button
              type="button"
              class="button"
              aria-label={`remove the restriction ${one.what}`}
              onClick={() => {
                void acts.removeRestriction(log, stream, one.id);
                say('Restriction removed. Undo in a session brings it back.');
              }}
            >
              remove
            </button>
          </li>
        ))}
      </ul>
      {adding ? (
        <NewRestriction stream={stream} today={today} onAdded={() => setAdding(false)} />
      ) : (
        <button type="button" class="button" onClick={() => setAdding(true)}>
          Add a restriction
        </button>
      )}
    </section>
  );
}

function NewRestriction({ stream, today, onAdded }: { stream: string; today: string; onAdded: () => void }) {
  const { log, acts, views, world } = useApp();
  const [fields, setFields] = useState<RestrictionFields>({ who: '', what: '', from: today, until: '' });
  const [hides, setHides] = useState<ReadonlySet<string>>(new Set());
  const [text, setText] = useState('');
  const [fault, setFault] = useState<AnyFault>();
  const at = (field: string) => (fault?.field === field ? faultSentence(fault) : undefined);
  const put = (field: keyof RestrictionFields) => (typed: string) => setFields({ ...fields, [field]: typed });
  const exercises = views.exercises(log);
  const toggle = (ids: readonly string[]) => {
    const all = ids.every((id) => hides.has(id));
    setHides(new Set(all ? [...hides].filter((id) => !ids.includes(id)) : [...hides, ...ids]));
  };
  const wanted = text.trim().toLocaleLowerCase();
  const found = exercises.filter(
    (one) => hides.has(one.id) || (wanted !== '' && one.name.toLocaleLowerCase().includes(wanted)),
  );
  const add = () => {
    const added = acts.addRestriction(log, stream, fields, [...hides], world);
    if (!added.ok) return setFault(added.error);
    say('Restriction added.');
    onAdded();
  };
  return (
    <>
      <TextField label="Who said it" value={fields.who} onText={put('who')} fault={at('who')} />
      <TextField label="What must not be done" value={fields.what} onText={put('what')} fault={at('what')} />
      <TextField label="From" value={fields.from} onText={put('from')} type="date" fault={at('from')} />
      <TextField
        label="Until, its last day"
        value={fields.until}
        onText={put('until')}
        type="date"
        fault={at('until')}
        hint="Empty: until it is removed."
      />
      <p class="hint">Exercises it hides, by kind of work or by name</p>
      <ChipRow label="kinds of work it hides" of="many">
        {PATTERN_NAMES.map((pattern) => {
          const own = exercises.filter((one) => one.pattern === pattern).map((one) => one.id);
          return (
            <Chip
              key={pattern}
              chosen={own.length > 0 && own.every((id) => hides.has(id))}
              label={`hide ${PATTERNS[pattern]}`}
              onTap={() => toggle(own)}
            >
              {PATTERNS[pattern]}
            </Chip>
          );
        })}
      </ChipRow>
      <TextField label="Find an exercise to hide" value={text} onText={setText} />
      <ChipRow label="exercises it hides" of="many">
        {found.map((one) => (
          <Chip key={one.id} chosen={hides.has(one.id)} onTap={() => toggle([one.id])}>
            {one.name}
          </Chip>
        ))}
      </ChipRow>
      <button type="button" class="button button-act" onClick={add}>
        Add this restriction
      </button>
    </>
  );
}
