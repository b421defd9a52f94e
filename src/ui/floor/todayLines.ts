import type { NamedDay } from '../../domain/client';
import { daysBetween, type Instant } from '../../domain/day';
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
  /** The day the client was added: where the week line begins. */
  readonly since: string | null;
};

/** Returns today's lines from top to bottom: not today, done today, running; the running session that began last is nearest the thumb. */
export function todayLines(app: App, now: Instant): readonly TodayLine[] {
  const { log, views } = app;
  const inMemory = views.sessionsInMemory(log);
  const lines = views.clients(log).map((client): TodayLine => {
    const own = inMemory.filter((one) => one.stream === client.id);
    const running = own.find((one) => !one.session.end);
    const todays = own.find((one) => one.session.start?.day === now.day);
    const open = running ?? todays;
    const last = log.lastTimes(client.id, '', '')?.[0];
    return {
      stream: client.id,
      alias: client.alias,
      short: client.short,
      state: running ? 'running' : todays || last?.day === now.day ? 'done-today' : 'not-today',
      session: open?.session.id ?? (last?.day === now.day ? last.session : null),
      sets: open?.session.sets.filter((set) => set.kind !== 'warm-up').length ?? 0,
      startedAt: open?.session.start?.at ?? null,
      lastDay: last?.day ?? null,
      date: client.date ?? null,
      days: client.date ? daysBetween(now.day, client.date.day) : null,
      since: client.since ?? null,
    };
  });
  const rank = { 'not-today': 0, 'done-today': 1, running: 2 } as const;
  return lines.sort((a, b) => rank[a.state] - rank[b.state] || (a.startedAt ?? 0) - (b.startedAt ?? 0));
}

/** Returns the lines of a snapshot, or undefined where there is none that this version can read. */
export function readSnapshot(text: string | undefined): readonly TodayLine[] | undefined {
  try {
    const stored: unknown = JSON.parse(text ?? '');
    const lines = stored as { version?: unknown; lines?: unknown };
    return lines.version === 1 && Array.isArray(lines.lines) ? (lines.lines as TodayLine[]) : undefined;
  } catch {
    return undefined;
  }
}

/** Returns the snapshot of the lines, for the first paint of the next start. */
export const snapshotOf = (lines: readonly TodayLine[]): string => JSON.stringify({ version: 1, lines });
