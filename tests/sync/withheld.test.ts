import * as fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { canonicalRow } from '../../src/merge/canonical';
import { mergeRows } from '../../src/merge/merge';
import { removing, standing } from '../../src/merge/removal';
import { type Json, type Row, valueAt } from '../../src/merge/row';
import { nextStamp } from '../../src/merge/stamp';
import { writeRow } from '../../src/merge/write';
import { withoutValues } from '../../src/sync/handover';
import {
  type Copy,
  type Deed,
  type Device,
  live,
  met,
  pathsOf,
  standingDeeds,
  steps,
  winnerOf,
  written,
} from '../laws/history';
import { REAL_SRC, roomIn } from '../laws/room';
import { anyRow, fact, facts } from '../laws/rows';
import { held, value } from './rig';

vi.setConfig({ testTimeout: 60_000 });

const room = await roomIn(REAL_SRC);
const runs = { numRuns: Number(process.env['LAWS_CASES'] ?? 2000) };
const merged = (a: Row, b: Row): Row => value(mergeRows(a, b));
/** `fc.assert` of a property that waits for nothing. */
const check = <T>(property: fc.IProperty<T>, { numRuns }: { numRuns: number } = runs): void => {
  const result = fc.check(property, { numRuns });
  if (result.failed) throw new Error(fc.defaultReportMessage(result));
};
const SECRET = ['note', 'sets/a/load', 'newer/x'] as const;
const secretOf = (bits: number) => (path: string) => SECRET.some((one, n) => one === path && (bits >> n) & 1);

