import { expect, test } from 'vitest';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { DEFAULT_SETTINGS } from '../../src/domain/settings';
import type { App } from '../../src/ui/app';
import { pressingOf } from '../../src/ui/desk/pressing';
import { tellingOf } from '../../src/ui/people/telling';
import { clientWith, did, foundOf } from '../analysis/foundIn';
import { dayIn, kg, times } from '../reference/records';

/* Which of all that is found is told of a client in one sentence. */

const exercises = new Map(SHIPPED_EXERCISES.map((one) => [one.id, one]));
const app = {
  log: { ends: () => [], exposures: () => [] },
  acts: { targets: () => [] },
  views: {
    settings: () => DEFAULT_SETTINGS,
    exercise: (_log: unknown, id: string) => exercises.get(id),
    cues: () => [],
  },
} as unknown as App;

const [GOOD, POOR] = ['lib-cue-nobody-hears', 'lib-cue-cat'];
const cued = (cue: string, answer: 'better' | 'same') => ({ landings: 2, cues: [{ id: cue, cue, answer }] });
/** A week of squats, and of landings with two cues for one fault, of which one works more often. */
const week = (n: number, sets: number) => [
  did(dayIn(7 * n), 'lib-front-squat', times(sets, { load: kg(60), reps: 5 })),
  did(dayIn(7 * n + 2), 'lib-drop-landing', [
    cued(GOOD, n % 2 === 0 ? 'better' : 'same'),
    cued(POOR, n % 2 === 0 ? 'same' : 'better'),
  ]),
];

test('what goes well is told before a sum that is only shown', () => {
  const client = clientWith([0, 1, 2, 3, 4].flatMap((n) => week(n, n === 4 ? 12 : 3)));
  const day = dayIn(35);
  const found = foundOf(client, day).filter(({ topic, type }) => topic === 'tonnage' || type === 'best');
  // the week is surer than the cue
  expect(found.map(({ topic, type }) => `${topic} ${type}`)[0]).toBe('tonnage above');
  const asked = { stream: 'c1', asOf: day, today: day };
  expect(pressingOf(app, asked, found, tellingOf(app, day))).toMatchObject({ tone: 'good' });
  // alone it is told as what it is
  const alone = found.filter(({ topic }) => topic === 'tonnage');
  expect(pressingOf(app, asked, alone, tellingOf(app, day))?.text).toContain('Tonnage');
});
