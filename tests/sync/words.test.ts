import { describe, expect, test, vi } from 'vitest';
import { newPhrase, parsePhrase, phraseWords } from '../../src/sync/phrase';
import { newRecoveryCode, parseRecoveryCode } from '../../src/sync/recovery';
import { PHRASE, seeded, value } from './rig';

vi.setConfig({ testTimeout: 60_000 });

describe('the list of words', () => {
  test('has 7,772 plain words, each once, so that seven are over 90 bits', async () => {
    const words = await phraseWords();
    expect(words).toHaveLength(7772);
    expect(new Set(words).size).toBe(7772);
    expect(words.filter((word) => !/^[a-z]{3,9}$/.test(word))).toEqual([]);
    expect([words[0], words[1], words[7771]]).toEqual(['abacus', 'abdomen', 'zoom']);
    expect(7 * Math.log2(words.length)).toBeGreaterThan(90);
  });

  test('is drawn from evenly, from the first word to the last', async () => {
    const words = await phraseWords();
    const random = seeded(20);
    const counts = new Map<string, number>();
    for (let n = 0; n < 3000; n += 1)
      for (const word of (await newPhrase(random)).split(' ')) counts.set(word, (counts.get(word) ?? 0) + 1);
    const expected = 21_000 / words.length;
    const chi = words.reduce((sum, word) => sum + ((counts.get(word) ?? 0) - expected) ** 2 / expected, 0);
    // mean 7,771, standard deviation 125
    expect(chi).toBeGreaterThan(7771 - 500);
    expect(chi).toBeLessThan(7771 + 500);
  });

  test('a draw that would favour the first words is drawn again', async () => {
    const words = await phraseWords();
    // 8 × 7,772 = 62,176 = 0xf2e0: from there on a number has no fair word
    const draws = [0xffff, 0xf2e0, 0x0005, 0xf2df, 0x1e5c, 0x1e5b, 0, 1, 2];
    const random = (): Uint8Array => {
      const next = draws.shift()!;
      return Uint8Array.of(next >> 8, next & 255);
    };
    const drawn = [5, 7771, 0, 7771, 0, 1, 2].map((n) => words[n]);
    expect((await newPhrase(random)).split(' ')).toEqual(drawn);
  });
});

describe('a phrase that was typed', () => {
  test.each([
    ['in capitals, with spaces and line breaks', `  ${PHRASE.toUpperCase().replaceAll(' ', ' \n ')} `],
    ['with commas', PHRASE.replaceAll(' ', ', ')],
    ['with dashes', PHRASE.replaceAll(' ', '-')],
    ['with long dashes', PHRASE.replaceAll(' ', ' – ')],
  ])('%s', async (_, text) => expect(value(await parsePhrase(text))).toBe(PHRASE));

  test.each([
    ['gravle', 'gravel'],
    ['gravl', 'gravel'],
    ['gravvel', 'gravel'],
    ['grevel', 'gravel'],
  ])('%s may be %s', async (typed, nearest) => {
    const result = await parsePhrase(PHRASE.replace('gravel', typed));
    expect(result).toEqual({ ok: false, error: { type: 'phrase-word', n: 2, word: typed, nearest } });
  });

  test('a word near to nothing, too few words, none, and too much', async () => {
    expect(await parsePhrase(PHRASE.replace('ounce', 'xqzxqzxqz'))).toEqual({
      ok: false,
      error: { type: 'phrase-word', n: 6, word: 'xqzxqzxqz' },
    });
    expect(await parsePhrase('cobalt gravel')).toEqual({
      ok: false,
      error: { type: 'phrase-words', has: 2, needs: 7 },
    });
    expect(await parsePhrase('')).toMatchObject({ ok: false, error: { type: 'phrase-words', has: 0 } });
    expect((await parsePhrase('a'.repeat(1_000_000))).ok).toBe(false);
  });
});

describe('a recovery code', () => {
  const code = newRecoveryCode(seeded(21));
  const plain = code.replaceAll('-', '');

  test('is 28 characters in groups of four, never the same twice', () => {
    expect(code).toMatch(/^([0-9A-HJKMNP-TV-Z]{4}-){6}[0-9A-HJKMNP-TV-Z]{4}$/);
    const random = seeded(22);
    expect(new Set(Array.from({ length: 500 }, () => newRecoveryCode(random))).size).toBe(500);
  });

  test('finds every one wrong character, and every two that changed places', () => {
    for (let at = 0; at < plain.length; at += 1) {
      for (const other of '0123456789ABCDEFGHJKMNPQRSTVWXYZ') {
        const changed = plain.slice(0, at) + other + plain.slice(at + 1);
        expect(parseRecoveryCode(changed).ok).toBe(changed === plain);
      }
      for (let to = at + 1; to < plain.length; to += 1) {
        const letters = [...plain];
        [letters[at], letters[to]] = [letters[to]!, letters[at]!];
        const changed = letters.join('');
        expect(parseRecoveryCode(changed).ok).toBe(changed === plain);
      }
    }
  });

  test('tells a wrong length and a character that is none', () => {
    expect(parseRecoveryCode(plain.slice(1))).toEqual({
      ok: false,
      error: { type: 'code-length', has: 27, needs: 28 },
    });
    expect(parseRecoveryCode(`${plain.slice(1)}U`)).toEqual({
      ok: false,
      error: { type: 'code-character', character: 'U' },
    });
  });
});
