import { describe, expect, test, vi } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import { type BundleFault, CAPS } from '../../src/sync/bundle';
import { makeBundle } from '../../src/sync/makeBundle';
import { openBundle } from '../../src/sync/openBundle';
import { crafted, head, lines, read, refusal } from './bundleRig';
import { fault, order, PHRASE, session, value, vaultWith, world } from './rig';

vi.setConfig({ testTimeout: 60_000 });

const { vault } = await vaultWith(50, 'c1');

describe('what someone may make who knows the format', () => {
  const end = { end: { rows: 0 } };
  test.each([
    ['no gzip', 'plain text', false, { type: 'not-gzip' }],
    ['an empty text', '', true, { type: 'not-a-bundle' }],
    ['a text without lines', 'x', true, { type: 'bad-line', line: 1 }],
    ['another format', lines({ format: 'cuewright-rows/1' }), true, { type: 'not-a-bundle' }],
    [
      'a newer format',
      lines({ format: 'cuewright-bundle/2' }),
      true,
      { type: 'newer-format', format: 'cuewright-bundle/2' },
    ],
    ['half a header', lines({ format: 'cuewright-bundle/1' }), true, { type: 'not-a-bundle' }],
    ['no end', lines(head), true, { type: 'truncated' }],
    ['a wrong count', lines(head, { end: { rows: 2 } }), true, { type: 'wrong-count', says: 2, has: 0 }],
    ['rows behind the end', lines(head, end, session('c1', 's')), true, { type: 'bad-line', line: 3 }],
    ['no JSON', `${lines(head)}{"id":\n`, true, { type: 'bad-line', line: 2 }],
    [
      'no UTF-8',
      Buffer.concat([Buffer.from(lines(head)), Buffer.of(0x22, 0xff, 0x22, 10)]),
      true,
      { type: 'bad-line', line: 2 },
    ],
    ['a list a million deep', `${lines(head)}${'['.repeat(1e6)}\n`, true, { type: 'bad-line', line: 2 }],
  ])('%s', async (_, text, packed, expected) => {
    expect(await refusal(await crafted(text, packed))).toEqual(expected);
  });

  test('rows that the door refuses are told one by one, and the others come', async () => {
    const hostile = [
      { ...session('c1', 's1'), more: 1 },
      { ...session('c1', 's1'), id: '../../etc/x' },
      { ...session('c1', 's1'), body: { '__proto__/x': [] } },
      [1],
      { deep: JSON.parse(`${'['.repeat(2000)}${']'.repeat(2000)}`) },
    ];
    const named = { ...head, streams: [{ stream: 'c1', name: '<b>\u202eNAME\u0000"', withheld: [] }] };
    const good = session('c1', 's2');
    const got = value(await read(await crafted(lines(named, ...hostile, good, { end: { rows: 6 } }))));
    expect(got.taken.map(canonicalRow)).toEqual([canonicalRow(good)]);
    expect(got.refused.map(({ line, why }) => [line, why.type])).toEqual([
      [2, 'not-a-row'],
      [3, 'not-a-row'],
      [4, 'bad-path'],
      [5, 'not-a-row'],
      [6, 'not-a-row'],
    ]);
    expect(got.header.streams[0]?.name).toBe('<b>\u202eNAME\u0000"');
  });

  test('a zip bomb is dropped early, by whichever limit comes first', async () => {
    const bomb = await crafted(new Uint8Array(64 * 1024 * 1024).fill(32));
    expect(bomb.size).toBeLessThan(100_000);
    expect(await refusal(bomb)).toEqual({ type: 'too-large', what: 'ratio', most: CAPS.ratio });
    const small = { ...CAPS, unpacked: 1_000_000 };
    expect(await refusal(bomb, {}, PHRASE, small)).toEqual({ type: 'too-large', what: 'unpacked', most: 1_000_000 });
    const line = { ...CAPS, line: 5000 };
    expect(await refusal(bomb, {}, PHRASE, line)).toEqual({ type: 'too-large', what: 'line', most: 5000 });
    expect(await refusal(bomb, {}, PHRASE, { ...CAPS, file: 5000 })).toEqual({
      type: 'too-large',
      what: 'file',
      most: 5000,
    });
    const three = await crafted(lines(head, ...[1, 2, 3].map((n) => session('c1', `s${n}`)), { end: { rows: 3 } }));
    expect(await refusal(three, {}, PHRASE, { ...CAPS, rows: 2 })).toEqual({
      type: 'too-large',
      what: 'rows',
      most: 2,
    });
  });

  test('it is cancelled while it is read and while it is made, and what fails in taking rows is not passed over', async () => {
    const many = Array.from({ length: 1200 }, (_, n) => session('c1', `s${n}`, 5));
    const { file } = value(await makeBundle(many, order(vault, ['c1']), world(63)));
    const stop = new AbortController();
    const open = value(await openBundle(file, PHRASE));
    let taken = 0;
    const stopped: BundleFault = fault(
      await open.read(
        (batch) => {
          taken += batch.length;
          stop.abort();
        },
        { signal: stop.signal },
      ),
    );
    expect(stopped).toEqual({ type: 'cancelled' });
    expect(taken).toBeLessThan(1200);
    const making = new AbortController();
    making.abort();
    expect(fault(await makeBundle(many, order(vault, ['c1']), world(64), { signal: making.signal })).type).toBe(
      'cancelled',
    );
    const midway = new AbortController();
    function* stopping() {
      for (const [n, row] of many.entries()) {
        if (n === 1190) midway.abort();
        yield row;
      }
    }
    const cut = await makeBundle(stopping(), order(vault, ['c1']), world(66), { signal: midway.signal });
    expect(fault(cut).type).toBe('cancelled');
    const failing: Promise<unknown> = open.read(() => Promise.reject(new Error('the disk is full')));
    await expect(failing).rejects.toThrow('the disk is full');
  });
});
