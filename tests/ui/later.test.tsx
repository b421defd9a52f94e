import { render } from 'preact';
import { afterEach, expect, test, vi } from 'vitest';
import { type App, AppProvider } from '../../src/ui/app';
import { later, loadAll, loadBefore } from '../../src/ui/parts/later';

const root = document.createElement('div');
const Part = ({ said }: { said: string }) => <p>{said}</p>;
afterEach(() => render(null, root));

test('what came between its drawing and the look whether it is there is drawn all the same', async () => {
  const Late = later(async () => Part);
  render(<Late said="there" />, root);
  expect(root.textContent).toBe('');
  // loaded by what loads everything, before the drawing is over
  await loadAll();
  await expect.poll(() => root.textContent).toBe('there');
});

test('what did not load says so in its place, tells that it is lost, and is tried again at a tap', async () => {
  const lost = vi.fn(async () => undefined);
  loadBefore(async () => undefined, lost);
  const load = vi.fn(async () => Part);
  // the first time, and once more after the screen said so
  load.mockRejectedValueOnce(new Error('no network')).mockRejectedValueOnce(new Error('no network'));
  const Late = later(load);
  const app = { update: { state: () => 'current', watch: () => () => undefined } } as unknown as App;
  render(
    <AppProvider value={app}>
      <Late said="one" />
    </AppProvider>,
    root,
  );
  await expect.poll(() => root.textContent).toContain('could not be loaded. What was logged is kept.');
  await expect.poll(() => lost.mock.calls.length).toBe(2);
  root.querySelector('button')?.click();
  await expect.poll(() => root.textContent).toBe('one');
  expect(load).toHaveBeenCalledTimes(3);
});
