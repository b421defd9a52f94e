import { useApp } from '../app';
import { back } from '../routes';

/** A page of a client that is not there: not read yet, or not on this phone. */
export function NoClient() {
  const { log } = useApp();
  return (
    <main class="page">
      <h1>{log.status().phase === 'opening' ? 'Opening the log…' : 'This client is not on this phone.'}</h1>
      <button type="button" class="button" onClick={() => back({ page: 'today' })}>
        Today
      </button>
    </main>
  );
}
