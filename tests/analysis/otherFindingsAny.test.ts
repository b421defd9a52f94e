import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TOPICS } from '../../src/analysis/otherFindings';
import { knownBy } from '../../src/analysis/studio';
import { SHIPPED_CUES } from '../../src/domain/cues';
import type { SessionRecord } from '../../src/domain/session';
import type { CueUse, SetRecord } from '../../src/domain/set';
import { anyHistory, dayIn, expectFinite, forAny, inPounds, mirrored, rounded } from '../reference/records';
import { clientWith, foundOf, mass, worked } from './foundIn';

/* What holds for any records: within 60 days, of exercises of every kind, with pain, cues and faults. */

const EXERCISES = [
  'lib-front-squat',
  'lib-pull-up',
  'lib-split-squat',
  'lib-farmer-carry',
  'lib-plank',
  'lib-hop-and-hold',
  'lib-staff-strike',
  'lib-upper-back-rotation',
];
const AS_OF = dayIn(63);

/** What was seen in sets besides: pain at a place, a cue and its answer, a fault. */
const seen = fc.record({
  pain: fc.constantFrom(undefined, undefined, undefined, 0, 1, 3, 6),
  place: fc.constantFrom(undefined, 'knee', 'Knee '),
  rising: fc.boolean(),
  cue: fc.constantFrom(undefined, undefined, ...SHIPPED_CUES.slice(0, 3).map(({ id }) => id)),
  answer: fc.constantFrom(undefined, 'better' as const, 'same' as const, 'worse' as const),
  fault: fc.constantFrom(undefined, undefined, 'lib-heel-up', 'lib-knee-in'),
  gone: fc.boolean(),
  // as a trainer logs it: a load, reps and what is left, and nothing of another kind
  isUsual: fc.boolean(),
});
type Seen = typeof seen extends fc.Arbitrary<infer T> ? T : never;

function withSeen(set: SetRecord, { pain, place, rising, cue, answer, fault, gone, isUsual }: Seen): SetRecord {
  const uses: CueUse[] = cue ? [{ id: 'u', cue, ...(answer ? { answer } : {}) }] : [];
  return {
    ...(isUsual && LIFTS.includes(set.exercise ?? '') ? usual(set) : set),
    cues: uses,
    faults: fault ? [{ id: fault, gone }] : [],
    ...(pain === undefined ? {} : { pain: { value: pain, rising, ...(place ? { place } : {}) } }),
  };
}

const LIFTS = ['lib-front-squat', 'lib-pull-up', 'lib-split-squat'];

function usual({ load, added, reps = 0, side, effort, kind, id, exercise, at, parts, marks, unread }: SetRecord) {
  const told = Object.entries({ load, added, side, effort, kind, exercise, at }).filter(([, one]) => one !== undefined);
  return { ...Object.fromEntries(told), id, parts, marks, unread, reps: (reps % 10) + 1, cues: [], faults: [] };
}

const histories: fc.Arbitrary<readonly SessionRecord[]> = fc
  .tuple(anyHistory(...EXERCISES), fc.array(seen, { minLength: 1, maxLength: 17 }))
  .map(([sessions, all]) => {
    let n = 0;
    return sessions.map((session) => ({
      ...session,
      sets: session.sets.map((one) => {
        n += 1;
        return withSeen(one, all[n % all.length] as Seen);
      }),
    }));
  });

const MASSES = [mass(70, dayIn(0)), mass(72, dayIn(20))];
const WORK = [worked(dayIn(57), 'rehearsal', { hours: 2, effort: 4 }), worked(dayIn(58), 'rest day')];
const client = (sessions: readonly SessionRecord[]) =>
  clientWith(sessions, { masses: MASSES, otherWork: WORK, level: 'beginner' });
const found = (sessions: readonly SessionRecord[], asOf = AS_OF) => foundOf(client(sessions), asOf);

