import { h, render } from 'preact';
import type { World } from './domain/world';
import { createLock } from './lock';
import { createLocal } from './log/local';
import { DEMO_LOG, demoFlag, OWN_LOG } from './log/showing';
import { startLog } from './log/start';
import * as views from './log/views';
import { showDemo } from './showDemo';
import type { Acts, App } from './ui/app';
import { keepInstallOffer } from './ui/parts/install';
import { loadAll, loadBefore } from './ui/parts/later';
import { hasUnkeptText, watchTyping } from './ui/parts/typing';
import { Root } from './ui/Root';
import { showTheme, themeOf } from './ui/theme/theme';
import { keepUpdated } from './update';
import './ui/theme/base.css';
import './ui/theme/tokens.css';
import './ui/parts/parts.css';
import './ui/parts/demo.css';
import './ui/floor/pad.css';
import './ui/floor/record.css';
import './ui/floor/rest.css';
import './ui/floor/session.css';
import './ui/floor/today.css';
import './ui/floor/block.css';
import './ui/floor/landing.css';

/*
 * Starts the app. The only place that joins the rooms, and the only one that reads the clock, the zone and randomness.
 */

const LOG = demoFlag() === 'shown' ? DEMO_LOG : OWN_LOG;
/** Out of sight for this long, the connection may be lost or another tab may have written. */
const AWAY_MS = 30_000;

let zone = { name: askedZone(), askedAt: Date.now() };
const world: World = {
  now: () => Date.now(),
  zone: zoneNow,
  random: (count) => crypto.getRandomValues(new Uint8Array(count)),
};

const log = startLog(LOG, world, nextFrame);
// what this device remembers is its own, whichever log is shown
const local = createLocal(OWN_LOG);
const shownTexts = createLocal(LOG);
// everything a tap can open, before any tap needs it, and after the first screen
const loaded = log.ready.then(() => new Promise((next) => setTimeout(next, 0))).then(loadAll);
const acts = {} as Acts;
/** Keys and sealed files. */
const sealing = first(async () => (await import('./sealing')).createSealing(log, world, app.update.build));
const app: App = {
  log,
  world,
  name: LOG,
  views,
  acts,
  loadActs,
  snapshot: { read: () => shownTexts.get('today'), write: (text) => shownTexts.set('today', text) },
  notes: local,
  kept: shownTexts,
  sealing,
  analysing: first(async () => (await import('./analysing')).createAnalysing(log)),
  demo: showDemo({ log, world, shown: LOG === DEMO_LOG, isRunning }),
  update: keepUpdated({ log, world, local, isRunning, hasUnkeptText, loaded }),
  lock: createLock({
    local,
    world,
    loaded,
    applies: LOG === OWN_LOG,
    isOwner: async (text) => (await sealing()).isOwner(text),
    hasWayBack: async () => (await sealing()).hasWayBack(),
  }),
};

loadBefore(loadActs, app.update.lost);
watchTyping();
keepInstallOffer();

showTheme(themeOf(local));

const root = document.getElementById('app');
if (!root) throw new Error('the page has no place for the app');
render(h(Root, { app }), root);
watchAway();

function isRunning(): boolean {
  return views.sessionsInMemory(log).some((one) => !one.session.end);
}

/** What acts is filled once; whatever can act waits for it. */
async function loadActs(): Promise<void> {
  Object.assign(acts, (await import('./acts')).acts);
}

/** Returns a function that makes a part of the app when a screen first asks for it, once; where its code does not load, it is tried again. */
function first<T>(make: () => Promise<T>): () => Promise<T> {
  let made: Promise<T> | undefined;
  return () => {
    made ??= make().catch((error) => {
      made = undefined;
      void app.update.lost();
      throw error;
    });
    return made;
  };
}

/** Before the next frame; a hidden page has none, and gets there in time. */
function nextFrame(fn: () => void): () => void {
  const frame = requestAnimationFrame(fn);
  const timer = setTimeout(fn, 100);
  return () => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  };
}

/** How long a zone is believed: asking the browser costs more than all else a tap does, and a phone changes zone on a flight. */
const ZONE_MS = 60_000;

function zoneNow(): string {
  const now = Date.now();
  // a clock set back asks again too
  if (Math.abs(now - zone.askedAt) > ZONE_MS) zone = { name: askedZone(), askedAt: now };
  return zone.name;
}

function askedZone(): string {
  return new Intl.DateTimeFormat().resolvedOptions().timeZone;
}

/** Writes drafts before the page may be frozen; after a long time away reads again before anything is written. */
function watchAway(): void {
  let left = 0;
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') {
      left = world.now();
      log.flush();
    } else if (world.now() - left > AWAY_MS) void log.refresh();
  });
}
