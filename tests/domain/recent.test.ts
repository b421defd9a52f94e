import { expect, test } from 'vitest';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { libraryParts, type Used } from '../../src/domain/recent';

const DAY = 86_400_000;
const NOW = 1000 * DAY;
const ago = (exercise: string, ...days: number[]): Used => ({
  exercise: `lib-${exercise}`,
  times: days.map((day) => NOW - day * DAY),
});
const own = { id: 'own', name: 'Wall walk', holds: 'tick', sides: 'both', perHand: false, step: 1, rest: 0 } as const;

const partsOf = (used: readonly Used[], today: readonly string[] = []) =>
  libraryParts([...SHIPPED_EXERCISES, own], new Set(today.map((id) => `lib-${id}`)), used, NOW).map(
    ({ title, exercises }) => [title, exercises.map((one) => one.id.replace('lib-', ''))] as const,
  );

test('with nothing done yet the library stands by patterns, the trainer’s own first', () => {
  const parts = partsOf([]);
  expect(parts.map(([title]) => title)).toEqual([
    'own',
    'squat',
    'hinge',
    'push',
    'pull',
    'carry',
    'landing',
    'throw',
    'skill',
    'trunk',
    'range',
  ]);
  expect(parts[0]).toEqual(['own', ['own']]);
  expect(parts.flatMap(([, ids]) => ids)).toHaveLength(SHIPPED_EXERCISES.length + 1);
});

test('today’s come first, then the latest, then what was done often in eight weeks; what is older is with its pattern', () => {
  const used = [
    ago('plank', 20, 21, 22),
    ago('dip', 19),
    ago('deadlift', 1, 90),
    ago('front-squat', 3),
    ago('back-squat', 2),
    ago('pull-up', 5),
    ago('push-up', 4),
    ago('side-plank', 6),
    ago('calf-raise', 7),
    ago('bench-press', 57, 58, 59, 60, 61),
    ago('box-jump', 18, 30),
  ];
  const parts = partsOf(used, ['deadlift', 'dead-hang']);
  expect(parts.slice(0, 3)).toEqual([
    ['today', ['deadlift', 'dead-hang']],
    ['recent', ['back-squat', 'front-squat', 'push-up', 'pull-up', 'side-plank', 'calf-raise']],
    ['usual', ['plank', 'box-jump', 'dip']],
  ]);
  expect(parts.find(([title]) => title === 'push')?.[1]).toContain('bench-press');
  expect(new Set(parts.flatMap(([, ids]) => ids)).size).toBe(SHIPPED_EXERCISES.length + 1);
});
