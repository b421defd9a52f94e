/*
 * The normal distribution. The share below a value by the complementary error function of W. J. Cody (Rational Chebyshev approximations for the
 * error function, Mathematics of Computation 23, 1969), the quantile by M. J. Wichura's algorithm AS 241 (Applied Statistics 37, 1988).
 */

/** Returns the share (0–1) of a standard normal distribution that lies below `z`; 0 and 1 far out, right to about 1e-15. */
export function normalCdf(z: number): number {
  const upper = 0.5 * erfcOf(Math.abs(z) * Math.SQRT1_2);
  return z > 0 ? 1 - upper : upper;
}

/** Returns the density of a standard normal distribution at `z`. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / SQRT_2PI;
}

const SQRT_2PI = Math.sqrt(2 * Math.PI);
const SQRT_1_PI = 1 / Math.sqrt(Math.PI);

/** The complementary error function of a number from 0 up. */
function erfcOf(x: number): number {
  if (x <= 0.46875) return 1 - x * ratio(x * x, NEAR);
  if (x > 26.5) return 0;
  if (x <= 4) return Math.exp(-x * x) * ratio(x, MIDDLE);
  const t = 1 / (x * x);
  return (Math.exp(-x * x) * (SQRT_1_PI - t * ratio(t, FAR))) / x;
}

/** Two polynomials, the highest power first. */
type Ratio = { readonly above: readonly number[]; readonly below: readonly number[] };

const ratio = (x: number, { above, below }: Ratio): number => polynomial(x, above) / polynomial(x, below);

function polynomial(x: number, coefficients: readonly number[]): number {
  let sum = 0;
  for (const one of coefficients) sum = sum * x + one;
  return sum;
}

const NEAR: Ratio = {
  above: [0.18577770618460315, 3.1611237438705655, 113.86415415105016, 377.485237685302, 3209.3775891384694],
  below: [1, 23.601290952344122, 244.02463793444417, 1282.6165260773723, 2844.236833439171],
};
const MIDDLE: Ratio = {
  above: [
    2.1531153547440383e-8, 0.5641884969886701, 8.883149794388377, 66.11919063714163, 298.6351381974001,
    881.952221241769, 1712.0476126340707, 2051.0783778260716, 1230.3393547979972,
  ],
  below: [
    1, 15.744926110709835, 117.6939508913125, 537.1811018620099, 1621.3895745666903, 3290.7992357334597,
    4362.619090143247, 3439.3676741437216, 1230.3393548037495,
  ],
};
const FAR: Ratio = {
  above: [
    0.016315387137302097, 0.30532663496123236, 0.36034489994980445, 0.12578172611122926, 0.016083785148742275,
    0.0006587491615298378,
  ],
  below: [1, 2.568520192289822, 1.8729528499234673, 0.5279051029514285, 0.06051834131244132, 0.0023352049762686918],
};

/** Returns the value below which a share `p` of a standard normal distribution lies; throws for a `p` that is not between 0 and 1. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new Error(`no share between 0 and 1: ${p}`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return q * ratio(r, CENTRE);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const far = r <= 5 ? ratio(r - 1.6, SIDE) : ratio(r - 5, TAIL);
  return q < 0 ? -far : far;
}

const CENTRE: Ratio = {
  above: [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946, 1971.5909503065513,
    133.14166789178438, 3.3871328727963665,
  ],
  below: [
    5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751, 687.1870074920579,
    42.31333070160091, 1,
  ],
};
const SIDE: Ratio = {
  above: [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
    5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  below: [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
    1.6763848301838038, 2.053191626637759, 1,
  ],
};
const TAIL: Ratio = {
  above: [
    2.0103343992922881e-7, 0.000027115555687434876, 0.0012426609473880784, 0.026532189526576124, 0.29656057182850487,
    1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  below: [
    2.0442631033899397e-15, 1.421511758316446e-7, 0.000018463183175100548, 0.0007868691311456133, 0.014875361290850615,
    0.1369298809227358, 0.599832206555888, 1,
  ],
};
