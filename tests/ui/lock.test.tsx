import { render } from 'preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { createLock } from '../../src/lock';
import { type App, AppProvider } from '../../src/ui/app';
import { Veil } from '../../src/ui/parts/Veil';

/* When the lock covers, locks and opens, by a clock that the test holds; and that what lies behind it is neither drawn before nor thrown away after. */

const MINUTE = 60_000;
const place = document.createElement('div');
document.body.append(place);
let notes: Map<string, string>;
let now: number;
let owner: 'yes' | 'no' | 'none-made';
let hasWayBack: boolean;

beforeEach(() => {
  notes = new Map();
  now = Date.parse('2026-11-24T10:00Z');
  owner = 'none-made';
  hasWayBack = true;
});
afterEach(() => {
  sight('visible');
  render(null, place);
});

/** The lock of a start of the app, with what this device had kept. */
function start() {
  const random = (count: number) => Uint8Array.from({ length: count }, (_, at) => at * 7);
  return createLock({
    applies: true,
    local: { get: (name) => notes.get(name), set: (name, text) => notes.set(name, text) },
    world: { now: () => now, zone: () => 'UTC', random },
    isOwner: async () => owner,
    hasWayBack: async () => hasWayBack,
    loaded: Promise.resolve(),
  });
}

async function startOn(after: 0 | 1 | 5 | 15 = 0) {
  const lock = start();
  expect(await (await lock.acts()).turnOn('2580', after)).toBe('on');
  return lock;
}

function sight(state: 'hidden' | 'visible'): void {
  Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => state });
  document.dispatchEvent(new Event('visibilitychange'));
}

test('off, it neither covers nor locks', () => {
  const lock = start();
  sight('hidden');
  expect(lock.state()).toBe('open');
  now += 60 * MINUTE;
  sight('visible');
  expect([lock.isOn(), lock.state()]).toEqual([false, 'open']);
});

test.each([
  [0, 0, 'locked'],
  [1, MINUTE - 1, 'open'],
  [1, MINUTE, 'locked'],
  [5, 5 * MINUTE - 1, 'open'],
  [5, 5 * MINUTE, 'locked'],
  [15, 15 * MINUTE - 1, 'open'],
  [15, 15 * MINUTE, 'locked'],
  // a clock that was set back meanwhile
  [15, -1, 'locked'],
] as const)('asking after %i minutes, out of sight for %i ms: %s', async (after, away, state) => {
  const lock = await startOn(after);
  expect(lock.state()).toBe('open');
  sight('hidden');
  expect(lock.state()).toBe('covered');
  now += away;
  sight('visible');
  expect(lock.state()).toBe(state);
});

test('a start with the lock on is locked, and so it stays in sight and out; the PIN opens it, no other does', async () => {
  await startOn(15);
  const lock = start();
  const acts = await lock.acts();
  expect(lock.state()).toBe('locked');
  sight('hidden');
  sight('visible');
  expect(lock.state()).toBe('locked');
  expect(await acts.unlock('2581')).toBe('wrong');
  expect(lock.state()).toBe('locked');
  expect(await acts.unlock('2580')).toBe('open');
  expect(lock.state()).toBe('open');
});

test('five wrong ones in a row make one wait, longer each time up to 15 minutes, over a start and a clock set back', async () => {
  await startOn();
  const acts = await start().acts();
  for (let tries = 0; tries < 4; tries += 1) expect(await acts.unlock('0000')).toBe('wrong');
  expect(await acts.unlock('0000')).toEqual({ wait: 30 });
  // the right one is not tried either
  expect(await acts.unlock('2580')).toEqual({ wait: 30 });
  now += 29_000;
  const again = await start().acts();
  expect(again.waiting()).toBe(1);
  now -= 60 * MINUTE;
  expect(again.waiting()).toBe(30);
  const waits = [];
  for (let tries = 0; tries < 6; tries += 1) {
    now += again.waiting() * 1000;
    waits.push(await again.unlock('0000'));
  }
  expect(waits).toEqual([60, 120, 240, 480, 900, 900].map((wait) => ({ wait })));
  now += 900_000;
  expect(await again.unlock('2580')).toBe('open');
  // a right one ends the row
  expect(await again.unlock('0000')).toBe('wrong');
});

test('a wrong one counts before it is tried: tries at once come one after another, and none is free', async () => {
  await startOn();
  const acts = await start().acts();
  const answers = await Promise.all(Array.from({ length: 7 }, () => acts.unlock('1111')));
  expect(answers).toEqual(['wrong', 'wrong', 'wrong', 'wrong', { wait: 30 }, { wait: 30 }, { wait: 30 }]);
  expect(acts.waiting()).toBe(30);
});

