import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';

/*
 * The recovery code: 26 random base-32 characters (130 bits) and two that check them, in seven groups of four. Read as people write: any
 * case, spaces, dashes, O for 0, I and L for 1. The two are a Reed-Solomon code over GF(32): any one or two wrong characters, and any two
 * that changed places, are found for certain.
 */

/** 32 characters that are hard to misread: no i, l, o, u. */
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const DRAWN = 26;
const CHECKS = 2;
export const CODE_LENGTH = DRAWN + CHECKS;

export type CodeFault =
  | { readonly type: 'code-length'; readonly has: number; readonly needs: number }
  | { readonly type: 'code-character'; readonly character: string }
  | { readonly type: 'code-mistyped' };

/** Returns a new recovery code, as it is shown. */
export function newRecoveryCode(random: World['random']): string {
  const drawn = Array.from(random(DRAWN), (byte) => byte & 31);
  return shownCode([...drawn, ...checksOf(drawn)].map((digit) => ALPHABET.charAt(digit)).join(''));
}

/** Returns a code in its groups of four. */
export const shownCode = (code: string): string => code.replace(/(.{4})(?=.)/g, '$1-');

/** Returns the code that was typed, as 28 characters; a typing mistake is told as one. */
export function parseRecoveryCode(text: string): Result<string, CodeFault> {
  const typed = text.toUpperCase().replaceAll(/[\s.\-_‐-―−]/g, '');
  const plain = typed.replaceAll('O', '0').replaceAll(/[IL]/g, '1');
  const characters = [...plain];
  const strange = characters.find((character) => !ALPHABET.includes(character));
  if (strange !== undefined) return fail({ type: 'code-character', character: strange });
  if (characters.length !== CODE_LENGTH)
    return fail({ type: 'code-length', has: characters.length, needs: CODE_LENGTH });
  const digits = characters.map((character) => ALPHABET.indexOf(character));
  const [first, second] = checksOf(digits.slice(0, DRAWN));
  return digits[DRAWN] === first && digits[DRAWN + 1] === second ? ok(plain) : fail({ type: 'code-mistyped' });
}

/** x⁵ + x² + 1, whose root generates GF(32). */
const FIELD = 0b100101;

function times(a: number, b: number): number {
  let product = 0;
  for (let bit = 0; bit < 5; bit += 1) {
    if (b & (1 << bit)) product ^= a << bit;
  }
  for (let bit = 9; bit >= 5; bit -= 1) {
    if (product & (1 << bit)) product ^= FIELD << (bit - 5);
  }
  return product;
}

/** The remainder of the digits as a polynomial, over (x − α)(x − α²) with α = 2: x² + 6x + 8. */
function checksOf(digits: readonly number[]): readonly [number, number] {
  let [high, low] = [0, 0];
  for (const digit of digits) {
    const carry = high ^ digit;
    [high, low] = [low ^ times(carry, 6), times(carry, 8)];
  }
  return [high, low];
}