/** Returns an answer with left for right, its lists in an order of their own. */
function turned(answer: unknown): unknown {
  if (answer === 'left') return 'right';
  if (answer === 'right') return 'left';
  if (Array.isArray(answer)) return answer.map(turned);
  if (typeof answer !== 'object' || answer === null) return answer;
  return Object.fromEntries(Object.entries(answer).map(([name, value]) => [turned(name), turned(value)]));
}
function inAnyOrder(answer: unknown): unknown {
  if (typeof answer !== 'object' || answer === null) return answer;
  if (Array.isArray(answer)) return answer.map((one) => JSON.stringify(inAnyOrder(one))).sort();
  return Object.fromEntries(
    Object.entries(answer)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, value]) => [name, inAnyOrder(value)]),
  );
}

/** A busy machine takes its time over them. */
const TIME = 60_000;

describe('for any records', { timeout: TIME }, () => {
  test('every number is one, nothing is undefined, and every finding has its day, evidence, and next act', () => {
    forAny(histories, (sessions) => {
      const all = found(sessions);
      expectFinite(all);
      expect(JSON.parse(JSON.stringify(all))).toStrictEqual(all);
      const ids = new Set(sessions.map(({ id }) => id));
      for (const one of all) {
        expect(TOPICS).toContain(one.topic);
        expect(one.next.type).not.toBe('');
        expect(one.day <= AS_OF).toBe(true);
        expect(one.evidence.every((id) => ids.has(id))).toBe(true);
        // a week of other work alone has no session
        if (one.topic !== 'load') expect(one.evidence.length).toBeGreaterThan(0);
        const { certainty = 0.5 } = one;
        expect(certainty >= 0 && certainty <= 1).toBe(true);
        if (one.type === 'too-few' && 'has' in one) expect(one.has).toBeLessThan(one.needs);
        if ('count' in one.next) expect(one.next.count).toBeGreaterThan(0);
      }
    });
  });

  test('the order in which sessions are read does not matter', () => {
    forAny(
      histories.chain((some) =>
        fc.tuple(fc.constant(some), fc.shuffledSubarray([...some], { minLength: some.length })),
      ),
      ([sessions, shuffled]) => {
        expect(found(shuffled)).toEqual(found(sessions));
      },
      80,
    );
  });

  test('pounds and feet say the same as kilograms and metres', () => {
    forAny(histories, (sessions) => {
      expect(rounded(found(inPounds(sessions)))).toEqual(rounded(found(sessions)));
    });
  });

  test('what is said of the left is said of the right, where left is right', () => {
    forAny(histories, (sessions) => {
      expect(inAnyOrder(rounded(turned(found(mirrored(sessions)))))).toEqual(inAnyOrder(rounded(found(sessions))));
    });
  });

  test('nothing after the day is used', () => {
    forAny(
      fc.tuple(histories, fc.integer({ min: 0, max: 62 })),
      ([sessions, at]) => {
        const day = dayIn(at);
        const whole = client(sessions);
        const then = clientWith(
          sessions.filter(({ start }) => start !== undefined && start.day <= day),
          {
            masses: MASSES.filter((one) => one.day <= day),
            otherWork: WORK.filter((one) => one.day <= day),
            level: 'beginner',
          },
        );
        expect(foundOf(knownBy(whole, day), day)).toEqual(foundOf(then, day));
      },
      80,
    );
  });

  test('no word of a diagnosis, a risk or a ban is in what is found', () => {
    forAny(
      histories,
      (sessions) => {
        expect(JSON.stringify(found(sessions))).not.toMatch(/injur|risk|diagnos|forbid|fatigue|overtrain|ratio"/);
      },
      40,
    );
  });
});

test('the random records are worth something: every topic is found of, with enough and with too few', {
  timeout: TIME,
}, () => {
  const told = new Map<string, Set<string>>();
  for (const sessions of fc.sample(histories, { numRuns: 400, seed: 3 })) {
    for (const { topic, type } of found(sessions)) told.set(topic, (told.get(topic) ?? new Set()).add(type));
  }
  expect([...told.keys()].sort()).toEqual([...TOPICS].sort());
  expect(told.get('pain')).toEqual(new Set(['again', 'running', 'noted', 'once']));
  for (const type of ['above', 'within', 'below', 'too-few', 'good'])
    expect(told.get('landings'), type).toContain(type);
  for (const type of ['too-few', 'partly-known', 'stale-mass']) expect(told.get('tonnage'), type).toContain(type);
  for (const type of ['days-unknown', 'least']) expect(told.get('load'), type).toContain(type);
});
