import { describe, expect, test } from 'vitest';
import { bodyShare, systemLoad } from '../../src/domain/bodyShare';
import { cueParts, FOCUSES, faultsIn, SHIPPED_CUES } from '../../src/domain/cues';
import { PATTERNS } from '../../src/domain/exercise';
import { SHIPPED_EXERCISES, SHIPPED_FAULTS } from '../../src/domain/library';
import { AREAS, musclesOf } from '../../src/domain/muscles';
import { parseSetUp, setUpTexts } from '../../src/domain/setUp';

const byId = new Map(SHIPPED_EXERCISES.map((one) => [one.id, one]));
const unique = (values: readonly string[]) => new Set(values.map((one) => one.toLowerCase())).size === values.length;

/** Ids that rows of the first versions name. */
const FIRST_IDS =
  'front-squat back-squat goblet-squat box-squat deadlift romanian-deadlift bench-press overhead-press dumbbell-press one-arm-row split-squat pull-up inverted-row push-up incline-push-up single-leg-squat calf-raise kneeling-cable-pull band-pull-apart dead-hang side-plank farmer-carry suitcase-carry box-jump drop-landing hop-and-hold ball-throw straight-punch shoulder-roll ankle-range shoulder-range hip-flow'.split(
    ' ',
  );

describe('the exercises that ship', () => {
  test('are 75 at least, of every pattern, each under a name of its own', () => {
    expect(SHIPPED_EXERCISES.length).toBeGreaterThanOrEqual(75);
    expect(unique(SHIPPED_EXERCISES.map((one) => one.name))).toBe(true);
    for (const pattern of PATTERNS) {
      expect(SHIPPED_EXERCISES.filter((one) => one.pattern === pattern).length, pattern).toBeGreaterThanOrEqual(7);
    }
    expect(SHIPPED_EXERCISES.every((one) => one.pattern !== undefined)).toBe(true);
  });

  test('keep the ids that rows name', () => {
    expect(FIRST_IDS.filter((id) => !byId.has(`lib-${id}`))).toEqual([]);
  });

  test('name as easier only what is there and of the same pattern, and every such way ends', () => {
    for (const exercise of SHIPPED_EXERCISES) {
      const way = [exercise.id];
      for (let next = exercise.easier; next !== undefined; next = byId.get(next)?.easier) {
        const one = byId.get(next);
        expect(one, `${exercise.id} → ${next}`).toBeDefined();
        expect(way, `${exercise.id} comes round to ${next}`).not.toContain(next);
        expect([exercise.pattern, next]).toEqual([one?.pattern, next]);
        way.push(next);
      }
    }
  });

  test('work some area, but for those of range and skill', () => {
    const idle = SHIPPED_EXERCISES.filter((one) => musclesOf(one.id).length === 0);
    expect(idle.filter((one) => one.pattern !== 'range' && one.pattern !== 'skill')).toEqual([]);
    for (const { id } of SHIPPED_EXERCISES) {
      const areas = musclesOf(id).map(({ area }) => area);
      expect(new Set(areas).size, id).toBe(areas.length);
      if (areas.length > 0) expect(musclesOf(id)[0], id).toMatchObject({ share: 1 });
    }
  });

  test('have a set-up that can be typed, where one is usual', () => {
    const usual = SHIPPED_EXERCISES.filter((one) => one.setUp);
    expect(usual.map((one) => one.id)).toEqual(expect.arrayContaining(['lib-box-jump', 'lib-step-up', 'lib-pull-up']));
    for (const { id, setUp = {} } of usual) {
      expect(parseSetUp(setUpTexts(setUp)), id).toEqual({ ok: true, value: setUp });
    }
  });
});

describe('muscle areas', () => {
  test('are counted whole where worked directly, half where indirectly', () => {
    expect(musclesOf('lib-bench-press')).toEqual([
      { area: 'chest', share: 1 },
      { area: 'triceps', share: 0.5 },
      { area: 'shoulders', share: 0.5 },
    ]);
    expect(musclesOf('lib-leg-curl')).toEqual([{ area: 'hamstrings', share: 1 }]);
    expect(musclesOf('lib-ankle-range')).toEqual([]);
    expect(musclesOf('bench-press')).toEqual([]);
  });

  test('each are worked directly by something', () => {
    const worked = new Set(
      SHIPPED_EXERCISES.flatMap(({ id }) => musclesOf(id).flatMap(({ area, share }) => (share === 1 ? [area] : []))),
    );
    expect(AREAS.filter((area) => !worked.has(area))).toEqual([]);
  });
});