describe('a copy that something was left out of', () => {
  test('[M1] is a row that has heard of less: merged into the whole one, for every row, it changes nothing', () => {
    const property = fc.property(anyRow, fc.nat(7), (row, bits) => {
      const copy = withoutValues(row, (path) =>
        ['reps', 'sets/s1/load', 'toString'].some((one, n) => one === path && (bits >> n) & 1),
      );
      expect(canonicalRow(merged(row, copy))).toBe(canonicalRow(row));
      expect(canonicalRow(merged(copy, row))).toBe(canonicalRow(row));
    });
    check(property, runs);
  });

  test('[M2] nothing that was left out is dropped when it comes back, whatever was written on it meanwhile', () => {
    const acts = fc.array(
      fc.record({ path: fc.nat(6), clock: fc.constantFrom(0, 1, 1_800_000_000_000, 1e20), remove: fc.boolean() }),
      { maxLength: 6 },
    );
    const property = fc.property(anyRow, fc.nat(7), acts, (row, bits, done) => {
      const paths = ['reps', 'sets/s1/load', 'toString'];
      const isOut = (path: string): boolean => paths.some((one, n) => one === path && ((bits >> n) & 1) === 1);
      let copy = withoutValues(row, isOut);
      for (const { path, clock, remove } of done) {
        const changes: Record<string, Json> = remove
          ? removing(copy, 'sets/s1')
          : { [[...paths, 'a', 'b', 'sets/s1/reps', 'c'][path]!]: path };
        copy = writeRow(copy, changes, nextStamp(copy, 't-1', clock, 0));
      }
      const back = facts(merged(row, copy));
      for (const [path, register] of Object.entries(row.body)) {
        if (isOut(path)) for (const one of register) expect(back).toContain(fact(path, one));
      }
      for (const one of facts(copy)) expect(back).toContain(one);
    });
    check(property, runs);
  });

  test('by the same laws, judged by what each device knew: nothing unseen is lost, every edit is shown above what it saw', () => {
    const after = fc.array(
      fc.record({
        who: fc.constantFrom('giver', 'taker'),
        deed: fc.constantFrom('write', 'write', 'remove', 'back', 'again'),
        path: fc.nat(5),
        number: fc.nat(9),
      }),
      { maxLength: 10 },
    );
    const property = fc.property(steps, fc.nat(7), after, (lived, bits, acts) => {
      const isOut = secretOf(bits);
      const [a, b] = live(room, lived).devices as [Device, Device];
      let giver: Device = { ...a, copies: [] };
      let taker: Device = { ...handed(giver, isOut), writer: 't-1', attempted: 0, copies: [] };
      for (const { who, deed, path, number } of acts) {
        const names = [...SECRET, 'sets/a/reps', 'blocks/k/name', 'constructor'];
        const device = who === 'giver' ? giver : taker;
        const next =
          deed === 'write'
            ? written(room, device, { [names[path]!]: number }, 0)
            : deed === 'remove'
              ? written(room, device, removing(device.row, 'sets/a'), 0)
              : undefined;
        if (next) [giver, taker] = who === 'giver' ? [next, taker] : [giver, next];
        else if (deed === 'back') giver = met(room, giver, taker);
        else taker = met(room, taker, handed(giver, isOut));
      }
      const all = [giver, taker, b].map(({ row }) => row) as [Row, Row, Row];
      const end = merged(merged(all[0], all[1]), all[2]);
      expect(canonicalRow(merged(all[2], merged(all[1], all[0])))).toBe(canonicalRow(end));
      const knows = new Set([...giver.knows, ...taker.knows, ...b.knows]);
      for (const path of pathsOf(knows)) {
        const standingNow = standingDeeds(knows, path);
        const shown = end.body[path] ?? [];
        for (const deed of standingNow) expect(shown).toContainEqual({ value: deed.value, stamp: deed.stamp });
        const winner = winnerOf(standingNow);
        if (winner) expect(valueAt(end, path)).toEqual(winner.value);
      }
    });
    check(property, { numRuns: Math.ceil(runs.numRuns / 2) });
  });

  /** What the giver hands over: the row without what is left out, and what whoever holds it then knows. */
  function handed(giver: Copy, isOut: (path: string) => unknown): Copy {
    const knows = new Set<Deed>([...giver.knows].filter((deed) => !isOut(deed.path)));
    return { row: withoutValues(giver.row, (path) => Boolean(isOut(path))), knows };
  }

  const whole: Row = {
    id: 's1',
    kind: 'session',
    stream: 'c1',
    seen: { 'p-1': 9, 'q-1': 4 },
    body: {
      'sets/a/reps': [held(8, 'p-1', 5)],
      'sets/a/pain': [held(6, 'p-1', { value: 5 })],
      'sets/a/at': [held(3, 'p-1', { at: 1 })],
      note: [held(9, 'q-1', 'unseen'), held(2, 'q-1', 'tired')],
    },
  };
  const copy = withoutValues(whole, (path) => path === 'note' || path === 'sets/a/pain');

  test('lacks the registers, writes no null for them, and has seen up to just below them', () => {
    expect(Object.keys(copy.body)).toEqual(['sets/a/reps', 'sets/a/at']);
    expect(copy.seen).toEqual({ 'p-1': 5, 'q-1': 1 });
    expect(withoutValues(whole, () => false)).toBe(whole);
    expect(withoutValues({ ...whole, seen: { 'q-1': 2 } }, (path) => path === 'note').seen).toEqual({ 'q-1': 1 });
    expect(
      withoutValues({ ...whole, seen: { 'q-1': 2 }, body: { note: [held(1, 'q-1', 'x')] } }, () => true).seen,
    ).toEqual({});
  });

  test('[M5] a set that the taker removes is removed at once, though the copy has not "seen" all it holds', () => {
    const removed = writeRow(copy, removing(copy, 'sets/a'), nextStamp(copy, 't-1', 0, 0));
    expect(standing(removed, 'sets/a')).toBe('removed');
    const back = merged(whole, removed);
    expect(valueAt(back, 'sets/a/pain')).toEqual({ value: 5 });
    // what the remover had never heard of stands below what he had: it is removed with the set, and stays to be brought back
    expect(standing(back, 'sets/a')).toBe('removed');
  });

  test('[M6] an edit of a value that came later in the same launch is shown, with the old one beside it', () => {
    const edited = writeRow(copy, { 'sets/a/reps': 6 }, nextStamp(copy, 't-1', 0, 0));
    const back = merged(whole, edited);
    expect(valueAt(back, 'sets/a/reps')).toBe(6);
    expect(valueAt(back, 'note')).toBe('unseen');
    const settled = writeRow(back, { 'sets/a/reps': 6 }, nextStamp(back, 'p-2', 0, 0));
    expect(merged(settled, edited).body['sets/a/reps']).toHaveLength(1);
  });

  test('[M6] where private values bear a writer of their own, an edit that comes back has nothing beside it', () => {
    const apart: Row = {
      ...whole,
      seen: { 'p-1': 8, 'p-1.n': 9 },
      body: { 'sets/a/reps': [held(8, 'p-1', 5)], note: [held(9, 'p-1.n', 'tired')], why: [held(2, 'p-1.n', 'ill')] },
    };
    const part = withoutValues(apart, (path) => path !== 'sets/a/reps');
    expect(part.seen).toEqual({ 'p-1': 8, 'p-1.n': 1 });
    const back = merged(apart, writeRow(part, { 'sets/a/reps': 6 }, nextStamp(part, 't-1', 0, 0)));
    expect(back.body['sets/a/reps']).toEqual([held(9, 't-1', 6)]);
    expect(back.body['note']).toEqual(apart.body['note']);
  });

  test('keeping `seen` as it was would erase what was left out: why it is lowered', () => {
    const naive: Row = { ...copy, seen: whole.seen };
    expect(valueAt(merged(whole, naive), 'sets/a/pain')).toBeUndefined();
  });
});
