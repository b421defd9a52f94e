import { fail, ok, type Result } from './result';

/** What a typed number may be. `step` is the smallest part it may have (0.5: halves); without one, three decimals are kept. */
export type Bounds = { readonly min: number; readonly max: number; readonly step?: number };

/** Why a typed number was not taken; the text stays in its field. */
export type NumberFault<Field extends string = string> =
  | { readonly type: 'empty'; readonly field: Field }
  | { readonly type: 'not-a-number'; readonly field: Field; readonly text: string }
  | {
      readonly type: 'out-of-range';
      readonly field: Field;
      readonly min: number;
      readonly max: number;
      readonly unit: string;
    }
  | { readonly type: 'off-step'; readonly field: Field; readonly step: number }
  | { readonly type: 'too-fine'; readonly field: Field; readonly decimals: number };

const DECIMALS = 3;

/**
 * Returns the number in a text typed on a phone: digits with at most one decimal sign, a comma or a point. `57,5` is 57.5.
 * Thousands marks and powers are refused, because `1.250` and `1,250` mean two things; more than three decimals are refused,
 * because rounding would change what was typed.
 */
export function parseNumber<Field extends string>(
  field: Field,
  text: string,
  bounds: Bounds,
  unit = '',
): Result<number, NumberFault<Field>> {
  const typed = text.trim();
  if (typed === '') return fail({ type: 'empty', field });
  const match = /^([+\-−]?)(\d*)(?:[.,](\d*))?$/.exec(typed);
  const whole = match?.[2] ?? '';
  const decimals = match?.[3] ?? '';
  if (!match || whole + decimals === '') return fail({ type: 'not-a-number', field, text: typed });
  const value = Number(`${whole || '0'}.${decimals || '0'}`) * (match[1] === '-' || match[1] === '−' ? -1 : 1);
  if (value < bounds.min || value > bounds.max)
    return fail({ type: 'out-of-range', field, min: bounds.min, max: bounds.max, unit });
  if (bounds.step !== undefined && !Number.isInteger(value / bounds.step)) {
    return fail({ type: 'off-step', field, step: bounds.step });
  }
  if (decimals.replace(/0+$/, '').length > DECIMALS) return fail({ type: 'too-fine', field, decimals: DECIMALS });
  return ok(value === 0 ? 0 : value);
}
