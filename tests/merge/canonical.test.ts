import { describe, expect, test } from 'vitest';
import { canonical, canonicalRow, sameValue } from '../../src/merge/canonical';

/** The number whose IEEE 754 bits are these. */
const double = (bits: string): number => Buffer.from(bits, 'hex').readDoubleBE();

describe('canonical form, RFC 8785 (its examples from memory)', () => {
  test('the example of section 3.2.2: literals, numbers, a string with escapes', () => {
    const numbers = JSON.parse('[333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001]') as number[];
    const input = { numbers, string: '\u20ac$\u000f\nA\'B"\\\\"/', literals: [null, true, false] };
    expect(canonical(input)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  test('the example of section 3.2.3: members stand by UTF-16 code units', () => {
    const input = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    // a parser moves the member "1" to the front: it is renamed, so that the order seen is the order written
    expect(Object.values(JSON.parse(canonical(input).replace('"1":', '"one":')) as object)).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  const numbers: readonly [bits: string, text: string][] = [
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ];
  test.each(numbers)('the number %s of appendix B is %s', (bits, text) => {
    expect(canonical(double(bits))).toBe(text);
  });

  test.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])(
    'the number %s of appendix B is an error',
    (bits) => {
      expect(() => canonical(double(bits))).toThrow('not a JSON number');
      expect(() => canonical({ load: [double(bits)] })).toThrow('not a JSON number');
    },
  );

  test('empty lists and objects, and a member called __proto__', () => {
    expect(canonical([[], {}, ''])).toBe('[[],{},""]');
    const parsed = JSON.parse('{"b":1,"__proto__":{"z":2,"a":1}}');
    expect(canonical(parsed)).toBe('{"__proto__":{"a":1,"z":2},"b":1}');
  });
});

test('a row has one text, whatever the order its members came in', () => {
  const held = { value: { unit: 'lb', value: 45 }, stamp: { writer: 'a', l: 1 } };
  const one = {
    id: 'r',
    kind: 'k',
    stream: 's',
    seen: { b: 2, a: 1 },
    body: { 'sets/b': [held], note: [held] },
  } as const;
  const other = {
    body: { note: [{ stamp: { l: 1, writer: 'a' }, value: { value: 45, unit: 'lb' } }], 'sets/b': [held] },
    seen: { a: 1, b: 2 },
    stream: 's',
    kind: 'k',
    id: 'r',
  } as const;
  expect(canonicalRow(one)).toBe(canonicalRow(other));
});

test('the same value is the same JSON: members in any order, lists only in theirs', () => {
  expect(sameValue({ value: 45, unit: 'lb' }, { unit: 'lb', value: 45 })).toBe(true);
  expect(sameValue([1, 2], [2, 1])).toBe(false);
  expect(sameValue([], {})).toBe(false);
  expect(sameValue(null, {})).toBe(false);
  expect(sameValue('1', 1)).toBe(false);
  expect(sameValue(null, null)).toBe(true);
});
