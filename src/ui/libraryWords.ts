import type { Focus } from '../domain/cues';
import type { ShippedFault } from '../domain/library';
import type { Area } from '../domain/muscles';

/* What the things of the library are called: faults, cues, muscles, places. */

export const FAULTS: Readonly<Record<ShippedFault, string>> = {
  'lib-heel-up': 'heel up',
  'lib-knee-in': 'knee in',
  'lib-back-round': 'back rounding',
  'lib-shrug': 'shrug',
  'lib-early-arm': 'early arm',
  'lib-short-range': 'short range',
  'lib-back-arch': 'back arching',
  'lib-ribs-up': 'ribs up',
  'lib-hip-shift': 'hip shift',
  'lib-hips-first': 'hips up first',
  'lib-elbows-wide': 'elbows wide',
  'lib-wrist-bent': 'wrist bent',
  'lib-head-forward': 'head forward',
  'lib-loud-landing': 'loud landing',
  'lib-stiff-landing': 'stiff landing',
  'lib-wobble': 'wobble',
  'lib-swing': 'swing',
  'lib-rushed': 'rushed',
  'lib-breath-held': 'breath held',
  'lib-late-hip': 'late hip',
};

export const FOCUS: Readonly<Record<Focus, string>> = {
  body: 'on the body',
  effect: 'on the effect',
  image: 'an image',
};

export const AREA: Readonly<Record<Area, string>> = {
  quads: 'quads',
  hamstrings: 'hamstrings',
  glutes: 'glutes',
  'inner-thighs': 'inner thighs',
  calves: 'calves',
  'hip-front': 'front of the hip',
  chest: 'chest',
  shoulders: 'shoulders',
  'rear-shoulders': 'rear shoulders',
  'upper-back': 'upper back',
  lats: 'lats',
  biceps: 'biceps',
  triceps: 'triceps',
  grip: 'grip',
  'front-trunk': 'front of the trunk',
  'side-trunk': 'side of the trunk',
  'lower-back': 'lower back',
};
