import { STOP_SIGNS } from '../../domain/stopSigns';
import { useApp } from '../app';
import { SIGNS, SIGNS_CAUTION } from '../careWords';
import { timeOfDay } from '../format';
import { Sheet } from '../parts/Sheet';
import { say } from '../parts/say';
import type { Pad } from './usePad';

/** The whole list of stop signs. Noting one closes the exercise in hand for the session. */
export function SignsSheet({ pad, close }: { pad: Pad; close: () => void }) {
  const { log, acts, world } = useApp();
  const { place, session, exercise } = pad;
  return (
    <Sheet title="Stop signs" onClose={close}>
      <p class="fault">{SIGNS_CAUTION}</p>
      {session.end ? null : (
        <p class="hint">
          Tap what was seen:{' '}
          {exercise
            ? `${exercise.name} is then closed for this session.`
            : 'everything is then closed for this session.'}
        </p>
      )}
      <ul class="pick-list">
        {STOP_SIGNS.map((sign) => {
          const seen = session.signs.filter((one) => one.sign === sign).at(-1);
          return (
            <li key={sign}>
              <button
                type="button"
                class="button pick"
                disabled={session.end !== undefined}
                onClick={() => {
                  void acts.noteSign(log, place, sign, exercise?.id, world);
                  say(`Noted: ${SIGNS[sign]}.`);
                  close();
                }}
              >
                {SIGNS[sign]}
                {seen ? `, noted ${timeOfDay(seen.at, world.zone())}` : ''}
              </button>
            </li>
          );
        })}
      </ul>
    </Sheet>
  );
}
