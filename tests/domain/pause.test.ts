import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pausedMs, readPauses } from '../../src/domain/pause';
import { clockMinutes } from '../../src/domain/session';
import { instantIn, sessionOf, T } from './made';

const minute = 60_000;

describe('pauses as they are read', () => {
  test('stand by their begin; one without an end is open', () => {
    const { pauses, unread } = readPauses({
      'pauses/p2/from': instantIn(600),
      'pauses/p1/from': instantIn(60),
      'pauses/p1/to': instantIn(120),
      'pauses/p2/to': null,
      'pauses/p3/from': null,
      'pauses/p3/to': instantIn(9),
      'pauses/p4': instantIn(5),
    });
    expect(pauses).toEqual([
      { id: 'p1', from: T + minute, to: T + 2 * minute },
      { id: 'p2', from: T + 10 * minute },
    ]);
    expect(unread).toEqual([]);
  });

  test('[M9] one that two devices made end before it begins is kept and named, and counts for nothing', () => {
    const values = { 'pauses/p1/from': instantIn(120), 'pauses/p1/to': instantIn(60) };
    expect(readPauses(values)).toEqual({
      pauses: [],
      unread: [{ type: 'pause-backwards', path: 'pauses/p1' }],
    });
    expect(sessionOf(values).unread).toEqual([{ type: 'pause-backwards', path: 'pauses/p1' }]);
  });

  test.each(['from', 'to'])('[M8] a %s of a newer app is named, not passed over', (end) => {
    const values = { 'pauses/p1/from': instantIn(0), 'pauses/p1/to': instantIn(60), [`pauses/p1/${end}`]: 'noon' };
    expect(readPauses(values).unread).toEqual([{ type: 'from-a-newer-app', path: `pauses/p1/${end}`, value: 'noon' }]);
  });
});

describe('paused time', () => {
  const pause = (from: number, to?: number) => ({
    id: `p${from}`,
    from: T + from * minute,
    ...(to === undefined ? {} : { to: T + to * minute }),
  });
  const paused = (pauses: ReturnType<typeof pause>[], from = 0, to = 60) =>
    pausedMs(pauses, T + from * minute, T + to * minute) / minute;

  test.each<[what: string, pauses: ReturnType<typeof pause>[], minutes: number]>([
    ['none', [], 0],
    ['one', [pause(10, 15)], 5],
    ['two apart', [pause(10, 15), pause(20, 22)], 7],
    ['two that overlap count once', [pause(10, 20), pause(15, 25)], 15],
    ['one inside the other counts once', [pause(10, 30), pause(15, 20)], 20],
    ['one still open lasts', [pause(50)], 10],
    ['one open and one inside it', [pause(40), pause(45, 50)], 20],
    ['one that began before', [pause(-10, 5)], 5],
    ['one that ends after', [pause(55, 90)], 5],
    ['one all before, one all after', [pause(-20, -10), pause(70, 80)], 0],
    ['[M4] one that a clock set forward put in the future', [pause(500)], 0],
    ['in whatever order they are given', [pause(20, 22), pause(10, 15)], 7],
  ])('%s', (_, pauses, minutes) => {
    expect(paused(pauses)).toBe(minutes);
  });

  test('is as many minutes as any pause covers, whatever they are', async () => {
    const some = fc.array(fc.tuple(fc.integer({ min: -20, max: 80 }), fc.option(fc.nat(40), { nil: undefined })), {
      maxLength: 6,
    });
    await fc.assert(
      fc.property(some, (all) => {
        const pauses = all.map(([from, long], n) => ({
          ...pause(from, long === undefined ? undefined : from + long),
          id: `p${n}`,
        }));
        let covered = 0;
        for (let m = 0; m < 60; m += 1) {
          const at = T + (m + 0.5) * minute;
          if (pauses.some(({ from, to }) => from <= at && at < (to ?? Number.POSITIVE_INFINITY))) covered += 1;
        }
        expect(paused(pauses)).toBe(covered);
      }),
      { numRuns: 300, seed: 77 },
    );
  });

  test('is no training: an hour with 15 minutes on the telephone is 45', () => {
    const session = sessionOf({ 'pauses/p1/from': instantIn(600), 'pauses/p1/to': instantIn(1500) });
    expect(clockMinutes(session, T + 60 * minute)).toBe(45);
    expect(clockMinutes(sessionOf({ 'pauses/p1/from': instantIn(600) }), T + 60 * minute), 'still open').toBe(10);
  });

  test('the night when clocks go back is as long as it was: 01:30 to 02:30 Vienna is two hours on 25 October', () => {
    const start = { at: Date.parse('2026-10-25T01:30:00+02:00'), day: '2026-10-25', zone: 'Europe/Vienna' };
    const until = Date.parse('2026-10-25T02:30:00+01:00');
    const session = sessionOf({
      start,
      'pauses/p/from': { ...start, at: start.at + 30 * minute },
      'pauses/p/to': { ...start, at: start.at + 90 * minute },
    });
    expect(clockMinutes(session, until)).toBe(60);
  });

  test('a session begun in one zone and ended in another is as long as it was', () => {
    const start = { at: Date.parse('2026-11-24T23:30:00+01:00'), day: '2026-11-24', zone: 'Europe/Vienna' };
    expect(clockMinutes(sessionOf({ start }), Date.parse('2026-11-24T23:15:00+00:00'))).toBe(45);
  });
});
