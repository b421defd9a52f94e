import { describe, expect, test } from 'vitest';
import { inHandOf } from '../../src/domain/inHand';
import { suggestionsFor } from '../../src/domain/suggest';
import { exerciseOf, instantIn, sessionOf, shipped } from './made';

const listed = (id: string, order: string) => ({ [`exercises/${id}/order`]: order });
const done = (id: string, seconds: number, exercise: string, more: Record<string, unknown> = {}) => ({
  [`sets/${id}/exercise`]: exercise,
  [`sets/${id}/kind`]: 'working',
  [`sets/${id}/at`]: instantIn(seconds),
  ...Object.fromEntries(Object.entries(more).map(([path, value]) => [`sets/${id}/${path}`, value])),
});
const cell = (station: string, round: number) => ({ in: { block: 'b', station, round } });
const BLOCK = {
  'blocks/b/kind': 'rounds',
  'blocks/b/order': 'k',
  'blocks/b/rounds': 2,
  'blocks/b/stations/s/exercise': 'lib-push-up',
  'blocks/b/stations/s/order': 'g',
  'blocks/b/stations/t/exercise': 'lib-one-arm-row',
  'blocks/b/stations/t/order': 'h',
};
/** What is in hand, as a text. */
const hand = (values: Record<string, unknown>, draft?: Parameters<typeof inHandOf>[1]): string => {
  const got = inHandOf(sessionOf(values), draft, exerciseOf);
  if (got.type === 'cell') return `${got.cell.station.id}${got.cell.round}${got.side?.[0] ?? ''} ${got.exercise}`;
  return got.type === 'exercise' ? got.exercise : got.type === 'block' ? `block ${got.block.id}` : got.type;
};

describe('what the pad has in hand', () => {
  test('before the first set, what the list begins with', () => {
    expect(hand({})).toBe('nothing');
    expect(hand({ ...listed('lib-deadlift', 'h'), ...listed('lib-back-squat', 'g') })).toBe('lib-back-squat');
    expect(hand({ ...listed('lib-deadlift', 'm'), ...BLOCK })).toBe('s1 lib-push-up');
  });

  test('not what is skipped, swapped or counted over the session', () => {
    const list = { ...listed('lib-back-squat', 'g'), ...listed('lib-deadlift', 'h') };
    for (const [name, value] of [
      ['skipped', { why: '' }],
      ['swappedFor', { exercise: 'lib-front-squat' }],
      ['tally', 30],
    ] as const) {
      expect(hand({ ...list, [`exercises/lib-back-squat/${name}`]: value })).toBe('lib-deadlift');
    }
    expect(hand({ ...listed('lib-deadlift', 'm'), ...BLOCK, 'blocks/b/skipped': { why: '' } })).toBe('lib-deadlift');
  });

  test('the exercise of the last set, but not of one added to a count', () => {
    const squat = done('a', 60, 'lib-back-squat');
    expect(hand({ ...listed('lib-deadlift', 'g'), ...squat })).toBe('lib-back-squat');
    expect(hand({ ...squat, ...done('b', 90, 'lib-push-up', { tally: true }) })).toBe('lib-back-squat');
  });

  test('in a block, the next cell and side; behind it, what the list has next', () => {
    const first = { ...BLOCK, ...listed('lib-deadlift', 'm'), ...done('a', 60, 'lib-push-up', cell('s', 1)) };
    expect(hand(first)).toBe('t1l lib-one-arm-row');
    const left = { ...first, ...done('c', 90, 'lib-one-arm-row', { ...cell('t', 1), side: 'left' }) };
    expect(hand(left)).toBe('t1r lib-one-arm-row');
    const round = { ...left, ...done('d', 120, 'lib-one-arm-row', { ...cell('t', 1), side: 'right' }) };
    expect(hand(round)).toBe('s2 lib-push-up');
    expect(hand({ ...round, 'blocks/b/rounds': 1 })).toBe('lib-deadlift');
    expect(hand({ ...round, 'blocks/b/rounds': 1, 'exercises/lib-deadlift/order': null })).toBe('block b');
  });

  test('[M5] of a block that is gone, its exercise', () => {
    expect(hand(done('a', 60, 'lib-push-up', cell('s', 1)))).toBe('lib-push-up');
  });

  test('what was taken in hand since, whatever the last set was', () => {
    const values = { ...BLOCK, ...done('a', 60, 'lib-back-squat') };
    expect(hand(values, { exercise: 'lib-deadlift' })).toBe('lib-deadlift');
    const at = { block: 'b', station: 't', round: 2 };
    expect(hand(values, { exercise: 'lib-one-arm-row', in: at, side: 'right' })).toBe('t2r lib-one-arm-row');
    expect(hand(values, { exercise: 'lib-one-arm-row', in: at })).toBe('t2l lib-one-arm-row');
    // swapped on another device while it was in hand
    expect(hand(values, { exercise: 'lib-pull-up', in: at })).toBe('t2l lib-one-arm-row');
    expect(hand(values, { exercise: 'lib-pull-up', in: { ...at, block: 'gone' } })).toBe('lib-pull-up');
  });

  test('a mobility block is one tick, with stations or without', () => {
    const mobility = { 'blocks/m/kind': 'mobility', 'blocks/m/order': 'a' };
    expect(hand({ ...mobility, ...listed('lib-deadlift', 'm') })).toBe('block m');
    expect(hand({ ...mobility, 'blocks/m/stations/s/exercise': 'lib-hip-flow' })).toBe('block m');
    expect(hand({ ...mobility, 'blocks/m/done': instantIn(9), ...listed('lib-deadlift', 'm') })).toBe('lib-deadlift');
  });
});

describe('what may take an exercise’s place', () => {
  const all = ['lib-back-squat', 'lib-front-squat', 'lib-goblet-squat', 'lib-deadlift', 'lib-split-squat'].map(shipped);
  const names = (isOpen: (id: string) => boolean, most = 9) =>
    suggestionsFor(shipped('lib-back-squat'), all, isOpen, most).map(({ id }) => id);

  test('is the easier step first, then others of its pattern', () => {
    expect(names(() => true)).toEqual(['lib-goblet-squat', 'lib-front-squat', 'lib-split-squat']);
    expect(names(() => true, 2)).toEqual(['lib-goblet-squat', 'lib-front-squat']);
  });

  test('is nothing that is closed, and never the exercise itself', () => {
    expect(names((id) => id !== 'lib-goblet-squat')).toEqual(['lib-front-squat', 'lib-split-squat']);
    expect(names(() => false)).toEqual([]);
  });

  test('of an exercise without a pattern, nothing is guessed', () => {
    const { pattern: _, easier: __, ...bare } = shipped('lib-back-squat');
    expect(suggestionsFor(bare, all, () => true, 9)).toEqual([]);
  });
});
