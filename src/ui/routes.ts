import { signal } from '@preact/signals';

/** A sheet over a session: part of its address, so the phone's Back closes it. */
export type Sheet =
  | { readonly name: 'set'; readonly set: string }
  | { readonly name: 'cue'; readonly set: string }
  | { readonly name: (typeof EXERCISE_SHEETS)[number]; readonly exercise: string }
  /** Adding an exercise: to the list, behind something on it (`behind/id`), to a block (`to/block`), or in the place of one (`for/…`). */
  | { readonly name: 'exercise'; readonly to?: ExerciseTo }
  /** A block to be changed, or a new one. */
  | { readonly name: 'block'; readonly block: string | null }
  | { readonly name: (typeof PLAIN_SHEETS)[number] };

/** What an exercise that is chosen becomes. */
export type ExerciseTo =
  | { readonly as: 'behind'; readonly id: string }
  | { readonly as: 'station'; readonly block: string }
  | { readonly as: 'instead'; readonly exercise: string }
  | { readonly as: 'instead-at'; readonly block: string; readonly station: string };

/** Sheets about one exercise. */
const EXERCISE_SHEETS = ['set-up', 'trend', 'clearance', 'tally'] as const;
/** Sheets that need to know nothing but the session. */
const PLAIN_SHEETS = ['client', 'end', 'change', 'more', 'arrival', 'signs', 'place', 'template'] as const;

/** What the library shows. */
export const LIBRARY_TABS = ['exercises', 'cues', 'faults', 'places'] as const;
export type LibraryTab = (typeof LIBRARY_TABS)[number];

/** Pages that need to know nothing. */
const PLAIN_PAGES = ['backup', 'bring-in', 'keys', 'records', 'settings', 'help', 'week'] as const;
/**
 * `bring-in`: taking a file in. `keys`: recovery code, passphrase, what to do when a device is lost. `records`: what someone has to settle, to mend, or may
 * bring back. `week`: all clients' week.
 */
export type PlainPage = (typeof PLAIN_PAGES)[number];

export type Route =
  | { readonly page: 'today' }
  | { readonly page: 'session'; readonly stream: string; readonly session: string; readonly sheet?: Sheet }
  | { readonly page: 'client'; readonly stream: string | null }
  /** One client's day: sessions, templates, other work. */
  | { readonly page: 'day'; readonly stream: string }
  /** What the client may see of a session. */
  | { readonly page: 'view'; readonly stream: string; readonly session: string }
  /** One exercise of a client's: its chart, and what is said of it. */
  | { readonly page: 'trend'; readonly stream: string; readonly exercise: string }
  | { readonly page: PlainPage }
  /** One client's record for another trainer. */
  | { readonly page: 'hand-over'; readonly stream: string }
  | { readonly page: 'library'; readonly part: LibraryTab }
  | { readonly page: 'unknown'; readonly path: string };

/** Returns the route of a path. Paths hold ids, never names. */
export function parseRoute(path: string): Route {
  const [head, ...rest] = path.split('/').filter((part) => part !== '');
  if (head === undefined) return { page: 'today' };
  const plain = rest.length === 0 ? PLAIN_PAGES.find((page) => page === head) : undefined;
  if (plain) return { page: plain };
  const tab =
    head === 'library' && rest.length <= 1 ? LIBRARY_TABS.find((one) => one === (rest[0] ?? 'exercises')) : undefined;
  if (tab) return { page: 'library', part: tab };
  if (head === 'client' && rest.length === 1 && rest[0] !== undefined) {
    return { page: 'client', stream: rest[0] === 'new' ? null : rest[0] };
  }
  if (head === 'hand-over' && rest.length === 1 && rest[0] !== undefined) return { page: 'hand-over', stream: rest[0] };
  if (head === 'day' && rest.length === 1 && rest[0] !== undefined) return { page: 'day', stream: rest[0] };
  const [stream, session, ...sheet] = rest;
  if (head === 'view' && stream !== undefined && session !== undefined && sheet.length === 0)
    return { page: 'view', stream, session };
  if (head === 'trend' && stream !== undefined && session !== undefined && sheet.length === 0)
    return { page: 'trend', stream, exercise: session };
  if (head !== 's' || stream === undefined || session === undefined) return { page: 'unknown', path };
  const parsed = parseSheet(sheet);
  if (parsed === null) return { page: 'unknown', path };
  return parsed ? { page: 'session', stream, session, sheet: parsed } : { page: 'session', stream, session };
}

