import { signal } from '@preact/signals';

/** A sheet over a session: part of its address, so the phone's Back closes it. */
export type Sheet =
  | { readonly name: 'set'; readonly set: string }
  | { readonly name: 'cue'; readonly set: string }
  | { readonly name: 'exercise' }
  | { readonly name: 'set-up'; readonly exercise: string }
  | { readonly name: 'client' }
  | { readonly name: 'end' };

export type Route =
  | { readonly page: 'today' }
  | { readonly page: 'session'; readonly stream: string; readonly session: string; readonly sheet?: Sheet }
  | { readonly page: 'client'; readonly stream: string | null }
  | { readonly page: 'backup' }
  | { readonly page: 'unknown'; readonly path: string };

/** Returns the route of a path. Paths hold ids, never names. */
export function parseRoute(path: string): Route {
  const [head, ...rest] = path.split('/').filter((part) => part !== '');
  if (head === undefined) return { page: 'today' };
  if (head === 'backup' && rest.length === 0) return { page: 'backup' };
  if (head === 'client' && rest.length === 1 && rest[0] !== undefined) {
    return { page: 'client', stream: rest[0] === 'new' ? null : rest[0] };
  }
  const [stream, session, ...sheet] = rest;
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
    case 'backup':
      return '/backup';
    case 'client':
      return `/client/${route.stream ?? 'new'}`;
    case 'unknown':
      return route.path;
    case 'session':
      return `/s/${route.stream}/${route.session}${route.sheet ? `/${sheetPath(route.sheet)}` : ''}`;
  }
}

export const route = signal<Route>(parseRoute(location.pathname));

/** How many addresses this app has put on the way back: with none, Back would leave it. */
let depth = typeof history.state?.depth === 'number' ? history.state.depth : 0;

addEventListener('popstate', (event) => {
  depth = typeof event.state?.depth === 'number' ? event.state.depth : 0;
  route.value = parseRoute(location.pathname);
});

/** Goes to a route; Back comes back here. */
export function go(to: Route): void {
  depth += 1;
  history.pushState({ depth }, '', pathOf(to));
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

function parseSheet([name, id, ...more]: readonly string[]): Sheet | undefined | null {
  if (name === undefined) return undefined;
  if (more.length > 0) return null;
  if (id === undefined) return name === 'exercise' || name === 'client' || name === 'end' ? { name } : null;
  if (name === 'set' || name === 'cue') return { name, set: id };
  return name === 'set-up' ? { name, exercise: id } : null;
}

function sheetPath(sheet: Sheet): string {
  if ('set' in sheet) return `${sheet.name}/${sheet.set}`;
  return 'exercise' in sheet ? `${sheet.name}/${sheet.exercise}` : sheet.name;
}
