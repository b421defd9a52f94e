import { useApp, useWatch } from '../app';
import { Sheet } from '../parts/Sheet';
import { go, replace } from '../routes';

/** Another client beside this one: start one who is not being trained, or add one. */
export function ClientSheet({ close }: { close: () => void }) {
  const { log, acts, views, world } = useApp();
  useWatch(['kind:client', 'kind:session']);
  const running = new Set(
    views
      .sessionsInMemory(log)
      .filter((one) => !one.session.end)
      .map((one) => one.stream),
  );
  const others = views.clients(log).filter((client) => !running.has(client.id));
  return (
    <Sheet title="Another client" onClose={close}>
      <ul class="pick-list">
        {others.map((client) => (
          <li key={client.id}>
            <button
              type="button"
              class="button pick"
              onClick={() => {
                const { stream, session } = acts.startSession(log, client.id, world);
                replace({ page: 'session', stream, session });
              }}
            >
              Start <span dir="auto">{client.alias}</span>
            </button>
          </li>
        ))}
      </ul>
      {others.length === 0 ? (
        <p class="hint">{running.size > 1 ? 'Everyone is being trained already.' : 'There is no other client yet.'}</p>
      ) : null}
      <button type="button" class="button" onClick={() => go({ page: 'client', stream: null })}>
        Add a client
      </button>
    </Sheet>
  );
}
