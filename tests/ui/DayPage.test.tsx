import { cleanup, fireEvent, render, screen, within } from '@testing-library/preact';
import { afterEach, expect, test } from 'vitest';
import type { OtherWork } from '../../src/domain/otherWork';
import type { WorkFields } from '../../src/log/workActs';
import { type App, AppProvider } from '../../src/ui/app';
import { DayPage } from '../../src/ui/floor/DayPage';

const NOW = Date.parse('2026-11-24T12:00Z');

afterEach(cleanup);

/** Opens a client's day over a log that keeps what is noted in a list. */
function open(noted: OtherWork[] = []) {
  const asked: WorkFields[] = [];
  const watchers = new Set<() => void>();
  const tell = () => watchers.forEach((fn) => void fn());
  // the page reads the log in these few ways alone
  const app = {
    log: {
      ready: Promise.resolve(),
      loadResults: () => Promise.resolve(),
      lastTimes: () => [],
      status: () => ({ phase: 'open', seat: 'writer' }),
      watch: (_topics: readonly string[], fn: () => void) => {
        watchers.add(fn);
        return () => watchers.delete(fn);
      },
    },
    acts: {
      noteOtherWork: (_log: unknown, _stream: string, fields: WorkFields) => {
        asked.push(fields);
        noted.push({ id: `w${noted.length}`, work: fields.work, day: fields.day, notedAt: NOW });
        tell();
        return { ok: true, value: { id: 'w', saved: Promise.resolve({ ok: true }) } };
      },
      removeOtherWork: (_log: unknown, _stream: string, id: string) => {
        const at = noted.findIndex((one) => one.id === id);
        noted.splice(at, 1);
        tell();
      },
    },
    views: {
      client: () => ({ alias: 'Client K', short: 'K' }),
      otherWork: () => [...noted],
      sessionsInMemory: () => [],
      templates: () => [],
    },
    world: { now: () => NOW, zone: () => 'UTC', random: (count: number) => new Uint8Array(count) },
  } as unknown as App;
  render(
    <AppProvider value={app}>
      <DayPage stream="client" />
    </AppProvider>,
  );
  const card = screen.getByRole('region', { name: 'other work' });
  return { asked, card: within(card) };
}

const tap = (card: ReturnType<typeof within>, name: string | RegExp): void => {
  fireEvent.click(card.getByRole('button', { name }));
};

test('a rest day needs its chip and one tap more; nothing asks for hours or effort, and its line tells of none', async () => {
  const { asked, card } = open();
  tap(card, 'rest day');
  expect(card.queryByRole('group', { name: 'hours' })).toBeNull();
  expect(card.queryByRole('group', { name: 'effort of the other work' })).toBeNull();
  tap(card, 'Keep the rest day');
  expect(asked).toEqual([{ work: 'rest day', day: '2026-11-24', hours: null, effort: null }]);
  const line = await card.findByRole('listitem');
  // how a day is written depends on where one is
  expect(line.textContent).toMatch(/^(24 Nov|Nov 24): rest dayremove$/);
  expect(card.queryByRole('button', { name: 'Keep the rest day' })).toBeNull();
  tap(card, /^remove rest day of /);
  await expect.poll(() => card.queryAllByRole('listitem').length).toBe(0);
});

test('for another day, and with hours that were chosen before it was one', () => {
  const { asked, card } = open();
  tap(card, 'rehearsal');
  tap(card, '3 hours');
  tap(card, 'rest day');
  fireEvent.input(card.getByLabelText('Day'), { target: { value: '2026-11-22' } });
  tap(card, 'Keep the rest day');
  expect(asked).toMatchObject([{ work: 'rest day', day: '2026-11-22' }]);
});

test('other work tells its hours and effort as before', () => {
  const kept = { id: 'w', work: 'rehearsal', day: '2026-11-23', hours: 3, effort: 6, notedAt: NOW } as const;
  const { card } = open([kept, { id: 'v', work: 'travel', day: '2026-11-22', notedAt: NOW }]);
  const lines = card.getAllByRole('listitem').map((one) => one.textContent?.replace(/^.*: /, ''));
  expect(lines).toEqual(['rehearsal, 3 h, effort 6remove', 'travel, effort not notedremove']);
});
