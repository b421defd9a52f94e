import { useState } from 'preact/hooks';
import { ARRIVAL_ITEMS, ARRIVAL_STEPS, SORE_PLACES } from '../../domain/arrival';
import { useApp } from '../app';
import { ARRIVAL } from '../careWords';
import { faultSentence } from '../faultWords';
import { Chip, ChipRow } from '../parts/Chip';
import { Sheet } from '../parts/Sheet';
import { TextField } from '../parts/TextField';
import { PAIN_CAUTION } from '../setWords';
import type { Pad } from './usePad';

/** How the client came in: five taps, or "the usual". Nothing here vetoes a session; what is not told is not noted. */
export function ArrivalSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, views } = useApp();
  const { place, session } = pad;
  const { items, usual, sore, pain, answer } = session.arrival;
  const question = views.client(log, place.stream)?.question;
  const [said, setSaid] = useState(answer?.said ?? '');
  const [fault, setFault] = useState<string>();
  const keepAnswer = () => {
    const kept = acts.tellAnswer(log, place, question ?? answer?.asked ?? '', said);
    setFault(kept.ok ? undefined : faultSentence(kept.error));
  };
  return (
    <Sheet title="Before we start" onClose={close}>
      <ChipRow label="the usual">
        <Chip chosen={usual} onTap={() => acts.tellUsual(log, place, !usual)}>
          the usual
        </Chip>
      </ChipRow>
      {ARRIVAL_ITEMS.map((item) => {
        const { asks, worst, best } = ARRIVAL[item];
        return (
          <div key={item} class="arrival-item">
            <p class="arrival-asks">
              <b>{asks}</b>{' '}
              <span class="hint">
                1 {worst} · 5 {best}
              </span>
            </p>
            <ChipRow label={asks} of="even">
              {ARRIVAL_STEPS.map((step) => (
                <Chip
                  key={step}
                  chosen={items[item] === step}
                  label={`${asks} ${step}${step === 1 ? `, ${worst}` : step === 5 ? `, ${best}` : ''}`}
                  onTap={() => acts.tellArrival(log, place, item, items[item] === step ? null : step)}
                >
                  {step}
                </Chip>
              ))}
            </ChipRow>
          </div>
        );
      })}
      <p class="hint">Sore places</p>
      <ChipRow label="sore places" of="many">
        {SORE_PLACES.map((where) => (
          <Chip
            key={where}
            chosen={sore.includes(where)}
            onTap={() => acts.tellSore(log, place, where, !sore.includes(where))}
          >
            {where}
          </Chip>
        ))}
      </ChipRow>
      <p class="hint">Pain before the session, 0 to 10</p>
      <ChipRow label="pain before the session" of="many">
        {Array.from({ length: 11 }, (_, value) => (
          <Chip
            key={value}
            chosen={pain === value}
            label={`pain before ${value}`}
            onTap={() => acts.tellPain(log, place, pain === value ? null : value)}
          >
            {value}
          </Chip>
        ))}
      </ChipRow>
      {(pain ?? 0) >= 4 ? (
        <p class="fault" role="alert">
          {PAIN_CAUTION}
        </p>
      ) : null}
      {question !== undefined || answer ? (
        <div class="field-act">
          <TextField label={question ?? answer?.asked ?? ''} value={said} onText={setSaid} fault={fault} />
          <button type="button" class="button" onClick={keepAnswer}>
            Keep the answer
          </button>
        </div>
      ) : (
        <p class="hint">A question agreed with the client can be kept on the client’s page.</p>
      )}
      <button type="button" class="button button-act" onClick={close}>
        Done
      </button>
    </Sheet>
  );
}
