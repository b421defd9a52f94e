import type { EffortScale, RestGroup } from '../domain/settings';

/* What the settings are called, and what each does. */

export const UNITS = { kg: 'kilograms', lb: 'pounds', cm: 'centimetres, metres', in: 'inches, feet' } as const;
export const SCALE: Readonly<Record<EffortScale, string>> = { left: 'reps left', rpe: 'RPE' };
export const REST_GROUP: Readonly<Record<RestGroup, string>> = {
  loads: 'Loads, pins and carries',
  body: 'Body mass and bands',
  time: 'Holds',
  landings: 'Landings, throws and skills',
  range: 'Range and mobility',
};
export const THEME = { system: 'as the phone', dark: 'dark', light: 'light' } as const;

export const UNITS_HINT = 'What a new number begins in. A load that was typed in pounds stays in pounds.';
export const SCALE_HINT =
  'RPE is 10 less the reps left. What was noted stays as it was noted; the other scale can always be typed.';
export const REST_HINT =
  'Where none is chosen each exercise rests as the library says. An exercise with a rest of its own keeps it, and − and + on the clock change one rest.';
export const THEME_HINT = 'Kept on this device alone.';
export const LANGUAGE_HINT =
  'Numbers and days are written as this phone’s language writes them. The words are English; there are no others yet.';
