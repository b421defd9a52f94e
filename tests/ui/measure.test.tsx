import { describe, expect, test } from 'vitest';
import { exposureOf } from '../../src/domain/exposure';
import { charted, measureOf } from '../../src/domain/measure';
import { readSession, type SessionRecord } from '../../src/domain/session';
import { frameOf, visitsOf, within } from '../../src/ui/charts/visits';
import { kg, lb, on, shipped } from './exposures';

/** Returns a session of sets of one exercise, read from the registers a row would hold. */
function sessionOf(exercise: string, sets: readonly Record<string, unknown>[]): SessionRecord {
  const start = { at: Date.parse('2026-11-18T10:00Z'), day: '2026-11-18', zone: 'UTC' };
  const values = Object.fromEntries(
    sets.flatMap((set, index) =>
      Object.entries({ exercise, at: start, kind: 'working', ...set }).map(([name, value]) => [
        `sets/s${index}/${name}`,
        value,
      ]),
    ),
  );
  const session = readSession('one', [{ id: 'one', values: { start, ...values } }]);
  if (!session) throw new Error('no session was read');
  return session;
}

describe('what stands for a session', () => {
  test('an assisted set counts where the help is a number, and not where it is a hand', () => {
    const pull = shipped('pull-up');
    const helped = exposureOf(sessionOf(pull.id, [{ kind: 'assisted', assist: kg(20), reps: 6 }]), pull.id);
    expect(helped?.tops).toEqual([{ assist: kg(20), reps: 6 }]);
    expect(helped && charted(helped.tops[0]!, measureOf(pull, [helped]), 'kg')).toBe(-20);
    expect(exposureOf(sessionOf(pull.id, [{ kind: 'assisted', reps: 6 }]), pull.id)).toBeUndefined();
  });

  test('landings are summed over the session, those that were judged apart', () => {
    const hop = shipped('hop-and-hold');
    const sets = [
      { side: 'left', landings: 5, good: 4 },
      { side: 'left', landings: 5, good: 3 },
      { side: 'left', landings: 4 },
    ];
    expect(exposureOf(sessionOf(hop.id, sets), hop.id)?.tops).toEqual([
      { side: 'left', landings: 14, good: 7, of: 10 },
    ]);
  });

  test('two uses of one cue in a set are two, so that no answer is one too many', () => {
    const squat = shipped('front-squat');
    const use = { cue: 'c', answer: 'better' };
    const made = exposureOf(sessionOf(squat.id, [{ load: kg(50), reps: 5, 'cues/a': use, 'cues/b': use }]), squat.id);
    expect(made?.cues).toMatchObject([{ given: 2, better: 2 }]);
  });

  test('a band that helps is no number, and neither is a pin without one', () => {
    const pull = shipped('pull-up');
    const times = [on('2026-11-01', [{ band: 'green', reps: 5 }]), on('2026-11-08', [{ added: kg(5), reps: 5 }])];
    expect(measureOf(pull, times)).toBe('added');
    expect(times.map((one) => charted(one.tops[0]!, 'added', 'kg'))).toEqual([undefined, 5]);
    const cable = shipped('kneeling-cable-pull');
    expect(measureOf(cable, [on('2026-11-01', [{ pin: '7' }]), on('2026-11-08', [{ pin: 'Infinity' }])])).toBe('reps');
    expect(measureOf(cable, [on('2026-11-01', [{ pin: ' ' }])])).toBe('reps');
  });

  test('a lift that was never loaded is charted by its reps', () => {
    const squat = shipped('front-squat');
    expect(measureOf(squat, [on('2026-11-01', [{ reps: 12 }])])).toBe('reps');
    expect(measureOf(squat, [on('2026-11-01', [{ reps: 12 }]), on('2026-11-08', [{ load: kg(20), reps: 8 }])])).toBe(
      'load',
    );
  });
});

describe('visits', () => {
  test('loads are told in the unit that was used last: 100 lb is 45.359237 kg', () => {
    const squat = shipped('front-squat');
    const times = [on('2026-11-01', [{ load: lb(100), reps: 5 }]), on('2026-11-08', [{ load: kg(50), reps: 5 }])];
    const frame = frameOf(squat, times);
    expect(frame).toEqual({ measure: 'load', unit: 'kg' });
    const held = visitsOf(times, frame).map((visit) => visit.held[0]);
    expect(held.map((one) => one?.converted)).toEqual([true, false]);
    expect(held[0]?.value).toBeCloseTo(45.359237, 6);
    expect(held[1]?.value).toBe(50);
  });

  test('days are the order, also after a flight over the date line; a day that does not exist is that of its instant', () => {
    const at = Date.parse('2026-11-08T10:00Z');
    const times = [
      on('2026-11-09', [], { session: 'before the flight', at }),
      on('2026-11-08', [], { session: 'after it', at: at + 3_600_000 }),
      on('2026-02-30', [], { session: 'no such day', at: at + 86_400_000 }),
    ];
    const visits = visitsOf(times, { measure: 'load', unit: 'kg' });
    expect(visits.map(({ session, day }) => [session, day])).toEqual([
      ['after it', '2026-11-08'],
      ['before the flight', '2026-11-09'],
      ['no such day', '2026-11-09'],
    ]);
  });

  test('eight weeks are 56 days back from today, or from the last session after a clock was set back', () => {
    const times = ['2026-01-01', '2026-09-29', '2026-09-30', '2026-11-20'].map((day) => on(day, []));
    const days = (span: 'weeks' | 'months' | 'all', today: string) => within(times, span, today).map((one) => one.day);
    expect(days('weeks', '2026-11-25')).toEqual(['2026-09-30', '2026-11-20']);
    expect(days('months', '2026-11-25')).toEqual(['2026-09-29', '2026-09-30', '2026-11-20']);
    expect(days('all', '2026-11-25')).toHaveLength(4);
    expect(days('weeks', '2020-01-01')).toEqual(['2026-09-29', '2026-09-30', '2026-11-20']);
    expect(days('weeks', '2027-11-25')).toEqual([]);
  });
});
