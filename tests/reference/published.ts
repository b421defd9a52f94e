import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Returns a published table or series of fixtures/published, with where it was published. */
export function published<Data>(name: string): Data & { readonly source: string } {
  const path = join(import.meta.dirname, '../../fixtures/published', `${name}.json`);
  return JSON.parse(readFileSync(path, 'utf8')) as Data & { readonly source: string };
}
