import type { NamedDay } from '../../domain/client';
import { daysBetween, type Instant } from '../../domain/day';
import { weekDayOf } from '../../domain/template';
import { usualOf } from '../../domain/usual';
import type { ClientSession } from '../../log/views';
import type { App } from '../app';

/** One client's line on Today. */
export type TodayLine = {
  readonly stream: string;
  readonly alias: string;
  readonly short: string;
  readonly state: 'running' | 'done-today' | 'not-today';
  /** The session a tap opens: the running one, or today's. */
  readonly session: string | null;
  readonly sets: number;
  readonly startedAt: number | null;
  readonly lastDay: string | null;
  readonly date: NamedDay | null;
  /** Days to the named day. */
  readonly days: number | null;
  /** How many sessions began today. */
  readonly sessions: number;
  /** Whether today's session ended without a whole-session effort: it may be given later. */
  readonly effortOpen: boolean;
  /** The template that is for this day of the week. */
  readonly template: { readonly id: string; readonly name: string } | null;
  /** The session that is usual for this client, by what it holds, where no template is for today. */
  readonly usual: { readonly session: string; readonly names: readonly string[] } | null;
  /** Other work noted for today. */
  readonly work: readonly string[];
  /** The day the client was added: where the week line begins. */
  readonly since: string | null;
  /** The one thing that the analysis says of this client today. */
  readonly head: Head | null;
};

/** What matters today, as a sentence; a heads-up asks for something to be done. */
export type Head = { readonly text: string; readonly isHeadsUp: boolean; readonly day: string };
/** Says what matters of a client: undefined while it is worked out. It is loaded behind the first screen. */
export type HeadOf = (app: App, stream: string, day: string) => Head | null | undefined;

/**
 * Returns today's lines from top to bottom: not today, done today, running; the running session that began last is nearest the thumb. What a
 * client's ended sessions tell is taken from `before` until they are read: a line says nothing untrue meanwhile, and does not change twice.
 */
export function todayLines(
  app: App,
  now: Instant,
  before: readonly TodayLine[] = [],
  headOf?: HeadOf,
): readonly TodayLine[] {
  const { log, views } = app;
  const inMemory = views.sessionsInMemory(log);
  const lines = views.clients(log).map((client): TodayLine => {
    const own = inMemory.filter((one) => one.stream === client.id);
    const running = own.find((one) => !one.session.end);
    const todays = own.find((one) => one.session.start?.day === now.day);
    const open = running ?? todays;
    const latest = log.lastTimes(client.id, '', '');
    const told = latest ? undefined : before.find((line) => line.stream === client.id);
    const last = latest?.[0];
    const lastDay = last?.day ?? told?.lastDay ?? null;
    const lastSession = last?.session ?? told?.session ?? null;
    const template = templateOf(app, client.id, now);
    const usual = template ? undefined : usualOf((latest ?? []).filter((one) => one.session !== running?.session.id));
    return {
      stream: client.id,
      alias: client.alias,
      short: client.short,
      state: running ? 'running' : todays || lastDay === now.day ? 'done-today' : 'not-today',
      session: open?.session.id ?? (lastDay === now.day ? lastSession : null),
      sessions: own.filter((one) => one.session.start?.day === now.day).length,
      effortOpen: !running && todays?.session.effort === undefined && (todays?.session.sets.length ?? 0) > 0,
      template,
      usual: usual
        ? { session: usual.session, names: namesOf(app, usual.exercises ?? []) }
        : template
          ? null
          : (told?.usual ?? null),
      work: views
        .otherWork(log, client.id)
        .filter((one) => one.day === now.day)
        .map((one) => one.work),
      sets: open?.session.sets.filter((set) => set.kind !== 'warm-up').length ?? 0,
      startedAt: open?.session.start?.at ?? null,
      lastDay,
      date: client.date ?? null,
      days: client.date ? daysBetween(now.day, client.date.day) : null,
      since: client.since ?? null,
      head: orElse(headOf?.(app, client.id, now.day), before.find((line) => line.stream === client.id)?.head, now.day),
    };
  });
  // a running session whose client was removed is still there, and must be found
  for (const one of inMemory) {
    if (!one.session.end && !lines.some((line) => line.stream === one.stream)) lines.push(orphan(one));
  }
  const rank = { 'not-today': 0, 'done-today': 1, running: 2 } as const;
  return lines.sort((a, b) => rank[a.state] - rank[b.state] || (a.startedAt ?? 0) - (b.startedAt ?? 0));
}

/** What was said today stands until it is known anew; of another day it may not be true any more. */
const orElse = (head: Head | null | undefined, before: Head | null | undefined, day: string): Head | null =>
  head === undefined ? (before?.day === day ? before : null) : head;

function templateOf({ log, views }: App, stream: string, now: Instant): TodayLine['template'] {
  const day = weekDayOf(now.day);
  const found = views.templates(log, stream).find((one) => one.days.includes(day));
  return found ? { id: found.id, name: found.name } : null;
}

const namesOf = ({ log, views }: App, exercises: readonly string[]): readonly string[] =>
  exercises.flatMap((one) => views.exercise(log, one)?.name ?? []);

function orphan({ stream, session }: ClientSession): TodayLine {
  return {
    stream,
    alias: '',
    short: '–',
    state: 'running',
    session: session.id,
    sessions: 1,
    effortOpen: false,
    template: null,
    usual: null,
    work: [],
    sets: session.sets.filter((set) => set.kind !== 'warm-up').length,
    startedAt: session.start?.at ?? null,
    lastDay: null,
    date: null,
    days: null,
    since: null,
    head: null,
  };
}

/** Returns the lines of a snapshot, or undefined where there is none that this version can read. */
export function readSnapshot(text: string | undefined): readonly TodayLine[] | undefined {
  try {
    const stored: unknown = JSON.parse(text ?? '');
    const lines = stored as { version?: unknown; lines?: unknown };
    return lines.version === 4 && Array.isArray(lines.lines) ? (lines.lines as TodayLine[]) : undefined;
  } catch {
    return undefined;
  }
}

/** Returns the snapshot of the lines, for the first paint of the next start. */
export const snapshotOf = (lines: readonly TodayLine[]): string => JSON.stringify({ version: 4, lines });
