import { type Bytes, joined, owned } from './bytes';

/*
 * gzip by the platform. Unpacking counts while it streams: a small file can unpack to anything, and is dropped at the limit.
 */

/** A little in at a time: what a piece unpacks to (a thousandfold at most) is handed on before the next goes in. */
const PIECE = 4096;

/** Returns the bytes packed. */
export async function gzip(bytes: Uint8Array): Promise<Bytes> {
  const packed: Uint8Array[] = [];
  for await (const piece of through(once(bytes), new CompressionStream('gzip'))) packed.push(piece);
  return joined(...packed);
}

/** Packs a stream of pieces; yields the packed pieces. */
export const gzipStream = (pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Bytes> =>
  through(pieces, new CompressionStream('gzip'));

/** Unpacks a stream of pieces; yields the unpacked pieces, and throws where they are no gzip. */
export const gunzipStream = (pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Bytes> =>
  through(small(pieces), new DecompressionStream('gzip'));

/** Returns the bytes unpacked; `too-large` above `most` bytes, `not-gzip` where they are none. */
export async function gunzip(bytes: Uint8Array, most: number): Promise<Bytes | 'too-large' | 'not-gzip'> {
  const unpacked: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const piece of gunzipStream(once(bytes))) {
      size += piece.length;
      if (size > most) return 'too-large';
      unpacked.push(piece);
    }
  } catch {
    return 'not-gzip';
  }
  return joined(...unpacked);
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

async function* small(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for await (const piece of pieces) {
    for (let at = 0; at < piece.length; at += PIECE) yield piece.subarray(at, at + PIECE);
  }
}

/** Feeds pieces to a transform as fast as what comes out is taken, and stops both where either ends. */
async function* through(
  pieces: AsyncIterable<Uint8Array>,
  transform: { readonly readable: ReadableStream<Uint8Array>; readonly writable: WritableStream<BufferSource> },
): AsyncGenerator<Bytes> {
  const writer = transform.writable.getWriter();
  const reader = transform.readable.getReader();
  const feeding = feed(pieces, writer);
  // told below, once what came out before is taken
  feeding.catch(() => undefined);
  let whole = false;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      yield owned(value);
    }
    await feeding;
    whole = true;
  } catch (error) {
    // the source's own failure tells more than that of the stream it broke
    await feeding;
    throw error;
  } finally {
    if (!whole) {
      await reader.cancel().catch(() => undefined);
      await writer.abort().catch(() => undefined);
    }
  }
}

async function feed(
  pieces: AsyncIterable<Uint8Array>,
  writer: WritableStreamDefaultWriter<BufferSource>,
): Promise<void> {
  try {
    for await (const piece of pieces) {
      await writer.ready;
      await writer.write(owned(piece));
    }
    await writer.close();
  } catch (error) {
    await writer.abort(error).catch(() => undefined);
    throw error;
  }
}
