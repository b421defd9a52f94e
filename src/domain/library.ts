import type { Exercise } from './exercise';

const lift = (id: string, name: string, more: Partial<Exercise> = {}): Exercise => ({
  id: `lib-${id}`,
  name,
  holds: 'load',
  sides: 'both',
  perHand: false,
  step: 2.5,
  rest: 120,
  ...more,
});

/** The fifteen exercises that ship with the app. Code, not rows: an edit makes an overlay row under the same id. */
export const SHIPPED_EXERCISES: readonly Exercise[] = [
  lift('front-squat', 'Front squat', { rest: 150 }),
  lift('back-squat', 'Back squat', { rest: 150 }),
  lift('deadlift', 'Deadlift', { rest: 180 }),
  lift('romanian-deadlift', 'Romanian deadlift'),
  lift('bench-press', 'Bench press', { rest: 150 }),
  lift('overhead-press', 'Overhead press'),
  lift('dumbbell-press', 'Dumbbell bench press', { perHand: true, step: 2 }),
  lift('one-arm-row', 'One-arm row', { sides: 'each', step: 2, rest: 60 }),
  lift('split-squat', 'Split squat', { sides: 'each', perHand: true, step: 2, rest: 90 }),
  lift('pull-up', 'Pull-up', { holds: 'body', rest: 150 }),
  lift('push-up', 'Push-up', { holds: 'body', rest: 90 }),
  lift('single-leg-squat', 'Single-leg squat to box', { holds: 'body', sides: 'each', rest: 90 }),
  lift('kneeling-cable-pull', 'Kneeling cable pull', { holds: 'pin', sides: 'each', step: 1, rest: 60 }),
  lift('band-pull-apart', 'Band pull-apart', { holds: 'band', rest: 45 }),
  lift('dead-hang', 'Dead hang', { holds: 'time', step: 5, rest: 90 }),
];

/** A fault a trainer may see, by a fixed id; its words are ui's. */
export const SHIPPED_FAULTS = [
  'lib-heel-up',
  'lib-knee-in',
  'lib-back-round',
  'lib-shrug',
  'lib-early-arm',
  'lib-short-range',
] as const;
export type ShippedFault = (typeof SHIPPED_FAULTS)[number];
