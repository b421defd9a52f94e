/** Samples of one thing, as they are told: ms. */
export type Told = { readonly n: number; readonly p50: number; readonly p95: number };

/** Returns the median and the 95th percentile of samples. */
export function told(samples: readonly number[]): Told {
  const sorted = [...samples].sort((a, b) => a - b);
  return { n: samples.length, p50: at(sorted, 0.5), p95: at(sorted, 0.95) };
}

/** Between two samples where none lies there. */
function at(sorted: readonly number[], share: number): number {
  const place = share * (sorted.length - 1);
  const below = sorted[Math.floor(place)] ?? Number.NaN;
  const above = sorted[Math.ceil(place)] ?? below;
  return below + (above - below) * (place - Math.floor(place));
}

/** Returns how many times `b` goes into `a`, at the median and at the 95th percentile. */
export const ratio = (a: Told, b: Told): { p50: number; p95: number } => ({ p50: a.p50 / b.p50, p95: a.p95 / b.p95 });
