import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { orderBetween } from '../../src/domain/order';

const BASE32 = '0123456789abcdefghjkmnpqrstvwxyz';
const tail = fc
  .array(fc.constantFrom(...BASE32), { minLength: 8, maxLength: 8 })
  .map((characters) => characters.join(''));

describe('[M11] an order between two', () => {
  test.each<[before: string | undefined, after: string | undefined]>([
    [undefined, undefined],
    [undefined, '1'],
    [undefined, '0001'],
    ['g', undefined],
    ['zzzzzzzzzz', undefined],
    ['g', 'h'],
    ['g', 'gz'],
    ['gzzzz', 'h'],
    ['g0000000', 'g0000001'],
    ['a', 'a00001'],
  ])('%j and %j lies strictly between them', (before, after) => {
    for (const end of ['00000000', 'zzzzzzzz']) {
      const order = orderBetween(before, after, end);
      if (before !== undefined) expect(order > before).toBe(true);
      if (after !== undefined) expect(order < after).toBe(true);
      expect(order.endsWith(end)).toBe(true);
    }
  });

  test('whatever is put where, all stand where they were put', async () => {
    const puts = fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), tail), { minLength: 1, maxLength: 80 });
    await fc.assert(
      fc.property(puts, (all) => {
        const list: string[] = [];
        for (const [where, end] of all) {
          const at = Math.floor(where * (list.length + 1)) % (list.length + 1);
          list.splice(at, 0, orderBetween(list[at - 1], list[at], end));
        }
        for (let n = 1; n < list.length; n += 1) expect(list[n - 1]! < list[n]!).toBe(true);
      }),
      { numRuns: 300, seed: 40_217 },
    );
  });

  test('a thousand at one place, in front, behind or in the middle, stay in order and short enough', () => {
    for (const place of [0, 1, Number.POSITIVE_INFINITY]) {
      const list = ['g00000000'];
      for (let n = 0; n < 1000; n += 1) {
        const at = Math.min(place, list.length);
        list.splice(at, 0, orderBetween(list[at - 1], list[at], 'abcdefgh'));
      }
      expect([...list].sort()).toEqual(list);
      expect(new Set(list).size).toBe(1001);
      expect(Math.max(...list.map((one) => one.length))).toBeLessThan(1500);
    }
  });

  test('two devices that put something at one place do not make one order', () => {
    expect(orderBetween('g', 'h', 'aaaaaaaa')).not.toBe(orderBetween('g', 'h', 'bbbbbbbb'));
  });

  test.each([
    ['h', 'g'],
    ['g', 'g'],
    ['g', 'g000'],
  ])('%j and %j, that nothing lies between: right after the first', (before, after) => {
    expect(orderBetween(before, after, 'abcdefgh') > before).toBe(true);
  });
});
