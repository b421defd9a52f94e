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

/** The exercises that ship with the app. Code, not rows: an edit makes an overlay row under the same id. */
export const SHIPPED_EXERCISES: readonly Exercise[] = [
  lift('front-squat', 'Front squat', { rest: 150, pattern: 'squat', easier: 'lib-goblet-squat' }),
  lift('back-squat', 'Back squat', { rest: 150, pattern: 'squat', easier: 'lib-goblet-squat' }),
  lift('goblet-squat', 'Goblet squat', { pattern: 'squat', step: 2, easier: 'lib-box-squat' }),
  lift('box-squat', 'Bodyweight squat to box', { holds: 'body', pattern: 'squat', rest: 60 }),
  lift('deadlift', 'Deadlift', { rest: 180, pattern: 'hinge', easier: 'lib-romanian-deadlift' }),
  lift('romanian-deadlift', 'Romanian deadlift', { pattern: 'hinge' }),
  lift('bench-press', 'Bench press', { rest: 150, pattern: 'push', easier: 'lib-dumbbell-press' }),
  lift('overhead-press', 'Overhead press', { pattern: 'push', easier: 'lib-dumbbell-press' }),
  lift('dumbbell-press', 'Dumbbell bench press', { perHand: true, step: 2, pattern: 'push', easier: 'lib-push-up' }),
  lift('one-arm-row', 'One-arm row', { sides: 'each', step: 2, rest: 60, pattern: 'pull' }),
  lift('split-squat', 'Split squat', {
    sides: 'each',
    perHand: true,
    step: 2,
    rest: 90,
    pattern: 'squat',
    easier: 'lib-goblet-squat',
  }),
  lift('pull-up', 'Pull-up', { holds: 'body', rest: 150, pattern: 'pull', easier: 'lib-inverted-row' }),
  lift('inverted-row', 'Inverted row', { holds: 'body', rest: 90, pattern: 'pull', easier: 'lib-band-pull-apart' }),
  lift('push-up', 'Push-up', { holds: 'body', rest: 90, pattern: 'push', easier: 'lib-incline-push-up' }),
  lift('incline-push-up', 'Incline push-up', { holds: 'body', rest: 60, pattern: 'push' }),
  lift('single-leg-squat', 'Single-leg squat to box', {
    holds: 'body',
    sides: 'each',
    rest: 90,
    pattern: 'squat',
    easier: 'lib-split-squat',
  }),
  lift('calf-raise', 'Calf raise', { holds: 'body', rest: 45, pattern: 'squat' }),
  lift('kneeling-cable-pull', 'Kneeling cable pull', {
    holds: 'pin',
    sides: 'each',
    step: 1,
    rest: 60,
    pattern: 'pull',
    easier: 'lib-band-pull-apart',
  }),
  lift('band-pull-apart', 'Band pull-apart', { holds: 'band', rest: 45, pattern: 'pull' }),
  lift('dead-hang', 'Dead hang', { holds: 'time', step: 5, rest: 90, pattern: 'pull' }),
  lift('side-plank', 'Side plank', { holds: 'time', sides: 'each', step: 5, rest: 45, pattern: 'trunk' }),
  lift('farmer-carry', 'Farmer carry', { holds: 'carry', perHand: true, step: 2, rest: 90, pattern: 'carry' }),
  lift('suitcase-carry', 'Suitcase carry', { holds: 'carry', sides: 'each', step: 2, rest: 60, pattern: 'carry' }),
  lift('box-jump', 'Box jump', { holds: 'landings', rest: 90, pattern: 'landing', easier: 'lib-drop-landing' }),
  lift('drop-landing', 'Drop landing', { holds: 'landings', rest: 60, pattern: 'landing' }),
  lift('hop-and-hold', 'Hop and hold', {
    holds: 'landings',
    sides: 'each',
    rest: 60,
    pattern: 'landing',
    easier: 'lib-drop-landing',
  }),
  lift('ball-throw', 'Rotational ball throw', { holds: 'tries', sides: 'each', rest: 60, pattern: 'throw' }),
  lift('straight-punch', 'Straight punch', { holds: 'tries', sides: 'each', rest: 45, pattern: 'throw' }),
  lift('shoulder-roll', 'Shoulder roll', { holds: 'tries', sides: 'each', rest: 60, pattern: 'skill' }),
  lift('ankle-range', 'Ankle bend, knee to wall', {
    holds: 'degrees',
    sides: 'each',
    step: 1,
    rest: 30,
    pattern: 'range',
  }),
  lift('shoulder-range', 'Shoulder reach overhead', {
    holds: 'degrees',
    sides: 'each',
    step: 5,
    rest: 30,
    pattern: 'range',
  }),
  lift('hip-flow', 'Hip mobility', { holds: 'tick', rest: 0, pattern: 'range' }),
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
