/*
 * Cross-education: how much the strength of a limb grows that is not trained, while the other one is (Manca 2017: 31 studies, 785 people). Strength, not
 * skill; it is a reason to train one side while the other is off limits, and no promise to one person.
 */

/** As shares; the interval (95 %) is that of the mean of studies, not of a person. */
const GAIN = { any: 0.119, upper: 0.094, lower: 0.164 } as const;
const INTERVAL = { low: 0.091, high: 0.148 } as const;

/** Returns what the untrained side's strength is expected to be after some weeks, in the same unit, with the interval for limbs in general; undefined below 0. */
export function crossEducation(
  strength: number,
  limb: keyof typeof GAIN = 'any',
): { readonly expected: number; readonly low?: number; readonly high?: number } | undefined {
  if (!(strength > 0 && strength < 1e9)) return undefined;
  const expected = strength * (1 + GAIN[limb]);
  if (limb !== 'any') return { expected };
  return { expected, low: strength * (1 + INTERVAL.low), high: strength * (1 + INTERVAL.high) };
}