/** Returns the path of a route. */
export function pathOf(route: Route): string {
  switch (route.page) {
    case 'today':
      return '/';
    case 'library':
      return `/library/${route.part}`;
    case 'client':
      return `/client/${route.stream ?? 'new'}`;
    case 'hand-over':
      return `/hand-over/${route.stream}`;
    case 'day':
      return `/day/${route.stream}`;
    case 'view':
      return `/view/${route.stream}/${route.session}`;
    case 'trend':
      return `/trend/${route.stream}/${route.exercise}`;
    case 'unknown':
      return route.path;
    case 'session':
      return `/s/${route.stream}/${route.session}${route.sheet ? `/${sheetPath(route.sheet)}` : ''}`;
    default:
      return `/${route.page}`;
  }
}

export const route = signal<Route>(parseRoute(location.pathname));

/** How many addresses this app has put on the way back: with none, Back would leave it. */
let depth = typeof history.state?.depth === 'number' ? history.state.depth : 0;

let held = false;

/** Holds the route, or lets it go again: held, Back and Forward lead to where one is. */
export function holdRoute(hold: boolean): void {
  held = hold;
}

addEventListener('popstate', (event) => {
  const to = typeof event.state?.depth === 'number' ? event.state.depth : 0;
  if (held) {
    if (to !== depth) history.go(depth - to);
    return;
  }
  depth = to;
  route.value = parseRoute(location.pathname);
});

/** Goes to a route; Back comes back here. */
export function go(to: Route): void {
  depth += 1;
  history.pushState({ depth }, '', pathOf(to));
  // another page begins at its top, wherever this one was; the way back keeps its place
  scrollTo(0, 0);
  route.value = to;
}

/** Goes to a route in place of this one: another tab of the same screen. */
export function replace(to: Route): void {
  history.replaceState({ depth }, '', pathOf(to));
  route.value = to;
}

/** Goes back to where this was opened from, or to `otherwise` where the app began here. */
export function back(otherwise: Route): void {
  if (depth > 0) history.back();
  else replace(otherwise);
}

function parseSheet([name, id, more, last, ...rest]: readonly string[]): Sheet | undefined | null {
  if (name === undefined) return undefined;
  if (rest.length > 0) return null;
  if (name === 'exercise') {
    if (id === undefined) return { name };
    const to = parseTo(id, more, last);
    return to ? { name, to } : null;
  }
  if (more !== undefined) return null;
  const plain = PLAIN_SHEETS.find((one) => one === name);
  if (id === undefined) return plain ? { name: plain } : null;
  if (name === 'set' || name === 'cue') return { name, set: id };
  if (name === 'block') return { name, block: id === 'new' ? null : id };
  const own = EXERCISE_SHEETS.find((one) => one === name);
  return own ? { name: own, exercise: id } : null;
}

function parseTo(as: string, id: string | undefined, more: string | undefined): ExerciseTo | undefined {
  if (id === undefined) return undefined;
  if (as === 'instead-at') return more === undefined ? undefined : { as, block: id, station: more };
  if (more !== undefined) return undefined;
  return as === 'behind'
    ? { as, id }
    : as === 'station'
      ? { as, block: id }
      : as === 'instead'
        ? { as, exercise: id }
        : undefined;
}

function sheetPath(sheet: Sheet): string {
  if ('set' in sheet) return `${sheet.name}/${sheet.set}`;
  if (sheet.name === 'block') return `block/${sheet.block ?? 'new'}`;
  if (sheet.name === 'exercise') return sheet.to ? `exercise/${toPath(sheet.to)}` : 'exercise';
  return 'exercise' in sheet ? `${sheet.name}/${sheet.exercise}` : sheet.name;
}

function toPath(to: ExerciseTo): string {
  switch (to.as) {
    case 'behind':
      return `behind/${to.id}`;
    case 'station':
      return `station/${to.block}`;
    case 'instead':
      return `instead/${to.exercise}`;
    case 'instead-at':
      return `instead-at/${to.block}/${to.station}`;
  }
}
