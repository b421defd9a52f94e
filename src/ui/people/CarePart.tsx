import { useState } from 'preact/hooks';
import { LANDING_LEVELS } from '../../domain/client';
import { LANDING_RANGES } from '../../domain/landings';
import { useApp, useWatch } from '../app';
import { LEVEL } from '../careWords';
import { faultSentence } from '../faultWords';
import { dayShort } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';

/** What is known of a client that sessions go by: the level of landings, the agreed question, clearances. */
export function CarePart({ stream }: { stream: string }) {
  const { log, acts, views } = useApp();
  // a component with a state of its own is not drawn again with its page where its props are the same
  useWatch(['kind:client']);
  const client = views.client(log, stream);
  const [question, setQuestion] = useState(client?.question ?? '');
  const [fault, setFault] = useState<string>();
  if (!client) return null;
  const keep = () => {
    const kept = acts.agreeOnQuestion(log, stream, question);
    setFault(kept.ok ? undefined : faultSentence(kept.error));
    if (kept.ok) say('Question kept.');
  };
  const range = client.landings && LANDING_RANGES[client.landings];
  return (
    <section class="card" aria-label="before and in sessions">
      <h2>Sessions</h2>
      <p class="hint">Jumping and landing: what the client is used to</p>
      <ChipRow label="level of landings" of="many">
        {LANDING_LEVELS.map((level) => (
          <Chip
            key={level}
            chosen={client.landings === level}
            onTap={() => acts.noteLandingLevel(log, stream, client.landings === level ? null : level)}
          >
            {LEVEL[level]}
          </Chip>
        ))}
      </ChipRow>
      <p class="hint">
        {range
          ? `Published range for a session: ${range.from}–${range.to} landings. A guide, not a limit that prevents injury.`
          : 'Landings of a session are then shown beside the published range for the level.'}
      </p>
      <div class="field-act">
        <TextField
          label="A question agreed with the client, asked before each session"
          value={question}
          onText={setQuestion}
          fault={fault}
        />
        <button type="button" class="button" onClick={keep}>
          Keep the question
        </button>
      </div>
      {Object.entries(client.clearances).map(([exercise, clearance]) => (
        <p key={exercise} class="hint">
          <span dir="auto">{views.exercise(log, exercise)?.name ?? exercise}</span>: cleared by{' '}
          <span dir="auto">{clearance.who}</span>, {dayShort(clearance.day)}
        </p>
      ))}
    </section>
  );
}
