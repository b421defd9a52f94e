import { sameValue } from './canonical';
import { type Register, type Row, registerAt } from './row';
import { compareStamps, seenOf } from './stamp';

/** Returns whether two rows of one identity are the same in all they hold and have seen: as equal canonical texts would say, and sooner. */
export function isSameRow(a: Row, b: Row): boolean {
  const [seen, paths] = [Object.entries(a.seen), Object.entries(a.body)];
  return (
    seen.length === Object.keys(b.seen).length &&
    paths.length === Object.keys(b.body).length &&
    seen.every(([writer, l]) => Object.hasOwn(b.seen, writer) && seenOf(b.seen, writer) === l) &&
    paths.every(([path, register]) => isSameRegister(register, registerAt(b, path)))
  );
}

/** Registers stand in one order. */
function isSameRegister(a: Register, b: Register | undefined): boolean {
  if (a === b) return true;
  if (!b || a.length !== b.length) return false;
  return a.every((held, n) => {
    const other = b[n];
    return other && compareStamps(held.stamp, other.stamp) === 0 && sameValue(held.value, other.value);
  });
}
