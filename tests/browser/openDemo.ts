import type { Hands } from './hands';
import { says } from './said';

/** Goes from a first start to the demo’s Today. */
export async function openDemo(floor: Hands): Promise<void> {
  await floor.tap('Load the demo');
  await says(floor.page.getByRole('main'), 'Client Fog', 'Client Gale', 'Client Puddle', 'Client Sleet');
}
