import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EXPORT_FORMAT, type ExportFault, readExport } from '../../src/merge/exportLines';

/* How an export's text is read as it comes in pieces, which nothing else decides. */

const head = (rows: unknown, more: object = {}): string =>
  `${JSON.stringify({ format: EXPORT_FORMAT, rows, ...more })}\n`;
const lines = (count: number): string =>
  Array.from({ length: count }, (_, n) => `${JSON.stringify({ id: `r${n}`, note: 'über — 日本' })}\n`).join('');

async function* inPieces(pieces: readonly string[]): AsyncGenerator<string> {
  for (const piece of pieces) yield piece;
}

type Read = {
  readonly rows: readonly unknown[];
  readonly batches: readonly number[];
  readonly said: number | ExportFault;
};
async function read(pieces: readonly string[], more: Parameters<typeof readExport>[2] = {}): Promise<Read> {
  const rows: unknown[] = [];
  const batches: number[] = [];
  const result = await readExport(
    inPieces(pieces),
    (some) => {
      batches.push(some.length);
      rows.push(...some);
    },
    more,
  );
  return { rows, batches, said: result.ok ? result.value : result.error };
}

describe('an export in pieces', () => {
  test('is the same wherever they are cut', () =>
    fc.assert(
      fc.asyncProperty(fc.nat(12), fc.array(fc.nat(2000), { maxLength: 8 }), async (count, cuts) => {
        const text = head(count) + lines(count);
        const at = [0, ...cuts.map((cut) => cut % text.length).sort((a, b) => a - b), text.length];
        const pieces = at.slice(1).map((to, n) => text.slice(at[n], to));
        expect(await read(pieces)).toEqual(await read([text]));
        expect((await read(pieces)).said).toBe(count);
      }),
      { numRuns: 100 },
    ));

  test('is handed on 500 rows at a time, in their order', async () => {
    const { rows, batches, said } = await read([head(1201), lines(1201)]);
    expect([batches, said]).toEqual([[500, 500, 201], 1201]);
    expect(rows.map((row) => (row as { id: string }).id)).toEqual(Array.from({ length: 1201 }, (_, n) => `r${n}`));
    expect((await read([head(1000), lines(1000)])).batches).toEqual([500, 500]);
    expect(await read([head(0)])).toEqual({ rows: [], batches: [], said: 0 });
  });

  test('that holds more rows than it says is refused, and so is a line without its end', async () => {
    expect((await read([head(2), lines(3)])).said).toEqual({ type: 'truncated', says: 2, has: 3 });
    expect((await read([head(3), lines(3).trimEnd()])).said).toEqual({ type: 'truncated', says: 3, has: 2 });
    // the first line alone, cut off before its end: nothing is known to be missing but the break
    expect((await read([head(0).trimEnd()])).said).toEqual({ type: 'truncated', says: 0, has: 0 });
  });

  test('what could not be read when it was written is passed over and does not count', async () => {
    const text = `${head(2)}${lines(1)}{"unreadable":{"x":1}}\n{"id":"z"}\n`;
    expect(await read([text])).toMatchObject({ said: 2, rows: [{ id: 'r0' }, { id: 'z' }] });
  });

  test('an empty line, a number and broken JSON are no rows: it says which line', async () => {
    for (const line of ['', '7', 'null', '"row"', '{"id":'])
      expect((await read([`${head(2)}${lines(1)}${line}\n`])).said, line).toEqual({ type: 'bad-line', line: 3 });
  });

  test('what begins otherwise is no export: no text, a row, a list, another format', async () => {
    for (const text of ['\n', lines(1), '[]\n', 'hello\n', '{"format":7}\n', '{"format":"cuewright-bundle/1"}\n'])
      expect((await read([text])).said, text).toEqual({ type: 'not-an-export' });
  });

  test('the log that is not wanted is refused before a row is handed on; another is read', async () => {
    const text = head(600, { log: 'cuewright-demo' }) + lines(600);
    expect(await read([text], { notOf: 'cuewright-demo' })).toEqual({
      rows: [],
      batches: [],
      said: { type: 'invented' },
    });
    expect((await read([text], { notOf: 'cuewright' })).said).toBe(600);
    expect((await read([text])).said).toBe(600);
  });

  test('that is called off stops after the rows it has handed on', async () => {
    const { batches, said } = await read([head(1200), lines(1200)], { signal: { aborted: true } });
    expect([batches, said]).toEqual([[500], { type: 'cancelled' }]);
  });

  test('a line that never ends is not taken into memory whole', async () => {
    let handed = 0;
    async function* endless(): AsyncGenerator<string> {
      yield head(1);
      for (;;) {
        handed += 1;
        yield 'x'.repeat(1024 * 1024);
      }
    }
    const result = await readExport(endless(), () => undefined);
    expect(result).toEqual({ ok: false, error: { type: 'bad-line', line: 2 } });
    expect(handed).toBeLessThan(40);
  });
});
