import * as fc from 'fast-check';
import type { Json, Row } from '../../src/merge/row';
import { CLOCKS, live, steps } from './history';
import { type Law, law, must } from './law';
import type { MergeRoom } from './room';
import { anyRow, covered, fact, facts, isAbove } from './rows';

/** Laws M1, M2, M6: what merging keeps, drops and orders. */
export const mergeLaws: readonly Law[] = [
  law('M1', 'Merge is commutative, for every row', [anyRow, anyRow], (room, a, b) => {
    same(room, merged(room, a, b), merged(room, b, a));
  }),
  law('M1', 'Merge is associative, for every row', [anyRow, anyRow, anyRow], (room, a, b, c) => {
    same(room, merged(room, merged(room, a, b), c), merged(room, a, merged(room, b, c)));
  }),
  law('M1', 'Merge is idempotent, for every row', [anyRow, anyRow], (room, a, b) => {
    same(room, merged(room, a, a), a);
    same(room, merged(room, a, copyOf(a)), a);
    const both = merged(room, a, b);
    same(room, merged(room, both, b), both);
    same(room, merged(room, both, copyOf(a)), both);
  }),
  law(
    'M1',
    'Merge is by one function that knows no kinds: it merges any kind, and never two identities',
    [anyRow, anyRow, fc.constantFrom('session', 'jump', 'constructor'), fc.constantFrom('id', 'kind', 'stream')],
    (room, a, b, kind, differs) => {
      same(room, { ...merged(room, { ...a, kind }, { ...b, kind }), kind: a.kind }, merged(room, a, b));
      const refused = room.mergeRows(a, { ...b, [differs]: 'another' });
      must(!refused.ok && refused.error.differs === differs, `two rows of another ${differs} were merged`);
    },
  ),
  law('M1', 'Devices that merged the same copies hold the same, whatever the order', [steps], (room, lived) => {
    const [a, b, c] = live(room, lived).devices.map(({ row }) => row) as [Row, Row, Row];
    const once = merged(room, merged(room, a, b), c);
    for (const [x, y, z] of [[c, b, a] as const, [b, c, a] as const, [a, c, b] as const]) {
      same(room, merged(room, merged(room, x, y), z), once);
      same(room, merged(room, x, merged(room, y, z)), once);
      same(room, merged(room, merged(room, x, y), merged(room, y, z)), once);
    }
    for (const row of [a, b, c]) same(room, merged(room, once, row), once);
  }),
  law(
    'M2',
    "A value is dropped in a merge only if the other row's `seen` covers its stamp and the other row no longer holds it (the same path, stamp and value)",
    [anyRow, anyRow],
    (room, a, b) => {
      const after = facts(merged(room, a, b));
      for (const [mine, other] of [[a, b] as const, [b, a] as const]) {
        const held = facts(other);
        for (const [path, register] of Object.entries(mine.body)) {
          for (const one of register) {
            if (after.has(fact(path, one))) continue;
            must(covered(other, one.stamp), `dropped, though never seen: ${fact(path, one)}`);
            must(!held.has(fact(path, one)), `dropped, though both hold it: ${fact(path, one)}`);
          }
        }
      }
    },
  ),
  law('M2', 'A value that the other row has seen and no longer holds is dropped', [anyRow, anyRow], (room, a, b) => {
    const after = facts(merged(room, a, b));
    for (const [mine, other] of [[a, b] as const, [b, a] as const]) {
      const held = facts(other);
      for (const [path, register] of Object.entries(mine.body)) {
        for (const one of register) {
          const letGo = covered(other, one.stamp) && !held.has(fact(path, one));
          must(!(letGo && after.has(fact(path, one))), `came back: ${fact(path, one)}`);
        }
      }
    }
  }),
  law('M2', 'A merge holds nothing that neither row held', [anyRow, anyRow], (room, a, b) => {
    const before = new Set([...facts(a), ...facts(b)]);
    for (const one of facts(merged(room, a, b))) must(before.has(one), `out of nowhere: ${one}`);
  }),
  law('M2', '`seen` merges by maximum', [anyRow, anyRow], (room, a, b) => {
    const after = new Map(Object.entries(merged(room, a, b).seen));
    const [ofA, ofB] = [new Map(Object.entries(a.seen)), new Map(Object.entries(b.seen))];
    for (const writer of new Set([...ofA.keys(), ...ofB.keys(), ...after.keys()])) {
      const [inA, inB, both] = [ofA.get(writer) ?? 0, ofB.get(writer) ?? 0, after.get(writer)];
      must(both === inA || both === inB, `${writer}: ${both} is of neither`);
      must(both! >= inA && both! >= inB, `${writer}: ${both} is below ${inA} or ${inB}`);
    }
  }),
  law(
    'M6',
    'Values written without seeing each other are all kept, sorted by stamp, equal ones too, and shown beside the winner until a write settles them',
    [fc.array(fc.tuple(fc.nat(3), fc.constantFrom(...CLOCKS)), { minLength: 2, maxLength: 5 }), fc.nat(119)],
    (room, writes, order) => {
      const values: readonly Json[] = [5, { unit: 'lb', value: 45 }, { value: 45, unit: 'lb' }, null];
      const start = written(room, base(room), 'd', { note: 'before' }, 1);
      const apart = writes.map(([value, clock], index) =>
        written(room, start, `w${index}`, { reps: values[value]! }, clock),
      );
      const all = shuffled(apart, order).reduce((one, other) => merged(room, one, other));
      const register = all.body['reps'] ?? [];
      must(register.length === writes.length, `${writes.length} wrote apart and ${register.length} are kept`);
      for (const [index, held] of register.slice(1).entries()) {
        must(isAbove(register[index]!.stamp, held.stamp), 'the values do not stand in the order of their stamps');
      }
      const texts = new Set(writes.map(([value]) => (value === 2 ? 1 : value)));
      must(room.beside(all, 'reps').length === texts.size - 1, 'beside the winner stands each other value once');
      must(room.beside(all, 'note').length === 0, 'beside a value that nobody disputes stands nothing');
      const settled = written(room, all, 'z', { reps: 9 }, 0);
      for (const before of [...apart, all]) {
        const after = merged(room, settled, before);
        must(after.body['reps']?.length === 1 && room.valueAt(after, 'reps') === 9, 'a write did not settle them');
      }
    },
  ),
];

/** Returns the merge of two rows that must merge. */
export function merged(room: MergeRoom, a: Row, b: Row): Row {
  const result = room.mergeRows(a, b);
  must(result.ok, 'rows of one identity were not merged');
  return result.value;
}

/** Returns the row after a launch of its own wrote. */
export function written(
  room: MergeRoom,
  row: Row,
  writer: string,
  changes: Readonly<Record<string, Json>>,
  clock: number,
): Row {
  return room.writeRow(row, changes, room.nextStamp(row, writer, clock, 0));
}

export const base = (room: MergeRoom): Row => room.emptyRow({ id: 'r1', kind: 'session', stream: 'c1' });

export function same(room: MergeRoom, a: Row, b: Row): void {
  const [one, other] = [room.canonicalRow(a), room.canonicalRow(b)];
  must(one === other, () => `not the same:\n${one}\n${other}`);
}

const copyOf = (row: Row): Row => JSON.parse(JSON.stringify(row)) as Row;

/** Returns the `order`-th arrangement. */
function shuffled<T>(items: readonly T[], order: number): T[] {
  const left = [...items];
  const arranged: T[] = [];
  let rest = order;
  while (left.length > 0) {
    arranged.push(...left.splice(rest % left.length, 1));
    rest = Math.floor(rest / (left.length + 1));
  }
  return arranged;
}
