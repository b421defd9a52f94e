import { useApp, useWatch } from '../app';
import { dayLong } from '../format';
import { say } from '../parts/say';

/** Clients who were handed over and erased here: one line each, which is all that is kept of them. */
export function Stubs({ canWrite }: { canWrite: boolean }) {
  const { log, acts } = useApp();
  useWatch(['kind:stub']);
  const found = acts.stubs(log);
  if (found.length === 0) return null;
  return (
    <section class="card" aria-label="handed over">
      <h2>Handed over, and erased here</h2>
      <ul class="records-list">
        {found.map(({ id, alias, to, day }) => (
          <li key={id}>
            <p>
              <b dir="auto">{alias}</b>
              {to === '' ? null : (
                <>
                  , to <bdi>{to}</bdi>
                </>
              )}
              , {dayLong(day)}
            </p>
            <button
              type="button"
              class="button button-plain"
              disabled={!canWrite}
              aria-label={`Remove the line: ${alias}`}
              onClick={() => {
                void acts.removeStub(log, id);
                say('Line removed. Undo brings it back.');
              }}
            >
              Remove the line
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
