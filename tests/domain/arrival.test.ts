import { describe, expect, test } from 'vitest';
import { readArrival, SORE_PLACES, sorePath, wasAsked } from '../../src/domain/arrival';
import { readSigns, STOP_SIGNS } from '../../src/domain/stopSigns';
import { admitRow } from '../../src/merge/door';
import { emptyRow } from '../../src/merge/row';
import { writeRow } from '../../src/merge/write';
import { instantIn, sessionOf, T } from './made';

describe('how a client came in', () => {
  test('is what was told, and nothing for what was not', () => {
    const { arrival, unread } = readArrival({
      'arrival/sleep': 2,
      'arrival/energy': null,
      'arrival/mood': 5,
      'arrival/sore/knee': true,
      'arrival/sore/neck': true,
      'arrival/sore/hip': null,
      'arrival/pain': { value: 0 },
      'arrival/answer': { asked: 'How is the voice?', said: 'rough' },
    });
    expect(unread).toEqual([]);
    expect(arrival).toEqual({
      items: { sleep: 2, mood: 5 },
      usual: false,
      sore: ['neck', 'knee'],
      pain: 0,
      answer: { asked: 'How is the voice?', said: 'rough' },
    });
    expect(wasAsked(arrival)).toBe(true);
  });

  test('"the usual" is those words, never five numbers', () => {
    const { arrival } = readArrival({ 'arrival/usual': true });
    expect(arrival).toEqual({ items: {}, usual: true, sore: [] });
    expect(wasAsked(arrival)).toBe(true);
  });

  test.each([
    {},
    { 'arrival/usual': null, 'arrival/sleep': null, 'arrival/sore/knee': null },
    { 'arrival/usual': false, 'arrival/sore/knee': false, 'arrival/nova': 3, arrival: 5 },
  ])('nothing told is nothing asked: %j', (values) => {
    const { arrival, unread } = readArrival(values);
    expect(arrival).toEqual({ items: {}, usual: false, sore: [] });
    expect(wasAsked(arrival)).toBe(false);
    expect(unread).toEqual([]);
  });

  test.each<[string, unknown]>([
    ['sleep', 6],
    ['mood', 2.5],
    ['usual', 'rather'],
    ['sore/knee', 'left'],
    ['pain', 3],
    ['pain', { value: 11 }],
    ['answer', 'fine'],
  ])('[M8] a %s of %j is named, and the rest is read', (name, value) => {
    const path = `arrival/${name}`;
    const unread = [{ type: 'from-a-newer-app', path, value }];
    expect(readArrival({ 'arrival/calm': 3, [path]: value })).toEqual({
      arrival: { items: { calm: 3 }, usual: false, sore: [] },
      unread,
    });
    expect(sessionOf({ [path]: value }).unread).toEqual(unread);
  });

  test('has no place twice', () => {
    expect(new Set(SORE_PLACES).size).toBe(SORE_PLACES.length);
  });
});

describe('stop signs', () => {
  test('stand in the order they were seen, with the exercise they were seen in', () => {
    const { signs, unread } = readSigns({
      'signs/b': { sign: 'chest', exercise: 'lib-back-squat', at: instantIn(60) },
      'signs/c': { sign: 'faint', at: instantIn(30) },
      'signs/a': { sign: 'numb', at: instantIn(60) },
      'signs/d': null,
      signs: 5,
    });
    expect(unread).toEqual([]);
    expect(signs).toEqual([
      { id: 'c', sign: 'faint', at: T + 30_000 },
      { id: 'a', sign: 'numb', at: T + 60_000 },
      { id: 'b', sign: 'chest', exercise: 'lib-back-squat', at: T + 60_000 },
    ]);
  });

  test('[M8] a sign of a newer app is named: a sign that nobody is told of is worse than none', () => {
    const value = { sign: 'vision', at: instantIn(5) };
    expect(sessionOf({ 'signs/a': value }).unread).toEqual([{ type: 'from-a-newer-app', path: 'signs/a', value }]);
  });

  // the list of methods book section 14: chest; breath; fainting or dizziness; palpitations; headache; joint or pop; numbness or
  // weakness; bladder or bowel; confusion; dark urine
  test('are the ten of the list', () => {
    expect(STOP_SIGNS).toHaveLength(10);
    expect(new Set(STOP_SIGNS).size).toBe(10);
  });
});

test('every sore place is noted under a path that the door lets in, and read back from there', () => {
  for (const place of SORE_PLACES) {
    const path = `arrival/${sorePath(place)}`;
    const row = writeRow(emptyRow({ stream: 'c', id: 's', kind: 'session' }), { [path]: true }, { l: 1, writer: 'w' });
    expect(admitRow(row).ok, path).toBe(true);
    expect(readArrival({ [path]: true })).toEqual({ arrival: { items: {}, usual: false, sore: [place] }, unread: [] });
  }
});
