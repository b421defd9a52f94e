import type { Workbox } from 'workbox-window';
import type { World } from './domain/world';
import type { Local } from './log/local';
import type { Log } from './log/log';
import type { Update, UpdateState } from './ui/app';

/*
 * How the app itself becomes newer. A new version is fetched behind the page, whole or not at all, and waits. It takes over at a tap on Today, or
 * at a start at which no session runs; then every page of the app goes over to it, each only when that costs nothing: no session runs, no field
 * holds what nobody keeps, everything is saved. Until then a page works on with what it has loaded. The log is never touched.
 */

/** What this build is called; put in by vite.config.ts. */
declare const BUILD_MARK: string;

/** Asking more often than this wakes the phone's radio for nothing. */
const CHECK_MS = 30 * 60_000;
const TRY_MS = 500;
/** Asked while the old worker still answers, the browser may put the change off for long: at a start it is asked a moment after the last file came. */
const QUIET_MS = 1000;
/** How long a tap on "use" stands: a browser may finish old work first, and the next session must not be cut short by it. */
const ASKED_MS = 5000;
/** A store that does not answer within this is not waited for: the page stays, and it is tried again. */
const PATIENCE_MS = 2000;

export type UpdateDeps = {
  readonly log: Log;
  readonly world: World;
  readonly local: Local;
  /** Whether a session runs, in this tab or another: the log holds them all. */
  readonly isRunning: () => boolean;
  /** Whether a field holds typed text that nothing keeps yet. */
  readonly hasUnkeptText: () => boolean;
  /** Resolves when the log is open (or is known not to open) and every part of the app is loaded: from then on the page needs no file any more. */
  readonly loaded: Promise<void>;
};

/** Returns the state of the app's own version, and starts looking after it. */
export function keepUpdated(deps: UpdateDeps): Update {
  const { log, world, local } = deps;
  const container: ServiceWorkerContainer | undefined = navigator.serviceWorker;
  const watchers = new Set<() => void>();
  let state: UpdateState = 'current';
  let serverBuild: string | undefined;
  let worker: Workbox | undefined;
  let registration: ServiceWorkerRegistration | undefined;
  let controller = container?.controller ?? null;
  let checkedAt = Number.NEGATIVE_INFINITY;
  let touched = false;
  let askedAt = Number.NEGATIVE_INFINITY;
  let leaving: ReturnType<typeof setInterval> | undefined;

  function set(next: UpdateState): void {
    // a page whose version was replaced stays old until it goes
    if (next === state || state === 'old') return;
    state = next;
    for (const fn of watchers) fn();
  }

  /** Writes what waits; true once all of it is in the store. */
  async function settled(): Promise<boolean> {
    log.flush();
    const written = log.retry().then(() => true);
    const late = new Promise<boolean>((resolve) => setTimeout(() => resolve(false), PATIENCE_MS));
    if (!(await Promise.race([written, late]))) return false;
    const { unsaved, saveFault } = log.status();
    return unsaved === 0 && saveFault === null;
  }

  const isFree = (): boolean =>
    log.status().phase !== 'opening' && !deps.isRunning() && !deps.hasUnkeptText() && log.status().unsaved === 0;

  /** This page's version was replaced: it goes over once that costs nothing. */
  function becomeOld(): void {
    set('old');
    leaving ??= setInterval(() => void leave(), TRY_MS);
    void leave();
  }

  const mayLeave = (): boolean => world.now() - askedAt < ASKED_MS || isFree();

  async function leave(): Promise<void> {
    if (!mayLeave() || !(await settled()) || !mayLeave()) return;
    clearInterval(leaving);
    location.reload();
  }

  function lookAtController(): void {
    const before = controller;
    controller = container?.controller ?? null;
    if (controller === null || controller === before) return;
    // the first worker of all takes over the page that brought it
    if (before !== null) becomeOld();
  }

  function lookAtWaiting(): void {
    if (registration?.waiting && registration.active) set('ready');
    // with no worker the page itself is what is fetched anew
    else if (!registration && serverBuild !== undefined && serverBuild !== BUILD_MARK) set('ready');
    else set('current');
  }

  function follow(found: ServiceWorkerRegistration): void {
    registration = found;
    const coming = (): void => found.installing?.addEventListener('statechange', lookAtWaiting);
    found.addEventListener('updatefound', coming);
    coming();
    lookAtWaiting();
  }

  async function check(): Promise<void> {
    const since = world.now() - checkedAt;
    if (!navigator.onLine || (since >= 0 && since < CHECK_MS)) return;
    checkedAt = world.now();
    serverBuild = await askServer();
    await registration?.update().catch(() => undefined);
    lookAtWaiting();
    // an installed app may be slow to look at its worker again: the next look is not put off
    if (serverBuild !== undefined && serverBuild !== BUILD_MARK && state === 'current') checkedAt -= CHECK_MS;
    for (const fn of watchers) fn();
  }

  async function use(): Promise<void> {
    if (!(await settled())) return;
    askedAt = world.now();
    // the change of the worker brings this page and all others over
    if (state === 'old' || !skipWaiting()) location.reload();
  }

  function skipWaiting(): boolean {
    worker?.messageSkipWaiting();
    return Boolean(registration?.waiting);
  }

  async function register(): Promise<ServiceWorkerRegistration | undefined> {
    if (!container) return undefined;
    // the first screen does not wait for it
    const workbox = await import('workbox-window');
    worker = new workbox.Workbox('/sw.js', { updateViaCache: 'none' });
    return worker.register({ immediate: true });
  }

  async function start(): Promise<void> {
    await deps.loaded;
    const found = await register().catch(() => undefined);
    if (found) follow(found);
    // a start is the one moment at which nothing is lost by going over at once
    const { phase, openFault } = log.status();
    const isStart = phase === 'open' || openFault?.type === 'newer';
    if (state === 'ready' && isStart) await new Promise((quiet) => setTimeout(quiet, QUIET_MS));
    if (state === 'ready' && isStart && !touched && isFree()) skipWaiting();
    else await check();
  }

  for (const event of ['pointerdown', 'keydown']) {
    addEventListener(event, () => {
      touched = true;
    });
  }
  container?.addEventListener('controllerchange', lookAtController);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible') return;
    // a page that slept may have missed what happened
    lookAtController();
    lookAtWaiting();
    void check();
  });
  void start();

  return {
    build: BUILD_MARK,
    serverBuild: () => serverBuild,
    state: () => state,
    use: () => void use(),
    async lost() {
      lookAtController();
      const there = await askServer();
      if (there === undefined || there === BUILD_MARK || local.get('left-for') === there) return;
      // once for a version: a server that mixes two would send the page round for ever
      local.set('left-for', there);
      becomeOld();
    },
    watch: (fn) => {
      watchers.add(fn);
      return () => watchers.delete(fn);
    },
  };
}

/** Returns what the build on the server is called; undefined where it cannot be asked. */
async function askServer(): Promise<string | undefined> {
  try {
    const response = await fetch('/version.json', { cache: 'no-store' });
    const { build } = (await response.json()) as { build?: unknown };
    return typeof build === 'string' ? build : undefined;
  } catch {
    return undefined;
  }
}
