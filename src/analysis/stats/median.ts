/** Returns the middle of values in rising order, the mean of the two middle ones of an even count; undefined for none. */
export function medianSorted(rising: readonly number[]): number | undefined {
  const half = rising.length / 2;
  const low = rising[Math.ceil(half) - 1];
  const high = rising[Math.floor(half)];
  if (low === undefined || high === undefined) return undefined;
  // halved first: the sum of two huge numbers would be infinite
  return low === high ? low : low / 2 + high / 2;
}

/** Returns the middle of values in any order; undefined for none. */
export function median(values: readonly number[]): number | undefined {
  return medianSorted(values.toSorted((a, b) => a - b));
}
