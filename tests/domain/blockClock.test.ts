import { describe, expect, test } from 'vitest';
import { blockClock } from '../../src/domain/blockClock';
import { block, instantIn, T } from './made';

const at = (read: ReturnType<typeof block>, seconds: number, pauses: Parameters<typeof blockClock>[1] = []) =>
  blockClock(read, pauses, T + seconds * 1000);
const two = { s1: 'lib-push-up', s2: 'lib-side-plank' };

describe('the clock of a block', () => {
  test.each(['rounds', 'list', 'mobility'])('%s has none', (kind) => {
    expect(at(block({ kind, rounds: 3, reps: [21, 15, 9], started: instantIn(0) }), 5)).toEqual({ phase: 'none' });
  });

  test('not started, it tells how long it will be', () => {
    expect(at(block({ kind: 'every', rounds: 10, every: 60 }), 5)).toEqual({ phase: 'not-started', seconds: 600 });
    expect(at(block({ kind: 'most', cap: 720 }), 5)).toEqual({ phase: 'not-started', seconds: 720 });
    // 3 rounds × 2 stations × (40 + 20), without the rest behind the last
    expect(at(block({ kind: 'timed', rounds: 3, work: 40, off: 20 }, two), 5)).toEqual({
      phase: 'not-started',
      seconds: 340,
    });
  });

  test('every minute: the round of now and what is left of it', () => {
    const emom = block({ kind: 'every', rounds: 10, every: 60, started: instantIn(0) });
    expect(at(emom, 0)).toEqual({ phase: 'work', left: 60, round: 1, station: 0 });
    expect(at(emom, 59.2)).toMatchObject({ left: 1, round: 1 });
    expect(at(emom, 60)).toMatchObject({ left: 60, round: 2 });
    expect(at(emom, 579)).toMatchObject({ left: 21, round: 10 });
    expect(at(emom, 600)).toEqual({ phase: 'over', gone: 600 });
    expect(at(emom, 86_400)).toEqual({ phase: 'over', gone: 600 });
  });

  test('work and rest in turn, station by station, and no rest at the end', () => {
    const timed = block({ kind: 'timed', rounds: 2, work: 40, off: 20, started: instantIn(0) }, two);
    expect(at(timed, 39)).toEqual({ phase: 'work', left: 1, round: 1, station: 1 });
    expect(at(timed, 40)).toEqual({ phase: 'rest', left: 20, round: 1, station: 1 });
    expect(at(timed, 60)).toEqual({ phase: 'work', left: 40, round: 1, station: 2 });
    expect(at(timed, 120)).toEqual({ phase: 'work', left: 40, round: 2, station: 1 });
    expect(at(timed, 219)).toEqual({ phase: 'work', left: 1, round: 2, station: 2 });
    expect(at(timed, 220)).toEqual({ phase: 'over', gone: 220 });
  });

  test('work without rest between goes from station to station', () => {
    const timed = block({ kind: 'timed', rounds: 1, work: 30, off: 0, started: instantIn(0) }, two);
    expect(at(timed, 30)).toEqual({ phase: 'work', left: 30, round: 1, station: 2 });
    expect(at(timed, 60)).toEqual({ phase: 'over', gone: 60 });
  });

  test('a skipped station takes no time', () => {
    const timed = block(
      { kind: 'timed', rounds: 2, work: 40, off: 20, 'stations/s2/skipped': { why: '' }, started: instantIn(0) },
      two,
    );
    expect(at(timed, 60)).toMatchObject({ phase: 'work', round: 2, station: 1 });
    expect(at(timed, 100)).toEqual({ phase: 'over', gone: 100 });
  });

  test('what was paused does not count, and it stands still while a pause is open', () => {
    const emom = block({ kind: 'every', rounds: 10, every: 60, started: instantIn(0) });
    const closed = { id: 'p', from: T + 30_000, to: T + 90_000 };
    expect(at(emom, 100, [closed])).toMatchObject({ left: 20, round: 1 });
    const open = { id: 'p', from: T + 30_000 };
    for (const seconds of [30, 45, 4000]) expect(at(emom, seconds, [open])).toMatchObject({ left: 30, round: 1 });
    // one from before the start takes nothing off
    expect(at(emom, 10, [{ id: 'p', from: T - 600_000, to: T }])).toMatchObject({ left: 50, round: 1 });
  });

  test('stopped, it is over with what had gone', () => {
    const most = { kind: 'most', cap: 600, started: instantIn(0) };
    expect(at(block({ ...most, stopped: instantIn(431.7) }), 900)).toEqual({ phase: 'over', gone: 431 });
    expect(at(block({ ...most, stopped: instantIn(900) }), 1000)).toEqual({ phase: 'over', gone: 600 });
    expect(at(block({ ...most, stopped: null }), 431)).toMatchObject({ phase: 'work', left: 169 });
  });

  test('[M4] set back, it shows the first interval whole; set forward, the end; stopped before it began, nothing gone', () => {
    const emom = { kind: 'every', rounds: 10, every: 60, started: instantIn(0) };
    expect(at(block(emom), -3600)).toEqual({ phase: 'work', left: 60, round: 1, station: 0 });
    expect(at(block(emom), 10 * 365 * 86_400)).toMatchObject({ phase: 'over' });
    expect(at(block({ ...emom, stopped: instantIn(-60) }), 5)).toEqual({ phase: 'over', gone: 0 });
  });

  test('the hour that clocks go back or a flight takes changes nothing', () => {
    const started = { at: Date.parse('2026-10-25T02:55:00+02:00'), day: '2026-10-25', zone: 'Europe/Vienna' };
    const most = block({ kind: 'most', cap: 1200, started });
    // five minutes before the hour is told twice, and five minutes into its second telling
    const now = Date.parse('2026-10-25T02:05:00+01:00');
    expect(blockClock(most, [], now)).toEqual({ phase: 'work', left: 600, round: 0, station: 0 });
    expect(blockClock(most, [], Date.parse('2026-10-25T01:05:00Z'))).toEqual(blockClock(most, [], now));
  });
});
