import { describe, expect, test } from 'vitest';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { search } from '../../src/ui/parts/search';

const names = SHIPPED_EXERCISES.map((one) => one.name);
const find = (typed: string, among: readonly string[] = names) => search(among, typed, (name) => name);

describe('what was typed finds', () => {
  test.each([
    ['gobblet', 'Goblet squat'],
    ['goblte', 'Goblet squat'],
    ['romanain', 'Romanian deadlift'],
    ['deadlfit', 'Deadlift'],
    ['pul up', 'Pull-up'],
    ['pullup', 'Pull-up'],
    ['PULL UP', 'Pull-up'],
    ['push up', 'Push-up'],
    ['bnech', 'Bench press'],
    ['bench pres', 'Bench press'],
    ['pres bench', 'Bench press'],
    ['squat front', 'Front squat'],
    ['sqaut front', 'Front squat'],
    ['suitecase', 'Suitcase carry'],
    ['farmers carry', 'Farmer carry'],
    ['swnig', 'Kettlebell swing'],
    ['ketlebel swing', 'Kettlebell swing'],
    ['nordik', 'Nordic lower'],
    ['calf', 'Calf raise'],
    ['hip thurst', 'Hip thrust'],
    ['overhed press', 'Overhead press'],
    ['ankel', 'Ankle bend, knee to wall'],
    ['row', 'One-arm row'],
  ])('%s: %s first', (typed, first) => {
    expect(find(typed)[0]).toBe(first);
  });

  test.each(['xylophone', 'zzz', 'Wall walk', 'goblet deadlift'])('nothing for %s', (typed) => {
    expect(find(typed)).toEqual([]);
  });

  test('only what has every word', () => {
    expect(find('single leg squat')).toEqual(['Single-leg squat to box']);
    expect(find('split squat')).toEqual(['Split squat', 'Rear-foot-raised split squat']);
  });

  test('what was typed right alone, where anything has it', () => {
    // "throw" holds "row", "bow" would be a slip of it
    expect(find('row', ['Bow and arrow', 'Ball throw', 'Tow the sled', 'Band row'])).toEqual([
      'Band row',
      'Bow and arrow',
      'Ball throw',
    ]);
  });

  test('names with accents, of other letters and of signs', () => {
    const own = ['Élévation latérale', 'Größe', 'מתח', '🦵 day', 'Squat'];
    expect(find('elevation', own)).toEqual(['Élévation latérale']);
    expect(find('ÉLEVATION LATERAL', own)).toEqual(['Élévation latérale']);
    expect(find('grosse', ['Große Rolle', 'Kleine Rolle'])).toEqual(['Große Rolle']);
    expect(find('מתח', own)).toEqual(['מתח']);
    expect(find('🦵', own)).toEqual(['🦵 day']);
  });
});

describe('equally near', () => {
  test('they stand as they came: recent ones first stay first', () => {
    expect(find('squat', ['Back squat', 'Goblet squat', 'Bench press', 'Front squat'])).toEqual([
      'Back squat',
      'Goblet squat',
      'Front squat',
    ]);
    expect(find('', ['b', 'a'])).toEqual(['b', 'a']);
    expect(find('  ', ['b', 'a'])).toEqual(['b', 'a']);
  });
});

test('a very long text neither throws nor finds', () => {
  expect(find('x'.repeat(300))).toEqual([]);
  expect(find('squat '.repeat(60))).toContain('Front squat');
});
