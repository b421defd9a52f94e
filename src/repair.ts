import { exportLog } from './log/export';
import { OWN_LOG } from './log/showing';
import { REPAIR } from './ui/repairWords';

/*
 * The page that helps when a version of the app does not start. Built as one file that shares nothing with the app (vite.config.ts), and brought by
 * src/public/guard.js. It may throw away the app's files (Cache Storage, the worker), never records.
 */

const said = element('p', '');
said.setAttribute('role', 'status');
const main = element('main', '');
main.className = 'page';
main.append(
  element('h1', REPAIR.title),
  element('p', REPAIR.kept),
  button(REPAIR.again, () => location.replace('/')),
  button(REPAIR.save, save),
  button(REPAIR.fetch, fetchAnew),
  element('p', REPAIR.fetchHint),
  said,
);
document.body.replaceChildren(main);

async function save(): Promise<void> {
  try {
    const made = await exportLog(OWN_LOG, [], Date.now());
    const link = document.createElement('a');
    link.href = URL.createObjectURL(made.blob);
    link.download = `cuewright-${new Date().toISOString().slice(0, 10)}.jsonl`;
    link.click();
    said.textContent = made.databaseRead ? REPAIR.saved(made.rows) : REPAIR.partly;
  } catch {
    said.textContent = REPAIR.notSaved;
  }
}

/** Only with the server there: without it, throwing the files away would leave no app at all. */
async function fetchAnew(): Promise<void> {
  try {
    // never kept by the worker: an answer is the server's own
    await (await fetch('/version.json', { cache: 'no-store' })).json();
  } catch {
    said.textContent = REPAIR.noServer;
    return;
  }
  for (const worker of (await navigator.serviceWorker?.getRegistrations()) ?? []) await worker.unregister();
  for (const name of await caches.keys()) await caches.delete(name);
  location.replace('/');
}

function element<K extends keyof HTMLElementTagNameMap>(name: K, text: string): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}

function button(text: string, act: () => unknown): HTMLButtonElement {
  const made = element('button', text);
  made.type = 'button';
  made.className = 'button';
  made.addEventListener('click', () => void act());
  return made;
}
