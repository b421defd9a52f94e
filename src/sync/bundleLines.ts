import type { BundleFault, Caps } from './bundle';
import { type Bytes, joined } from './bytes';
import { gunzipStream } from './gzip';
import { faultOf, stopWith } from './stop';

/*
 * The lines of a packed text as they stream out, under limits that count while they unpack.
 */

const NEWLINE = 10;
/** A small file may well repeat itself; the ratio is judged from here on. */
const RATIO_FROM = 16 * 1024 * 1024;

export type Line = {
  /** From 1. */
  readonly n: number;
  /** Without its line break. */
  readonly bytes: Uint8Array;
};

/** Yields the lines of packed pieces; stops with a `BundleFault`. `packed` tells how many bytes were read so far. */
export async function* linesOf(
  pieces: AsyncIterable<Uint8Array>,
  caps: Caps,
  packed: () => number,
): AsyncGenerator<Line> {
  let size = 0;
  let n = 0;
  let waiting: Uint8Array[] = [];
  let waits = 0;
  try {
    for await (const piece of gunzipStream(pieces)) {
      size += piece.length;
      if (size > caps.unpacked) tooLarge('unpacked', caps);
      if (size > RATIO_FROM && size > packed() * caps.ratio) tooLarge('ratio', caps);
      let from = 0;
      for (let at = piece.indexOf(NEWLINE); at >= 0; at = piece.indexOf(NEWLINE, from)) {
        n += 1;
        if (waits + at - from > caps.line) tooLarge('line', caps);
        yield { n, bytes: waits === 0 ? piece.subarray(from, at) : joined(...waiting, piece.subarray(from, at)) };
        [waiting, waits, from] = [[], 0, at + 1];
      }
      waiting.push(piece.subarray(from));
      waits += piece.length - from;
      if (waits > caps.line) tooLarge('line', caps);
    }
  } catch (error) {
    if (faultOf(error)) throw error;
    // the age file verified every byte: what does not unpack was packed so
    return stopWith({ type: size === 0 ? 'not-gzip' : 'damaged' });
  }
  // whole lines alone: the maker ends each
  if (waits > 0) stopWith({ type: 'bad-line', line: n + 1 } satisfies BundleFault);
}

/** Returns a line with its break, as it was signed. */
export const withBreak = (bytes: Uint8Array): Bytes => joined(bytes, Uint8Array.of(NEWLINE));

function tooLarge(what: keyof Caps, caps: Caps): never {
  return stopWith({ type: 'too-large', what, most: caps[what] } satisfies BundleFault);
}
