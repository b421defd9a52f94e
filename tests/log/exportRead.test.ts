import { describe, expect, test } from 'vitest';
import { exportLog } from '../../src/log/export';
import { readExport, textOf } from '../../src/log/exportRead';
import { EXPORT_FORMAT } from '../../src/merge/exportLines';
import { putInto } from './fakes/disk';
import { log, onFloor } from './floor';
import { REAL } from './room';

const head = (more: object): string => JSON.stringify({ format: EXPORT_FORMAT, rows: 1, ...more });

async function exported(): Promise<{ readonly text: string; readonly rows: number }> {
  const floor = await onFloor(REAL);
  await log(REAL, floor, '100', '5').saved;
  await putInto(floor.device.disk, 'log', 'rows', {
    stream: 'c1',
    id: 'torn',
    kind: 'cue',
    seen: [],
    body: { x: [1] },
  });
  const { blob, rows } = await floor.app.run(() => exportLog('log', floor.app.log.all(), 1));
  return { text: await blob.text(), rows };
}

async function read(text: string) {
  const rows: unknown[] = [];
  const result = await readExport(textOf(new Blob([text])), (some) => void rows.push(...some));
  return result.ok ? rows : result.error;
}

describe('reading an export', () => {
  test('gives its rows, and leaves what was no row', async () => {
    const { text, rows } = await exported();
    const found = (await read(text)) as { kind: string }[];
    expect(rows).toBe(2);
    expect(found.map(({ kind }) => kind).sort()).toEqual(['client', 'session']);
    expect(text).toContain('"unreadable"');
  });

  test('refuses it whole where it was cut, wherever that was', async () => {
    const { text } = await exported();
    for (let at = 0; at < text.length; at += 7)
      expect(await read(text.slice(0, at)), `cut at ${at}`).toHaveProperty('type');
    expect(await read(text.slice(0, -1))).toMatchObject({ type: 'truncated', says: 2 });
  });

  test('says what a file is that is none', async () => {
    expect(await read('')).toEqual({ type: 'not-an-export' });
    expect(await read('{"format":"other/1"}\n')).toEqual({ type: 'not-an-export' });
    expect(await read('{"format":"cuewright-rows/2","rows":0}\n')).toEqual({
      type: 'newer-format',
      format: 'cuewright-rows/2',
    });
    expect(await read(`${head({ log: 'cuewright-demo', rows: 0 })}\n`)).toEqual({ type: 'invented' });
    expect(await read(`${head({})}\n{"id":"a"}\n[1]\n`)).toEqual({ type: 'bad-line', line: 3 });
    expect(await read(`${head({})}\n`)).toEqual({ type: 'truncated', says: 1, has: 0 });
    expect(await read(`${head({ rows: 'two' })}\n`)).toEqual({ type: 'truncated', says: -1, has: 0 });
  });
});
