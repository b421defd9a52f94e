import { fireEvent, render, screen, within } from '@testing-library/preact';
import { type Answers, answersOf } from '../../src/analysis/answers';
import { type ClientRecord, readStudio } from '../../src/analysis/studio';
import type { Day } from '../../src/domain/day';
import type { SessionRecord } from '../../src/domain/session';
import { DEFAULT_SETTINGS, type Settings } from '../../src/domain/settings';
import type { Analysing } from '../../src/ui/analysing';
import { type App, AppProvider } from '../../src/ui/app';
import { OtherAnswers } from '../../src/ui/people/OtherAnswers';
import { did } from '../analysis/foundIn';
import { dayIn, kg, times } from '../reference/records';

/* The card of the other answers over records made by hand. */

const { exercises } = readStudio([]);

/** Returns the answers of a client as of a day. */
export const answersFor = (client: ClientRecord, asOf: Day): Answers =>
  answersOf(client, [], { exercises, firstDay: 'mon' }, asOf);

const days = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', timeZone: 'UTC' });
/** Returns a day as this machine's language writes it. */
export const told = (day: Day): string => days.format(Date.parse(`${day}T12:00Z`));

/**
 * Opens the card on a day; `client` works the answers out, as `app.analysing()` does. Returns ways to tell that records changed (of one topic, or of all),
 * and that another day has come.
 */
export function openAnswers(client: Analysing['client'], today: Day, settings: Partial<Settings> = {}) {
  const watchers = new Map<() => void, readonly string[]>();
  let day = today;
  const app = {
    log: {
      watch: (topics: readonly string[], fn: () => void) => {
        watchers.set(fn, topics);
        return () => watchers.delete(fn);
      },
    },
    views: {
      settings: () => ({ ...DEFAULT_SETTINGS, ...settings }),
      exercise: (_log: unknown, id: string) => exercises.get(id),
      cues: () => NO_CUES,
    },
    analysing: () => Promise.resolve({ client, studio: () => Promise.resolve(undefined) }),
    world: { now: () => Date.parse(`${day}T12:00Z`), zone: () => 'UTC', random: (n: number) => new Uint8Array(n) },
  } as unknown as App;
  const view = render(
    <AppProvider value={app}>
      <OtherAnswers stream="c1" />
    </AppProvider>,
  );
  return {
    ...view,
    changed: (topic?: string) => {
      for (const [fn, topics] of watchers) if (topic === undefined || topics.includes(topic)) fn();
    },
    goTo: (other: Day) => {
      day = other;
    },
  };
}
const NO_CUES: readonly never[] = [];

const plain = (text: string | null | undefined): string =>
  (text ?? '').replaceAll('\u00a0', ' ').replace(/\s+/g, ' ').trim();

/** Returns a topic's part of the card. */
export async function topic(name: string) {
  const head = await screen.findByRole('heading', { name: new RegExp(`^${name}`), level: 3 });
  const part = head.closest('li');
  if (!part) throw new Error(`no part of ${name}`);
  const inside = within(part);
  const tap = (button: string | RegExp) => fireEvent.click(inside.getByRole('button', { name: button }));
  return {
    part,
    /** The number and the sentence. */
    says: () => plain(part.querySelector(':scope > p')?.textContent),
    number: () => plain(part.querySelector('.other-number')?.textContent),
    all: () => plain(part.textContent),
    open: () => fireEvent.click(inside.getByText('How sure')),
    tap,
    chart: () => inside.getByRole('img'),
    said: () => plain(inside.getByRole('status').textContent),
    keys: (key: string) => fireEvent.keyDown(inside.getByRole('group', { name: /arrow keys/ }), { key }),
    /** The table that is shown instead of the chart: its heads, then its lines. */
    table: () =>
      inside
        .getAllByRole('row')
        .map((row) => [...row.querySelectorAll('th, td')].map((cell) => plain(cell.textContent))),
  };
}

export const SQUAT = 'lib-front-squat';

/** Opens the card of a client on a day of the records, counted from their first. */
export const openOn = (client: ClientRecord, day: number, settings: Partial<Settings> = {}) =>
  openAnswers(() => Promise.resolve(answersFor(client, dayIn(day))), dayIn(day), settings);

/** Three sets of five squats on the Tuesday of a week: 15 × the load. */
export const squats = (week: number, load: number): SessionRecord =>
  did(dayIn(7 * week + 1), SQUAT, times(3, { load: kg(load), reps: 5, effort: { value: 2, as: 'left' } }));
