import { fail, ok, type Result } from '../domain/result';
import type { World } from '../domain/world';

/*
 * The phrase of a bundle: seven words of a list of 7,772, drawn by chance (90.5 bits). Read as people write: any case, spaces, commas,
 * dashes; a mistyped word is told with the nearest one of the list.
 */

export const PHRASE_WORDS = 7;
const MOST_TYPED = 400;

export type PhraseFault =
  | { readonly type: 'phrase-words'; readonly has: number; readonly needs: number }
  /** `n` counts from 1; `nearest` is missing where no word of the list is near. */
  | { readonly type: 'phrase-word'; readonly n: number; readonly word: string; readonly nearest?: string };

/** Returns the words of the list, in its order; loaded the first time they are asked for. */
export async function phraseWords(): Promise<readonly string[]> {
  const { PHRASE_LIST } = await import('./phraseList');
  loaded ??= wordsOf(PHRASE_LIST);
  return loaded;
}

let loaded: readonly string[] | undefined;

/** Returns the words of a front-coded list: a capital says how many letters a word shares with the one before it. */
export function wordsOf(list: string): readonly string[] {
  const words: string[] = [];
  let last = '';
  for (const [, shared = 'A', rest = ''] of `A${list}`.matchAll(/([A-Z])([a-z]*)/g)) {
    last = last.slice(0, shared.charCodeAt(0) - 65) + rest;
    words.push(last);
  }
  return words;
}

/** Returns seven words drawn by chance, every word of the list as likely as another, with one space between. */
export async function newPhrase(random: World['random']): Promise<string> {
  const words = await phraseWords();
  return Array.from({ length: PHRASE_WORDS }, () => words[drawn(words.length, random)]).join(' ');
}

/** Returns the phrase that was typed, as it was made; or which word is not one of the list, and what it may be. */
export async function parsePhrase(text: string): Promise<Result<string, PhraseFault>> {
  const words = await phraseWords();
  const known = new Set(words);
  const typed = text.slice(0, MOST_TYPED).normalize('NFKC').toLowerCase();
  const tokens = typed.split(/[^\p{L}\p{N}]+/u).filter((token) => token !== '');
  const wrong = tokens.findIndex((token) => !known.has(token));
  if (tokens.length !== PHRASE_WORDS) return fail({ type: 'phrase-words', has: tokens.length, needs: PHRASE_WORDS });
  const word = tokens[wrong];
  if (word !== undefined) {
    const nearest = nearestOf(word, words);
    return fail({ type: 'phrase-word', n: wrong + 1, word, ...(nearest === undefined ? {} : { nearest }) });
  }
  return ok(tokens.join(' '));
}

/** A whole number below `below`, evenly: 16 bits, drawn again where they would favour the first words. */
function drawn(below: number, random: World['random']): number {
  const even = 65_536 - (65_536 % below);
  for (;;) {
    const [high = 0, low = 0] = random(2);
    const number = high * 256 + low;
    if (number < even) return number % below;
  }
}

/** Returns the word that takes the fewest changes (a letter put in, left out, another, or two that changed places); up to two. */
function nearestOf(word: string, words: readonly string[]): string | undefined {
  let best: string | undefined;
  let fewest = 3;
  for (const one of words) {
    if (Math.abs(one.length - word.length) >= fewest) continue;
    const changes = changesBetween(word, one, fewest);
    if (changes < fewest) [best, fewest] = [one, changes];
  }
  return best;
}

function changesBetween(a: string, b: string, most: number): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    if (Math.min(...row) >= most) return most;
    [before, last] = [last, row];
  }
  return last[b.length] ?? most;
}
