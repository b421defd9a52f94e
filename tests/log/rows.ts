import * as fc from 'fast-check';
import { canonical } from '../../src/merge/canonical';
import { registerOf } from '../../src/merge/merge';
import type { Json, Register, Row } from '../../src/merge/row';

/*
 * Rows as any app or bad luck may have left them within the door's bounds: names that look like an object's own, writers that `seen` lacks,
 * values of any JSON, several beside each other.
 */

const WRITERS = ['a-1', 'b-22222222', 'constructor', '7', 'toString'] as const;
const PATHS = ['start', 'sets/s1/load', 'sets/s1/effort', 'constructor', 'toString/valueOf', 'x.y/z-1', '0'] as const;

const value = fc
  .jsonValue({ maxDepth: 4 })
  .filter((one) => !JSON.stringify(one).includes('__proto__')) as fc.Arbitrary<Json>;
const l = fc.oneof(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 2 ** 52 }));
const held = fc.record({ value, stamp: fc.record({ l, writer: fc.constantFrom(...WRITERS) }) });
const body = fc.array(fc.tuple(fc.constantFrom(...PATHS), fc.array(held, { minLength: 1, maxLength: 3 })), {
  maxLength: 8,
});
const seen = fc.array(fc.tuple(fc.constantFrom(...WRITERS, 'never-wrote'), l), { maxLength: 5 });
const id = fc.constantFrom('r1', 'Zz.9-_', '0123456789abcdefghjkmn', 'constructor');
const kind = fc.constantFrom('client', 'session', 'result', 'orbit');

/** Any row that may lie in a store. */
export const anyRow: fc.Arbitrary<Row> = fc.record({ id, stream: id, kind, seen, body }).map((raw) => ({
  ...raw,
  seen: Object.fromEntries(raw.seen),
  body: Object.fromEntries(
    raw.body.flatMap(([path, values]): [string, Register][] => {
      // -0 is no JSON
      const register = registerOf(values.map((one) => JSON.parse(canonical(one as unknown as Json)) as typeof one));
      return register ? [[path, register]] : [];
    }),
  ),
}));
