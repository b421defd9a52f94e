import { describe, expect, test } from 'vitest';
import { fnv1a128, newId, plannedSessionId } from '../../src/domain/ids';

describe('FNV-1a of 128 bits (the published vectors, from memory)', () => {
  test.each([
    ['', '6c62272e07bb014262b821756295c58d'],
    ['a', 'd228cb696f1a8caf78912b704e4a8964'],
    ['foobar', '343e1662793c64bf6f0d3597ba446f18'],
  ])('%j', (text, hash) => {
    expect(fnv1a128(text).toString(16).padStart(32, '0')).toBe(hash);
  });

  // computed apart, in another language, over the bytes its own encoder gave
  test.each([
    ['é', '088093bf9eab1be95aa0733054c70821'],
    ['€', 'a68b2a1a028b5822836dbc788ea05fdb'],
    ['😀', '6633bd7871757277b806e877951e7228'],
    ['Zoë 深蹲', '21407ce03c8a47b5ff1ca8e5db17dac1'],
    ['\u007f\u0080\u07ff\u0800\uffff\u{10000}', 'c12bb6cd1437977f46bbcb9b0caa2de9'],
  ])('%j, as its bytes in UTF-8', (text, hash) => {
    expect(fnv1a128(text).toString(16).padStart(32, '0')).toBe(hash);
  });
});

describe('[M11] the id of a planned session', () => {
  const id = plannedSessionId('k3', 't7', '2026-03-01', 1);

  test('is the same on every device and for ever', () => {
    expect(plannedSessionId('k3', 't7', '2026-03-01', 1)).toBe(id);
    // computed apart, in another language; a changed id would make two rows of one session
    expect(id).toBe('f2fsq6bckh1jge9q');
  });

  test.each([
    ['client', plannedSessionId('k4', 't7', '2026-03-01', 1)],
    ['template', plannedSessionId('k3', 't8', '2026-03-01', 1)],
    ['day', plannedSessionId('k3', 't7', '2026-03-02', 1)],
    ['n', plannedSessionId('k3', 't7', '2026-03-01', 2)],
    ['place of the letters', plannedSessionId('k3t', '7', '2026-03-01', 1)],
  ])('another %s has another id', (_, other) => {
    expect(other).not.toBe(id);
  });

  test('no two of 100,000 plans have one id', () => {
    const ids = new Set<string>();
    for (let client = 0; client < 10; client += 1) {
      for (let day = 0; day < 1000; day += 1) {
        for (let n = 1; n <= 10; n += 1) ids.add(plannedSessionId(`c${client}`, 'template', `day-${day}`, n));
      }
    }
    expect(ids.size).toBe(100_000);
  });
});

describe('a fresh id', () => {
  test('is as long as asked, of characters that are hard to misread', () => {
    const every = (count: number) => Uint8Array.from({ length: count }, (_, n) => n * 17);
    expect(newId(every, 8)).toMatch(/^[0-9a-hjkmnp-tv-z]{8}$/);
    expect(newId(every, 16)).toMatch(/^[0-9a-hjkmnp-tv-z]{16}$/);
  });

  test('uses five bits of every byte: 32 bytes that differ in them make 32 characters', () => {
    const seen = new Set(Array.from({ length: 32 }, (_, n) => newId((count) => new Uint8Array(count).fill(n), 8)));
    expect(seen.size).toBe(32);
    expect(newId((count) => new Uint8Array(count).fill(255), 8)).toBe('zzzzzzzz');
    expect(newId((count) => new Uint8Array(count).fill(32), 8)).toBe('00000000');
  });
});
