import type { LoadUnit } from './units';
import { toKg } from './units';

/*
 * How much of the body an exercise moves, as a share of body mass. Pull-ups, dips and squats: from segment masses (de Leva 1996), the body less
 * both forearms and hands, or less both shanks and feet (one of each on one leg); this reckoning is the project's own. Push-ups: measured by
 * Mier 2014 (n = 37), the mean of up and down. Push-up in straps with the body level: Gulmez 2017, men only (n = 28), the mean of arms
 * straight and bent. No figure was found that can be relied on for rows under a bar, lunges and split squats, nor for hands or feet raised.
 */

export type Sex = 'female' | 'male';

type Shares = { readonly female?: number; readonly male?: number };

const less = (share: number, ...parts: readonly number[]): number => parts.reduce((rest, part) => rest - part, share);
const mean = (...values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** Fractions of body mass, de Leva 1996. */
const SEGMENTS = {
  female: { forearm: 0.0138, hand: 0.0056, shank: 0.0481, foot: 0.0129 },
  male: { forearm: 0.0162, hand: 0.0061, shank: 0.0433, foot: 0.0137 },
} as const;

const both = (of: (sex: (typeof SEGMENTS)[Sex]) => number): Shares => ({
  female: of(SEGMENTS.female),
  male: of(SEGMENTS.male),
});

const HANGING = both(({ forearm, hand }) => less(1, forearm, forearm, hand, hand));
const SQUAT = both(({ shank, foot }) => less(1, shank, shank, foot, foot));
const ONE_LEG = both(({ shank, foot }) => less(1, shank, foot));

const SHARES: Readonly<Record<string, Shares>> = {
  'lib-push-up': { female: mean(0.651, 0.703), male: mean(0.67, 0.746) },
  'lib-knee-push-up': { female: mean(0.515, 0.566), male: mean(0.525, 0.601) },
  'lib-strap-push-up': { male: mean(0.504, 0.753) },
  'lib-pull-up': HANGING,
  'lib-chin-up': HANGING,
  'lib-neutral-pull-up': HANGING,
  'lib-pull-up-lower': HANGING,
  'lib-dip': HANGING,
  'lib-box-squat': SQUAT,
  'lib-bodyweight-squat': SQUAT,
  'lib-goblet-squat': SQUAT,
  'lib-front-squat': SQUAT,
  'lib-back-squat': SQUAT,
  'lib-paused-squat': SQUAT,
  'lib-overhead-squat': SQUAT,
  'lib-single-leg-squat': ONE_LEG,
};

/**
 * Returns the share of body mass that an exercise moves, for a sex or, where it is not noted, the mean of the two; undefined where there is no
 * figure to rely on.
 */
export function bodyShare(exercise: string, sex: Sex | undefined): number | undefined {
  const shares = SHARES[exercise];
  if (!shares) return undefined;
  if (sex) return shares[sex];
  return shares.female === undefined || shares.male === undefined ? undefined : mean(shares.female, shares.male);
}

type Weight = { readonly value: number; readonly unit: LoadUnit };

/**
 * Returns what is moved in kg: the share of body mass, and what is added or taken off by a machine. Undefined without a share, and where
 * nothing would be left to move.
 */
export function systemLoad(
  share: number | undefined,
  mass: Weight,
  { added, assist }: { readonly added?: Weight; readonly assist?: Weight } = {},
): number | undefined {
  if (share === undefined) return undefined;
  const moved = share * toKg(mass) + (added ? toKg(added) : 0) - (assist ? toKg(assist) : 0);
  return moved > 0 && Number.isFinite(moved) ? moved : undefined;
}
