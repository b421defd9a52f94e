import { render } from 'preact';
import { afterEach, expect, test, vi } from 'vitest';
import { later, loadAll } from '../../src/ui/parts/later';

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

test('what did not load is tried again at the next drawing', async () => {
  const load = vi.fn(async () => Part);
  load.mockRejectedValueOnce(new Error('no network'));
  const Late = later(load);
  render(<Late said="one" />, root);
  await expect.poll(() => load.mock.calls.length).toBe(1);
  expect(root.textContent).toBe('');
  render(<Late said="two" />, root);
  await expect.poll(() => root.textContent).toBe('two');
  expect(load).toHaveBeenCalledTimes(2);
});
