import { appendFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/*
 * What a kill in the middle of a write can leave: the log file of the browser's database ends with a record of which only the head was
 * written. Such an end is read without complaint, and what the browser appends behind it makes the file corrupt for the start after that.
 */

const HEAD = 7;
const LENGTH = 192;
const WHOLE = 1;
const BLOCK = 32_768;

/** Tears the end of the database that a killed browser left in a profile, as a kill would. */
export function tearEnd(profile: string): void {
  const stores = join(profile, 'Default/IndexedDB');
  const folder = readdirSync(stores).find((name) => name.endsWith('.leveldb'));
  if (folder === undefined) throw new Error('the profile has no database');
  const file = readdirSync(join(stores, folder))
    .filter((name) => name.endsWith('.log'))
    .sort()
    .at(-1);
  if (file === undefined) throw new Error('the database has no log file');
  const head = Buffer.alloc(HEAD);
  // its checksum is of what never came
  head.writeUInt32LE(0x1234_5678, 0);
  head.writeUInt16LE(LENGTH, 4);
  head.writeUInt8(WHOLE, 6);
  const path = join(stores, folder, file);
  const left = BLOCK - (statSync(path).size % BLOCK);
  if (left < HEAD + LENGTH) appendFileSync(path, Buffer.alloc(left));
  appendFileSync(path, head);
}
