import { act, cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { route } from '../../src/ui/routes';
import { FRONT_SQUAT, lift, sessionOn } from '../analysis/made';
import { type Call, openWeek, TODAY } from './weekApp';
import { ASH, BIRCH, client, ZED } from './weekClients';

/* The studio's week over made-up clients. What must be read off it is written down by hand. */

// how wide the screen is, before anything asks
const screenIs = vi.hoisted(() => {
  const state = { wide: true };
  globalThis.matchMedia = ((query: string) => ({
    get matches() {
      return query.includes('1000px') && state.wide;
    },
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  })) as unknown as typeof matchMedia;
  return state;
});

beforeEach(() => {
  screenIs.wide = true;
  history.replaceState(null, '');
});
afterEach(cleanup);

async function called(calls: readonly Call[], n = 0): Promise<Call> {
  await waitFor(() => expect(calls.length).toBeGreaterThan(n));
  const call = calls[n];
  if (!call) throw new Error('nothing was asked');
  return call;
}
async function answered(calls: readonly Call[], streams: readonly string[], n = 0): Promise<Call> {
  const call = await called(calls, n);
  await act(async () => {
    for (const stream of streams) call.answer(stream);
    call.end();
    // what hangs on it comes a turn later
    await new Promise((turn) => setTimeout(turn, 0));
  });
  return call;
}

const plain = (text: string | null | undefined): string => (text ?? '').replaceAll('\u00a0', ' ');
const names = (): readonly (string | null)[] =>
  screen.getAllByRole('button', { name: /^Client / }).map((one) => one.textContent);
const row = (alias: string): HTMLElement => {
  const found = screen.getByRole('button', { name: alias }).closest('tr');
  if (!found) throw new Error(`no row of ${alias}`);
  return found;
};
const cells = (alias: string): readonly string[] =>
  within(row(alias))
    .getAllByRole('cell')
    .map((one) => plain(one.textContent));

describe('as it is worked out', () => {
  test('each client is there as soon as it is told, and the page says how far it is', async () => {
    const { calls } = openWeek([ZED, BIRCH, ASH]);
    expect(screen.getByRole('status').textContent).toBe('Looked through: 0 of 3 clients');
    const call = await called(calls);
    expect(call.asOf).toBe(TODAY);
    await act(async () => call.answer('a'));
    expect(screen.getByRole('status').textContent).toBe('Looked through: 1 of 3 clients');
    expect(names()).toEqual(['Client Ash']);
    await act(async () => call.answer('z'));
    expect(names()).toEqual(['Client Zed', 'Client Ash']);
    await act(async () => {
      call.answer('b');
      call.end();
    });
    expect(screen.getByRole('status').textContent).toBe('Looked through: all 3 clients.');
    // a lift that is flat, landings above the range, nothing
    expect(names()).toEqual(['Client Zed', 'Client Birch', 'Client Ash']);
  });

  test('whoever is in hand stays in place: who comes later comes behind', async () => {
    const { calls } = openWeek([ZED, BIRCH, ASH]);
    const call = await called(calls);
    await act(async () => call.answer('a'));
    fireEvent.pointerDown(screen.getByRole('button', { name: 'Client Ash' }));
    await act(async () => {
      call.answer('b');
      call.answer('z');
      call.end();
    });
    expect(names()[0]).toBe('Client Ash');
    expect(names()).toHaveLength(3);
  });

  test('by name where nobody needs more than another', async () => {
    const { calls } = openWeek([client('2', 'Client M'), client('1', 'Client N'), client('3', 'Client L')]);
    await answered(calls, ['1', '2', '3']);
    expect(names()).toEqual(['Client L', 'Client M', 'Client N']);
    expect(screen.getAllByText('Too little noted yet to say anything.')).toHaveLength(3);
  });

  test('one that could not be worked out says so; where nothing could be read the page does', async () => {
    const { calls, unmount } = openWeek([ASH, BIRCH]);
    await answered(calls, ['a']);
    expect(row('Client Birch').textContent).toContain('This client could not be worked out. What was logged is safe.');
    unmount();
    const again = openWeek([ASH]);
    const call = await called(again.calls);
    call.end('unread');
    await waitFor(() => expect(screen.getByRole('status').textContent).toMatch(/^The week could not be worked out\./));
  });

  test('after a change it is asked anew, and what was there stays until then; leaving calls it off', async () => {
    const { calls, tell, unmount } = openWeek([ASH]);
    await answered(calls, ['a']);
    await act(async () => tell('kind:otherWork'));
    const second = await called(calls, 1);
    expect(names()).toEqual(['Client Ash']);
    await act(async () => tell('kind:result'));
    const third = await called(calls, 2);
    expect(second.signal?.aborted).toBe(true);
    await act(async () => tell('kind:exercise'));
    const fourth = await called(calls, 3);
    expect(third.signal?.aborted).toBe(true);
    unmount();
    await waitFor(() => expect(fourth.signal?.aborted).toBe(true));
  });
});

describe('the table', () => {
  test('has a head for each day, today marked in words; a day nothing is noted of is not called rest', async () => {
    const { calls } = openWeek([ZED, BIRCH, ASH]);
    await answered(calls, ['a', 'b', 'z']);
    const heads = screen.getAllByRole('columnheader').map((one) => plain(one.textContent));
    expect(heads).toHaveLength(10);
    expect(heads[0]).toBe('Client');
    expect(heads.slice(1, 8).map((one) => one.slice(0, 3))).toEqual(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']);
    expect(heads[4]).toBe('Thu today');
    expect(heads.slice(8)).toEqual(['Landings', 'What needs doing']);
    expect(screen.getByRole('columnheader', { name: 'Thu today' }).getAttribute('aria-current')).toBe('date');

    expect(cells('Client Ash').slice(0, 8)).toEqual([
      'rest day',
      'cancelled',
      'rehearsal, 3 h, effort not noted',
      'nothing yet',
      'yet to come',
      'yet to come',
      'yet to come',
      'none noted',
    ]);
    const head = plain(within(row('Client Ash')).getByRole('rowheader').textContent);
    expect(head).toContain('10 days to fitting');
    expect(head).toContain('No session this week, other work once, 1 rest day');
    expect(cells('Client Zed').slice(0, 4)).toEqual([
      'not logged',
      '3 sets, 50 min, effort 7',
      'not logged',
      'nothing yet',
    ]);
  });

  test('says who needs what, how sure that is and what to do; landings against the range of one session', async () => {
    const { calls } = openWeek([ZED, BIRCH, ASH]);
    await answered(calls, ['a', 'b', 'z']);
    const zed = plain(row('Client Zed').textContent);
    expect(zed).toMatch(/Heads-up\. Front squat: flat since .*Sure: about \d+ in \d+\..*judge again on/);
    // 26 November to 20 December, and to 1 March
    expect(zed).toContain('24 days to Front squat 110 kg × 5');
    expect(zed).toContain('95 days to opening');
    expect(zed).toContain('1 session');
    expect(cells('Client Birch')[0]).toBe('2 sets, end and effort not noted');
    expect(cells('Client Birch')[7]).toBe('Mon 110, 10 above the rangerange 80–100 a session');
    expect(cells('Client Birch')[8]).toMatch(/^Heads-up\. Landings: /);
    expect(cells('Client Ash')[8]).not.toContain('Heads-up');
  });

  test('axe finds nothing wrong with it, nor with the cards', async () => {
    for (const wide of [true, false]) {
      screenIs.wide = wide;
      const { calls, container, unmount } = openWeek([ZED, BIRCH, ASH]);
      await answered(calls, ['a', 'b', 'z']);
      expect(container.querySelectorAll('table')).toHaveLength(wide ? 1 : 0);
      const { violations, passes } = await axe.run(container, { rules: { 'color-contrast': { enabled: false } } });
      expect(violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`)).toEqual([]);
      expect(passes.length).toBeGreaterThan(5);
      unmount();
    }
  });

  test('the week begins where the settings have it', async () => {
    const sessions = ['2026-11-20', '2026-11-21', '2026-11-24'].map((day) =>
      sessionOn(day, FRONT_SQUAT, [lift(80, 5)]),
    );
    const { calls } = openWeek([client('n', 'Client N', { sessions })], 'sat');
    await answered(calls, ['n']);
    const heads = screen.getAllByRole('columnheader').map((one) => plain(one.textContent).slice(0, 3));
    expect(heads.slice(1, 8)).toEqual(['Sat', 'Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri']);
    // that of Friday the 20th was the week before
    expect(plain(within(row('Client N')).getByRole('rowheader').textContent)).toMatch(/2 sessions$/);
  });
});

describe('earlier weeks', () => {
  test('are as of their last day, told so; later ones lead back to today and never beyond', async () => {
    const { calls } = openWeek([ZED, ASH]);
    const first = await answered(calls, ['z', 'a']);
    const later = screen.getByRole<HTMLButtonElement>('button', { name: 'Later week ›' });
    expect(later.disabled).toBe(true);
    fireEvent.click(screen.getByRole('button', { name: '‹ Earlier week' }));
    const call = await answered(calls, ['z', 'a'], 1);
    expect(first.signal?.aborted).toBe(true);
    expect(call.asOf).toBe('2026-11-22');
    expect(screen.getByText(/^As of Sun .*nothing that was noted of later days is used\.$/)).toBeTruthy();
    expect(screen.queryByRole('columnheader', { name: /today/ })).toBeNull();
    expect(cells('Client Ash')).not.toContain('cancelled');
    // 22 November to 20 December
    expect(plain(row('Client Zed').textContent)).toContain('28 days to Front squat 110 kg × 5');
    fireEvent.click(later);
    expect((await called(calls, 2)).asOf).toBe(TODAY);
    expect(later.disabled).toBe(true);
  });

  test('a lift that is flat today was still growing eight weeks ago', async () => {
    const { calls } = openWeek([ZED]);
    await answered(calls, ['z']);
    expect(plain(row('Client Zed').textContent)).toContain('flat since');
    for (let n = 1; n <= 8; n += 1) fireEvent.click(screen.getByRole('button', { name: '‹ Earlier week' }));
    await waitFor(() => expect(calls.at(-1)?.asOf).toBe('2026-10-04'));
    await answered(calls, ['z'], calls.length - 1);
    expect(plain(row('Client Zed').textContent)).not.toContain('flat');
    expect(plain(row('Client Zed').textContent)).not.toContain('Too little');
  });
});

describe('on a phone', () => {
  beforeEach(() => {
    screenIs.wide = false;
  });

  test('a card a client: days with something, the others named as not logged; the name opens the client', async () => {
    const { calls } = openWeek([ASH, ZED]);
    await answered(calls, ['a', 'z']);
    expect(screen.queryByRole('table')).toBeNull();
    const card = screen.getByRole('button', { name: 'Client Ash' }).closest('.card');
    const said = plain(card?.textContent);
    expect(said).toContain('10 days to fitting');
    expect(said).toMatch(/Mon .*rest day.*Tue .*cancelled.*Wed .*rehearsal, 3 h, effort not noted/);
    expect(said).not.toContain('Not logged');
    const zed = plain(screen.getByRole('button', { name: 'Client Zed' }).closest('.card')?.textContent);
    // today is not over, and what is ahead is not logged yet
    expect(zed).toContain('Not logged: Mon, Wed.');
    fireEvent.click(screen.getByRole('button', { name: 'Client Ash' }));
    expect(route.value).toEqual({ page: 'client', stream: 'a' });
  });
});

test('with no client it says so, and what to do', () => {
  openWeek([]);
  expect(screen.getByText('No client yet. Add one, and the week of each is here.')).toBeTruthy();
  expect(screen.queryByRole('table')).toBeNull();
  fireEvent.click(screen.getByRole('button', { name: '+ client' }));
  expect(route.value).toEqual({ page: 'client', stream: null });
});
