import { describe, expect, test } from 'vitest';
import { type Entry, NO_TEXTS, parseEntry } from '../../src/domain/entry';
import { readSet } from '../../src/domain/set';
import { instantIn, NO_SET_UP, shipped, workingEntry } from './made';

const parse = (id: string, entry: Partial<Entry>) =>
  parseEntry(workingEntry(id, entry), shipped(id), (place) => `${place}a`);
const kg = (value: number) => ({ value, unit: 'kg' });

describe('what else a set can hold', () => {
  test.each<[what: string, id: string, entry: Partial<Entry>, values: object]>([
    [
      'a carry by its way',
      'lib-farmer-carry',
      { load: '24', distance: '40' },
      { load: kg(24), distance: { value: 40, unit: 'm' } },
    ],
    [
      'a carry by its way in feet and its time',
      'lib-farmer-carry',
      { load: '53', unit: 'lb', distance: '100', distanceUnit: 'ft', seconds: '32,5' },
      { load: { value: 53, unit: 'lb' }, distance: { value: 100, unit: 'ft' }, seconds: 32.5 },
    ],
    ['a carry by its time', 'lib-farmer-carry', { load: '24', seconds: '30' }, { load: kg(24), seconds: 30 }],
    ['landings that nobody judged', 'lib-box-jump', { landings: '10' }, { landings: 10 }],
    [
      'landings with a direction, and those judged',
      'lib-hop-and-hold',
      {
        side: 'left',
        landings: '6',
        direction: 'across',
        marks: [{ good: true }, null, { good: false, quiet: false }],
      },
      {
        side: 'left',
        landings: 6,
        direction: 'across',
        'marks/1': { good: true },
        'marks/3': { good: false, quiet: false },
      },
    ],
    [
      'landings written with a decimal sign, and their marks',
      'lib-box-jump',
      { landings: '3,0', marks: [{ good: true }] },
      { landings: 3, 'marks/1': { good: true } },
    ],
    [
      'no marks beyond the landings',
      'lib-box-jump',
      { landings: '1', marks: [{ good: true }, { good: true }] },
      { landings: 1, 'marks/1': { good: true } },
    ],
    [
      'tries, good of total and smoothness',
      'lib-ball-throw',
      { side: 'right', tries: '8', good: '8', smooth: 4 },
      { side: 'right', tries: 8, good: 8, smooth: 4 },
    ],
    ['tries that nobody judged', 'lib-ball-throw', { side: 'right', tries: '8' }, { side: 'right', tries: 8 }],
    ['degrees below zero', 'lib-ankle-range', { side: 'left', degrees: '−5' }, { side: 'left', degrees: -5 }],
    ['nothing but that it was done', 'lib-hip-flow', { reps: '9' }, {}],
    [
      'its cell of a block',
      'lib-push-up',
      { reps: '8', in: { block: 'b', station: 's', round: 2 } },
      { reps: 8, in: { block: 'b', station: 's', round: 2 } },
    ],
  ])('%s', (_, id, entry, values) => {
    expect(parse(id, entry)).toEqual({ ok: true, value: { exercise: id, kind: 'working', ...values } });
  });

  test.each<[what: string, id: string, entry: Partial<Entry>, error: object]>([
    ['a carry of no load', 'lib-farmer-carry', { distance: '40' }, { type: 'empty', field: 'load' }],
    ['a carry to nowhere', 'lib-farmer-carry', { load: '24' }, { type: 'no-distance-or-time', field: 'distance' }],
    [
      'a carry too far',
      'lib-farmer-carry',
      { load: '24', distance: '2001' },
      { type: 'out-of-range', field: 'distance', min: 1, max: 2000, unit: 'm' },
    ],
    [
      'no landing',
      'lib-box-jump',
      { landings: '0' },
      { type: 'out-of-range', field: 'landings', min: 1, max: 200, unit: '' },
    ],
    ['half a landing', 'lib-box-jump', { landings: '2.5' }, { type: 'off-step', field: 'landings', step: 1 }],
    [
      'more good ones than tries',
      'lib-ball-throw',
      { side: 'left', tries: '8', good: '9' },
      { type: 'more-good-than-done', field: 'good', of: 8 },
    ],
    [
      'an angle past the circle',
      'lib-ankle-range',
      { side: 'left', degrees: '361' },
      { type: 'out-of-range', field: 'degrees', min: -90, max: 360, unit: '°' },
    ],
    [
      'a bad tempo',
      'lib-push-up',
      { reps: '8', setUp: { ...NO_SET_UP, tempo: 'slow' } },
      { type: 'not-a-tempo', field: 'tempo', text: 'slow' },
    ],
    [
      'more good ones in a later part',
      'lib-ball-throw',
      { side: 'left', kind: 'cluster', tries: '8', parts: [{ ...NO_TEXTS, tries: '4', good: '5' }] },
      { type: 'more-good-than-done', field: 'good', of: 4, part: 2 },
    ],
  ])('%s is refused by its field', (_, id, entry, error) => {
    expect(parse(id, entry)).toEqual({ ok: false, error });
  });

  test('what each part of a cluster of throws was good for is read back', () => {
    const entry = {
      side: 'left' as const,
      kind: 'cluster' as const,
      tries: '8',
      good: '6',
      parts: [{ ...NO_TEXTS, tries: '4', good: '3' }],
    };
    const parsed = parse('lib-ball-throw', entry);
    expect(parsed.ok && readSet('s', { ...parsed.value, at: instantIn(0) })).toMatchObject({
      tries: 8,
      good: 6,
      parts: [{ id: '1a', tries: 4, good: 3 }],
      unread: [],
    });
  });
});

describe('landings one by one, as they are read', () => {
  const jump = { exercise: 'lib-box-jump', kind: 'working', at: instantIn(0), landings: 12 };

  test('stand by their number, and one that nobody judged is not there', () => {
    const marks = { 'marks/10': { good: true }, 'marks/2': { good: false, held: false }, 'marks/3': null };
    expect(readSet('s', { ...jump, ...marks })?.marks).toEqual([
      { n: 2, good: false, held: false },
      { n: 10, good: true },
    ]);
  });

  test('[M8] one of a newer app is named, and a name that is no number passed over', () => {
    const set = readSet('s', { ...jump, 'marks/1': { good: 'nearly' }, 'marks/0': { good: true }, 'marks/x': 5 });
    expect(set?.marks).toEqual([]);
    expect(set?.unread).toEqual([{ type: 'from-a-newer-app', path: 'sets/s/marks/1', value: { good: 'nearly' } }]);
  });

  test.each<[values: object, path: string]>([
    [{ landings: 4, 'marks/5': { good: false } }, 'sets/s'],
    [{ landings: null, tries: 8, good: 9 }, 'sets/s'],
    [{ landings: null, kind: 'cluster', tries: 8, 'parts/1a/tries': 4, 'parts/1a/good': 5 }, 'sets/s/parts/1a'],
  ])('[M9] more good than done is kept and named: %j', (values, path) => {
    expect(readSet('s', { ...jump, ...values })?.unread).toEqual([{ type: 'more-good-than-done', path }]);
  });
});