test.each([
  ['no JSON', '{"format":"cuewright-lock/1"'],
  ['too few rounds', '{"format":"cuewright-lock/1","salt":"AAAAAAAAAAAAAAAAAAAAAA","hash":"","rounds":1}'],
])('a record that cannot be read (%s) locks nobody out: it opens, is off, and says so', async (_, record) => {
  notes.set('lock', record);
  const lock = start();
  expect(lock.state()).toBe('locked');
  const acts = await lock.acts();
  expect([lock.state(), lock.isOn(), acts.wasLost()]).toEqual(['open', false, true]);
  expect(start().state()).toBe('open');
  expect(await acts.turnOn('2580', 0)).toBe('on');
  expect(acts.wasLost()).toBe(false);
});

test('it is turned on only with a way back, with a PIN, and where the device keeps it', async () => {
  const lock = start();
  const acts = await lock.acts();
  hasWayBack = false;
  expect(await acts.turnOn('2580', 0)).toBe('no-way-back');
  hasWayBack = true;
  expect(await acts.turnOn('258', 0)).toBe('not-a-pin');
  const keep = notes.set;
  notes.set = () => notes;
  expect(await acts.turnOn('2580', 0)).toBe('not-kept');
  notes.set = keep;
  expect(lock.isOn()).toBe(false);
  expect(await acts.turnOn('2580', 0)).toBe('on');
  // a second one does not put another PIN in its place
  expect(await acts.turnOn('9999', 0)).toBe('on-already');
  expect(await acts.unlock('2580')).toBe('open');
});

test('changing and turning off ask for the PIN, and count the wrong ones', async () => {
  const lock = await startOn(1);
  const acts = await lock.acts();
  expect(await acts.change('0000', { after: 15 })).toBe('wrong');
  expect(acts.after()).toBe(1);
  expect(await acts.change('2580', { after: 15 })).toBe('changed');
  expect(acts.after()).toBe(15);
  expect(await acts.change('2580', { pin: '12' })).toBe('not-a-pin');
  expect(await acts.change('2580', { pin: '135790' })).toBe('changed');
  expect(await acts.turnOff('2580')).toBe('wrong');
  for (let tries = 0; tries < 3; tries += 1) expect(await acts.change('2580', { after: 0 })).toBe('wrong');
  expect(await acts.turnOff('2580')).toEqual({ wait: 30 });
  now += 30_000;
  expect(await acts.turnOff('135790')).toBe('off');
  expect([lock.isOn(), lock.state(), start().state()]).toEqual([false, 'open', 'open']);
});

test('a forgotten PIN: the owner’s code opens and turns the lock off; another does not', async () => {
  await startOn();
  const lock = start();
  const acts = await lock.acts();
  expect(await acts.unlockAsOwner('ABCD')).toBe('none-made');
  owner = 'no';
  for (let tries = 0; tries < 4; tries += 1) expect(await acts.unlockAsOwner('ABCD')).toBe('wrong');
  expect(await acts.unlockAsOwner('ABCD')).toEqual({ wait: 30 });
  expect([lock.state(), lock.isOn()]).toEqual(['locked', true]);
  // wrong codes take no try of the PIN away
  expect(acts.waiting()).toBe(0);
  now += 30_000;
  owner = 'yes';
  expect(await acts.unlockAsOwner('ABCD')).toBe('open');
  expect([lock.state(), lock.isOn()]).toEqual(['open', false]);
});

test('turned off in another tab, it opens here', async () => {
  await startOn();
  const lock = start();
  await lock.acts();
  expect(lock.state()).toBe('locked');
  notes.set('lock', '');
  dispatchEvent(new Event('storage'));
  expect(lock.state()).toBe('open');
});

/** Draws a sheet half typed behind the lock. */
function draw(lock: App['lock']): void {
  const update = { state: () => 'current', watch: () => () => undefined };
  render(
    <AppProvider value={{ lock, update } as unknown as App}>
      <Veil>
        <input aria-label="Client K" />
      </Veil>
    </AppProvider>,
    place,
  );
}

test('at a locked start nothing is drawn; opened, what it hides and shows again is the same, with what was typed and the focus', async () => {
  await startOn();
  const lock = start();
  const acts = await lock.acts();
  draw(lock);
  await expect.poll(() => place.textContent).toContain('Unlock');
  expect(place.innerHTML).not.toContain('Client K');

  await acts.unlock('2580');
  await expect.poll(() => place.querySelectorAll('input').length).toBe(1);
  const field = place.querySelector<HTMLInputElement>('[aria-label="Client K"]')!;
  field.value = 'half ty';
  field.focus();
  const veil = field.closest<HTMLElement>('.veil')!;

  sight('hidden');
  // in the same task: the picture of the app switcher is taken before anything else runs
  expect([veil.hidden, veil.inert]).toEqual([true, true]);
  sight('visible');
  await expect.poll(() => place.textContent).toContain('Unlock');
  expect([veil.hidden, veil.inert, field.isConnected]).toEqual([true, true, true]);
  expect(document.activeElement).not.toBe(field);

  await acts.unlock('2580');
  expect([veil.hidden, veil.inert, field.value]).toEqual([false, false, 'half ty']);
  expect(document.activeElement).toBe(field);
  await expect.poll(() => place.querySelectorAll('input').length).toBe(1);
});