describe('the share of body mass', () => {
  const table: readonly [string, number | undefined, number | undefined][] = [
    // segment masses: de Leva 1996
    ['lib-pull-up', 0.9612, 0.9554],
    ['lib-chin-up', 0.9612, 0.9554],
    ['lib-dip', 0.9612, 0.9554],
    ['lib-back-squat', 0.878, 0.886],
    ['lib-bodyweight-squat', 0.878, 0.886],
    ['lib-single-leg-squat', 0.939, 0.943],
    // the mean of up and down: Mier 2014
    ['lib-push-up', 0.677, 0.708],
    ['lib-knee-push-up', 0.5405, 0.563],
    // Gulmez 2017 measured men alone
    ['lib-strap-push-up', undefined, 0.6285],
    // nothing to rely on
    ['lib-inverted-row', undefined, undefined],
    ['lib-split-squat', undefined, undefined],
    ['lib-incline-push-up', undefined, undefined],
    ['lib-deadlift', undefined, undefined],
    ['own', undefined, undefined],
  ];
  test.each(table)('of %s is %s for women and %s for men', (id, female, male) => {
    for (const [sex, share] of [
      ['female', female],
      ['male', male],
    ] as const) {
      if (share === undefined) expect(bodyShare(id, sex)).toBeUndefined();
      else expect(bodyShare(id, sex)).toBeCloseTo(share, 4);
    }
  });

  test('is the mean of both where the sex is not noted, and none where one of them has none', () => {
    expect(bodyShare('lib-pull-up', undefined)).toBeCloseTo(0.9583, 4);
    expect(bodyShare('lib-strap-push-up', undefined)).toBeUndefined();
  });

  const kg = (value: number) => ({ value, unit: 'kg' }) as const;
  // computed from the segment masses of de Leva 1996
  test('makes what is moved, with load added or taken off', () => {
    expect(systemLoad(bodyShare('lib-pull-up', 'female'), kg(62), { added: kg(10) })).toBeCloseTo(69.5944, 4);
    expect(systemLoad(bodyShare('lib-back-squat', 'male'), kg(80), { added: kg(60) })).toBeCloseTo(130.88, 4);
    expect(systemLoad(bodyShare('lib-pull-up', 'female'), kg(62), { assist: kg(20) })).toBeCloseTo(39.594, 3);
  });

  test('makes nothing without a share, and where the help is more than the body', () => {
    expect(systemLoad(bodyShare('lib-inverted-row', 'male'), kg(80))).toBeUndefined();
    expect(systemLoad(bodyShare('lib-pull-up', 'female'), kg(62), { assist: kg(60) })).toBeUndefined();
  });
});

describe('faults and cues that ship', () => {
  test('are 20 faults, the first six as rows name them', () => {
    expect(SHIPPED_FAULTS).toHaveLength(20);
    expect(unique(SHIPPED_FAULTS)).toBe(true);
    expect(SHIPPED_FAULTS.slice(0, 6)).toEqual([
      'lib-heel-up',
      'lib-knee-in',
      'lib-back-round',
      'lib-shrug',
      'lib-early-arm',
      'lib-short-range',
    ]);
  });

  test('are 60 cues in words of their own, of each focus for each fault', () => {
    expect(SHIPPED_CUES).toHaveLength(60);
    expect(unique(SHIPPED_CUES.map((cue) => cue.id))).toBe(true);
    expect(unique(SHIPPED_CUES.map((cue) => cue.words))).toBe(true);
    for (const fault of SHIPPED_FAULTS) {
      const focuses = SHIPPED_CUES.filter((cue) => cue.fault === fault).map((cue) => cue.focus);
      expect(focuses, fault).toEqual([...FOCUSES]);
    }
    for (const { id, words } of SHIPPED_CUES) {
      expect(id).toMatch(/^lib-cue-[a-z-]+$/);
      // said between two reps
      expect(words.length, words).toBeLessThanOrEqual(45);
    }
  });

  test('each fault is seen in some pattern, and each pattern has some', () => {
    const anywhere = ['lib-rushed', 'lib-breath-held'];
    expect(faultsIn(undefined)).toEqual(SHIPPED_FAULTS);
    expect(faultsIn('landing')).toEqual([
      'lib-knee-in',
      'lib-loud-landing',
      'lib-stiff-landing',
      'lib-wobble',
      ...anywhere,
    ]);
    for (const pattern of PATTERNS) expect(faultsIn(pattern).length, pattern).toBeGreaterThan(2);
    expect(new Set(PATTERNS.flatMap(faultsIn)).size).toBe(20);
  });
});

describe('cues in the order one looks for one', () => {
  const own = { id: 'own', words: 'elbows to the wall' };
  const parts = (used: readonly string[], faults: readonly string[]) =>
    cueParts([own, ...SHIPPED_CUES], used, faults, 'landing').map(({ title, cues }) => [
      title,
      cues.map(({ id }) => id),
    ]);

  test('are those given before, those for a fault noted, one’s own, those that suit, the rest: each once', () => {
    const made = parts(['lib-cue-cat', 'gone', 'lib-cue-cat'], ['lib-shrug', 'lib-loud-landing']);
    expect(made.map(([title]) => title)).toEqual(['used', 'fault', 'own', 'pattern', 'others']);
    expect(made.slice(0, 3)).toEqual([
      ['used', ['lib-cue-cat']],
      [
        'fault',
        [
          'lib-cue-ears-free',
          'lib-cue-bar-to-you',
          'lib-cue-wet-coat',
          'lib-cue-toes-then-heel',
          'lib-cue-nobody-hears',
        ],
      ],
      ['own', ['own']],
    ]);
    expect(made.flatMap(([, ids]) => ids).length).toBe(61);
  });

  test('leave out what there is none of', () => {
    expect(parts([], []).map(([title]) => title)).toEqual(['own', 'pattern', 'others']);
  });
});
