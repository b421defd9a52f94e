/** Returns the mean of values; undefined for none. */
export function meanOf(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : sumOf(values) / values.length;
}

/** Returns the sum of values: the same in whatever order they come. */
export function sumOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b).reduce((sum, one) => sum + one, 0);
}

/** Returns the sample SD (n − 1) of values, exactly 0 where all are equal; undefined for fewer than two. */
export function sampleSd(values: readonly number[]): number | undefined {
  const [first] = values;
  if (first === undefined || values.length < 2) return undefined;
  // a mean that is off by its last digit would make a tiny SD of none
  if (values.every((one) => one === first)) return 0;
  const mean = sumOf(values) / values.length;
  return Math.sqrt(sumOf(values.map((one) => (one - mean) ** 2)) / (values.length - 1));
}
