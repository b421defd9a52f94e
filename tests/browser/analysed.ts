import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect } from 'vitest';
import { type Hands, handsOn } from './hands';
import type { Phone } from './harness';

/** Returns what the command line makes of the file that the app hands out, as of a day, and hands on the app opened anew. */
export async function analysed<T>(
  phone: Phone,
  floor: Hands,
  asOf: string,
): Promise<{ readonly told: T; readonly floor: Hands }> {
  await floor.tap('saved on this phone');
  await floor.tap('Prepare the file');
  const save = floor.page.getByRole('button', { name: 'Save the file' });
  const [download] = await Promise.all([floor.page.waitForEvent('download'), save.tap()]);
  const root = join(import.meta.dirname, '../..');
  const command = [join(root, 'src/cli/analyse.ts'), await download.path(), '--as-of', asOf];
  const { stdout, stderr } = spawnSync(join(root, 'node_modules/.bin/tsx'), command, {
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  expect(stderr).toBe('');
  return { told: JSON.parse(stdout) as T, floor: handsOn(await phone.relaunch('/')) };
}
