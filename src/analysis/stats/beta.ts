/*
 * The Beta distribution. Its share below a value by the continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8), evaluated by
 * Lentz's method; the logarithm of the gamma function by Lanczos' series (SIAM Journal on Numerical Analysis 1, 1964).
 */

/** A Beta distribution; both above 0. */
export type Beta = { readonly a: number; readonly b: number };

/** Returns the share (0–1) of a Beta distribution that lies below `x`; throws for parameters that are not above 0. */
export function betaCdf(x: number, { a, b }: Beta): number {
  if (!(a > 0 && b > 0 && Number.isFinite(a + b))) throw new Error(`no Beta distribution: ${a}, ${b}`);
  if (!(x > 0)) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  const below = x < (a + 1) / (a + b + 2);
  const share = below ? (front * fraction(x, a, b)) / a : 1 - (front * fraction(1 - x, b, a)) / b;
  return Math.min(1, Math.max(0, share));
}

/** Returns the value below which a share `p` of a Beta distribution lies, to about 1e-12; throws for a `p` that is not between 0 and 1. */
export function betaQuantile(p: number, beta: Beta): number {
  if (!(p > 0 && p < 1)) throw new Error(`no share between 0 and 1: ${p}`);
  let [low, high] = [0, 1];
  while (high - low > 1e-13) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (betaCdf(middle, beta) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Cells of the finer grid; a power of 2. */
const CELLS = 1024;

/**
 * Returns for each of several independent Beta distributions the chance that a value of it is the highest, by numerical quadrature: no draws, so that
 * the answer is always the same. Right to about 1e-6 below some thousand uses; the chances make 1.
 */
export function chancesToBeBest(betas: readonly Beta[]): readonly number[] {
  if (betas.length === 1) return [1];
  // narrow near both ends, where distributions of small parameters are steep
  const grid = Array.from({ length: CELLS + 1 }, (_, n) => Math.sin((Math.PI * n) / (2 * CELLS)) ** 2);
  const shares = betas.map((beta) => grid.map((x) => betaCdf(x, beta)));
  const chances = shares.map((_, own) => {
    const others = grid.map((_x, n) => shares.reduce((all, one, at) => (at === own ? all : all * (one[n] ?? 1)), 1));
    const [fine, rough] = [1, 2].map((step) => integral(shares[own] ?? [], others, step));
    // two grids tell how the error shrinks (Richardson)
    return Math.max(0, ((fine ?? 0) * 4 - (rough ?? 0)) / 3);
  });
  const all = chances.reduce((sum, one) => sum + one, 0);
  return chances.map((one) => one / all);
}

/** The integral of `of` over how a share grows, by trapezia of so many cells. */
function integral(share: readonly number[], of: readonly number[], step: number): number {
  let sum = 0;
  for (let n = step; n < share.length; n += step)
    sum += ((share[n] ?? 0) - (share[n - step] ?? 0)) * ((of[n] ?? 0) + (of[n - step] ?? 0));
  return sum / 2;
}

function fraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let value = d;
  const most = 200 + 5 * Math.ceil(Math.sqrt(Math.max(a, b)));
  for (let m = 1; m <= most; m++) {
    const terms = [
      (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)),
      (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)),
    ];
    let change = 1;
    for (const term of terms) {
      d = 1 + term * d;
      d = 1 / (Math.abs(d) < tiny ? tiny : d);
      c = 1 + term / c;
      if (Math.abs(c) < tiny) c = tiny;
      change = d * c;
      value *= change;
    }
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return value;
}

const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** The logarithm of the gamma function of a number above 0. */
function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const [first, ...rest] = LANCZOS;
  const sum = rest.reduce<number>((all, one, n) => all + one / (x + n), first);
  const t = x + 6.5;
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
}
