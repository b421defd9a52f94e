/** Half of 95 % lies within so many SDs. */
const Z95 = 1.959963984540054;

/**
 * Returns the interval that the true share lies in, from `good` of `of` (Wilson 1927; method 3 of Newcombe 1998, Statistics in Medicine 17:857), as
 * shares 0–1; with 95 % unless `z` says otherwise. Undefined for none, and for numbers that are no such counts.
 * @example wilson(8, 10) // { low: 0.4901…, high: 0.9433… }
 */
export function wilson(good: number, of: number, z = Z95): { readonly low: number; readonly high: number } | undefined {
  if (!(of > 0 && good >= 0 && good <= of && Number.isFinite(of) && z > 0 && Number.isFinite(z * z * of)))
    return undefined;
  const share = good / of;
  const spread = (z * z) / of;
  const centre = (share + spread / 2) / (1 + spread);
  const half = (z * Math.sqrt((share * (1 - share)) / of + spread / (4 * of))) / (1 + spread);
  // none and all are ends, whatever the last digit says
  return { low: good === 0 ? 0 : Math.max(0, centre - half), high: good === of ? 1 : Math.min(1, centre + half) };
}
