import Fuse from 'fuse.js/basic';

/** Slips a word of so many letters may have; the most are tried only where nothing nearer is there. */
const slipsIn = (letters: number): number => (letters < 3 ? 0 : letters < 5 ? 1 : letters < 8 ? 2 : 3);

/** How far a word is from one of a name: the same, its beginning, a part of it, or so many slips away. */
const SAME = 0;
const BEGINNING = 0.1;
const INSIDE = 0.5;

/**
 * Returns the things whose text has every word of what was typed, in any order: the nearest first, and those equally near in the order they
 * came in. Case, accents and hyphens make no difference, and a word may have a slip or two where nothing has it as it was typed. With nothing
 * typed all of them, as they came.
 */
export function search<T>(things: readonly T[], typed: string, textOf: (thing: T) => string): readonly T[] {
  const words = wordsOf(typed);
  if (words.length === 0) {
    // a sign or an emoji is no word, and may still be part of a name
    const sign = typed.trim();
    return sign === '' ? things : things.filter((thing) => textOf(thing).includes(sign));
  }
  const names = things.map((thing) => wordsOf(textOf(thing)));
  const known = [...new Set(names.flat())];
  const near = words.map((word) => nearOnes(word, known));
  const joined = words.join('');
  const found = things.flatMap((thing, index) => {
    const own = names[index] ?? [];
    const apart = near.map((ones) => Math.min(...own.map((word) => ones.get(word) ?? Number.POSITIVE_INFINITY)));
    const sum = apart.reduce((total, one) => total + one, 0);
    // written as one word: "pullup"
    const name = own.join('');
    // the very name comes before whatever else has that word
    const whole = name === joined ? -1 : name.startsWith(joined) ? BEGINNING * words.length : Number.POSITIVE_INFINITY;
    const distance = Math.min(sum, whole);
    return Number.isFinite(distance) ? [{ thing, distance }] : [];
  });
  return found.sort((a, b) => a.distance - b.distance).map(({ thing }) => thing);
}

/** Returns how far each of the known words is from the one typed; those too far are not there. */
function nearOnes(word: string, known: readonly string[]): ReadonlyMap<string, number> {
  const exact = known.filter((one) => one.includes(word));
  if (exact.length > 0) {
    return new Map(exact.map((one) => [one, one === word ? SAME : one.startsWith(word) ? BEGINNING : INSIDE]));
  }
  const turned = known.filter((one) => swaps(word).some((swap) => one.startsWith(swap)));
  if (turned.length > 0) return new Map(turned.map((one) => [one, 1]));
  const most = slipsIn(word.length);
  for (let slips = 1; slips <= most; slips += 1) {
    const fuse = new Fuse(known, {
      includeScore: true,
      ignoreLocation: true,
      ignoreFieldNorm: true,
      threshold: (slips + 0.01) / word.length,
    });
    // a much shorter word is no slip of a long one
    const found = fuse.search(word).filter(({ item }) => item.length >= word.length - slips);
    if (found.length > 0) return new Map(found.map(({ item, score = 1 }) => [item, 1 + score]));
  }
  return new Map();
}

/** Returns a word with each two neighbours changed about: the slip that is made most. */
const swaps = (word: string): readonly string[] =>
  word.length < 3
    ? []
    : Array.from(
        { length: word.length - 1 },
        (_, at) => word.slice(0, at) + word.charAt(at + 1) + word.charAt(at) + word.slice(at + 2),
      );

const wordsOf = (text: string): readonly string[] =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLocaleLowerCase('en')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
