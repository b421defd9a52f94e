/*
 * [M11] The order of things inside a row: texts that sort, one between any two, so that moving one writes one register. A random tail keeps
 * two devices from making the same one.
 */

const DIGITS = '0123456789abcdefghjkmnpqrstvwxyz';

/**
 * Returns an order after `before` and before `after` (either may be missing: at the beginning, at the end), with `tail` behind it. Orders
 * are base-32 texts compared by code unit. Where the two are not in order, or nothing lies between them, it comes right after `before`.
 */
export function orderBetween(before: string | undefined, after: string | undefined, tail: string): string {
  const low = before ?? '';
  const high = after !== undefined && after > low ? after : undefined;
  let order = '';
  for (let place = 0; ; place += 1) {
    const from = digitAt(low, place, 0);
    // once the new order is below `after`, only `before` bounds it
    const bound = high?.startsWith(order) ? digitAt(high, place, 0) : DIGITS.length;
    const apart = bound - from;
    if (apart > 1) return `${order}${DIGITS.charAt(from + Math.ceil(apart / 2))}${tail}`;
    // `after` is `before` and nothing but zeros: no text lies between
    if (high !== undefined && place >= high.length && order === high) return `${low}${tail}`;
    order += DIGITS.charAt(from);
  }
}

function digitAt(order: string, place: number, otherwise: number): number {
  const digit = DIGITS.indexOf(order.charAt(place));
  return place >= order.length || digit === -1 ? otherwise : digit;
}
