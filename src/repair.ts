import { lockActs } from './lockActs';
import { exportLog } from './log/export';
import { createLocal } from './log/local';
import { OWN_LOG } from './log/showing';
import { REPAIR } from './ui/repairWords';

/*
 * The page that helps when a version of the app does not start. Built as one file that shares nothing with the app (vite.config.ts), and brought by
 * src/public/guard.js. With the screen lock on it hands nothing out without the PIN. It may throw away the app's files (Cache Storage, the worker), never records.
 */

const local = createLocal(OWN_LOG);
const isLocked = (): boolean => Boolean(local.get('lock'));
const lock = lockActs(
  {
    local,
    world: { now: Date.now, zone: () => 'UTC', random: (count) => crypto.getRandomValues(new Uint8Array(count)) },
    // the ways back are the app's
    isOwner: async () => 'none-made',
    hasWayBack: async () => false,
  },
  { isOn: isLocked, open: () => undefined },
);

const said = element('p', '');
said.setAttribute('role', 'status');
const main = element('main', '');
main.className = 'page';
main.append(
  element('h1', REPAIR.title),
  element('p', REPAIR.kept),
  button(REPAIR.again, () => location.replace('/')),
  ...pinField(),
  button(REPAIR.save, save),
  button(REPAIR.fetch, fetchAnew),
  element('p', REPAIR.fetchHint),
  said,
);
document.body.replaceChildren(main);

async function save(): Promise<void> {
  const answer = isLocked() ? await lock.unlock(document.querySelector('input')?.value ?? '') : 'open';
  if (answer !== 'open') {
    said.textContent = answer === 'wrong' ? REPAIR.wrongPin : REPAIR.wait(answer.wait);
    return;
  }
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

function pinField(): readonly HTMLElement[] {
  if (!isLocked()) return [];
  const field = element('input', '');
  field.type = 'password';
  field.inputMode = 'numeric';
  field.autocomplete = 'off';
  const label = element('label', REPAIR.pin);
  label.append(field);
  const place = element('div', '');
  place.className = 'field';
  place.append(label);
  return [place];
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
