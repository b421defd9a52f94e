import type { Row } from '../../src/merge/row';
import { ageSealed, openAge, sourceOf } from '../../src/sync/age';
import { type BundleFault, CAPS, type Caps } from '../../src/sync/bundle';
import { utf8 } from '../../src/sync/bytes';
import { gunzipStream, gzipStream } from '../../src/sync/gzip';
import { openBundle, type Reading } from '../../src/sync/openBundle';
import { EASY, fault, PHRASE, seeded, value } from './rig';

/** Opens and reads a bundle; everything it brought is in `taken`. */
export async function read(file: Blob | Uint8Array, reading: Reading = {}, phrase = PHRASE, caps: Caps = CAPS) {
  const open = await openBundle(file, phrase, {}, caps);
  if (!open.ok) return open;
  const taken: Row[] = [];
  const result = await open.value.read((batch) => void taken.push(...batch), reading);
  return result.ok ? { ok: true as const, value: { ...result.value, taken, header: open.value.header } } : result;
}
export const refusal = async (...given: Parameters<typeof read>): Promise<BundleFault> => fault(await read(...given));

/** A bundle of any text at all: what someone may make who knows the format and the phrase. */
export async function crafted(text: string | Uint8Array, packed = true): Promise<Blob> {
  async function* once() {
    yield typeof text === 'string' ? utf8(text) : text;
  }
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for await (const part of ageSealed(packed ? gzipStream(once()) : once(), PHRASE, seeded(52), EASY)) parts.push(part);
  return new Blob(parts);
}
export const head = {
  format: 'cuewright-bundle/1',
  app: '9',
  at: 1,
  id: 'b1',
  vault: 'v1',
  device: { id: 'd1', name: '' },
  sender: '',
  what: 'clients',
  streams: [],
  signer: { by: 'nobody' },
};
export const lines = (...parts: unknown[]): string => parts.map((part) => `${JSON.stringify(part)}\n`).join('');

/** The text inside a bundle. */
export async function textIn(file: Blob): Promise<string> {
  const open = value(await openAge(sourceOf(file), PHRASE));
  const parts: Uint8Array[] = [];
  for await (const part of gunzipStream(open(undefined, () => undefined))) parts.push(part);
  return Buffer.concat(parts).toString();
}
