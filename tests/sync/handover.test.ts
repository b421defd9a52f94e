import { describe, expect, test } from 'vitest';
import { privateTopics } from '../../src/domain/private';
import { canonicalRow } from '../../src/merge/canonical';
import { mergeRows } from '../../src/merge/merge';
import { inNewStream } from '../../src/merge/newStream';
import type { Json, Row } from '../../src/merge/row';
import { handoverOf, libraryOf } from '../../src/sync/handover';
import { client, held, value } from './rig';

const merged = (a: Row, b: Row): Row => value(mergeRows(a, b));

describe('what is handed over', () => {
  const session: Row = {
    id: 's1',
    kind: 'session',
    stream: 'c1',
    seen: { 'p-1': 9 },
    body: {
      'sets/a/exercise': [held(1, 'p-1', 'ex1')],
      'sets/a/reps': [held(1, 'p-1', 5)],
      'sets/a/ended': [held(2, 'p-1', 'pain')],
      'sets/b/ended': [held(2, 'p-1', 'made')],
      'sets/c/ended': [held(2, 'p-1', 'made'), held(1, 'q-1', 'pain')],
      'sets/a/pain': [held(2, 'p-1', { value: 5 })],
      'sets/a/note': [held(2, 'p-1', 'slow')],
      'sets/a/cues/u1': [held(2, 'p-1', { cue: 'cue1', answer: null })],
      'sets/a/faults/fault1': [held(2, 'p-1', 'seen')],
      'exercises/ex2/skipped': [held(2, 'p-1', { why: 'knee' })],
      'arrival/sleep': [held(2, 'p-1', 2)],
      'arrival/pain': [held(2, 'p-1', { value: 3 })],
      'arrival/sore/knee': [held(2, 'p-1', true)],
      'arrival/answer': [held(2, 'p-1', { asked: 'x', said: 'y' })],
      'signs/g1': [held(2, 'p-1', { sign: 'chest' })],
      why: [held(2, 'p-1', 'ill')],
      note: [held(2, 'p-1', 'private')],
      place: [held(2, 'p-1', 'kit1')],
      template: [held(2, 'p-1', 'tpl1')],
      'newer/thing': [held(2, 'p-1', { deep: ['cue2'] })],
    },
  };
  const own: Row[] = [
    {
      ...client('c1', 'Client K'),
      body: {
        ...client('c1', 'Client K').body,
        question: [held(1, 'p-1', 'Shoulder?')],
        'clearances/ex1': [held(1, 'p-1', { who: 'Dr' })],
      },
    },
    session,
    {
      id: 'r1',
      kind: 'restriction',
      stream: 'c1',
      seen: {},
      body: { who: [held(1, 'p-1', 'Physio')], what: [held(1, 'p-1', 'No jumps')] },
    },
    {
      id: 'w1',
      kind: 'otherWork',
      stream: 'c1',
      seen: {},
      body: { work: [held(1, 'p-1', 'shift')], note: [held(1, 'p-1', 'rig')] },
    },
    { id: 's2', kind: 'session', stream: 'c2', seen: {}, body: { note: [held(1, 'p-1', 'of another')] } },
  ];
  const lib = (id: string, kind: string, names: Json = ''): Row => ({
    id,
    kind,
    stream: 'main',
    seen: {},
    body: { x: [held(1, 'p-1', names)] },
  });
  const main = [
    lib('ex1', 'exercise', 'ex3'),
    lib('ex2', 'exercise'),
    lib('ex3', 'exercise'),
    lib('ex4', 'exercise'),
    lib('cue1', 'cue'),
    lib('cue2', 'cue'),
    lib('fault1', 'fault', { cures: ['cue3'] }),
    lib('cue3', 'cue'),
    lib('kit1', 'kit'),
    lib('tpl1', 'template', 'ex5'),
    lib('ex5', 'exercise'),
    lib('c9', 'erased', 'ex4'),
    lib('place', 'settings', 'ex4'),
  ];
  const paths = (given: ReturnType<typeof handoverOf>): string[] =>
    given.rows
      .filter((row) => row.stream !== 'main')
      .flatMap((row) => Object.keys(row.body).map((path) => `${row.kind} ${path}`));

  test('by itself: training, restrictions, set-ups; no notes, no pain, not how they came in', () => {
    const given = handoverOf('c1', own, main, new Set());
    expect(paths(given).sort()).toEqual(
      [
        'client alias',
        'client short',
        'otherWork work',
        'restriction what',
        'restriction who',
        'session newer/thing',
        'session place',
        'session sets/a/cues/u1',
        'session sets/a/exercise',
        'session sets/a/faults/fault1',
        'session sets/a/reps',
        'session sets/b/ended',
        'session start',
        'session template',
      ].filter((path) => path !== 'session start'),
    );
    expect(given.withheld).toEqual(['arrival', 'notes', 'pain']);
    expect(JSON.stringify(given.rows)).not.toMatch(/knee|private|ill"|slow|chest|Shoulder|Dr|of another|null,"stamp/);
    // every copy, handed back, changes nothing
    for (const copy of given.rows) {
      const whole = [...own, ...main].find((row) => row.id === copy.id && row.stream === copy.stream)!;
      expect(canonicalRow(merged(whole, copy))).toBe(canonicalRow(merged(whole, whole)));
    }
  });

  test.each([
    [
      'notes',
      ['session sets/a/note', 'session note', 'session why', 'session exercises/ex2/skipped', 'otherWork note'],
    ],
    [
      'pain',
      [
        'session sets/a/pain',
        'session sets/a/ended',
        'session sets/c/ended',
        'session signs/g1',
        'client clearances/ex1',
      ],
    ],
    ['arrival', ['session arrival/sleep', 'session arrival/answer', 'client question']],
  ] as const)('with %s ticked', (topic, more) => {
    const [without, given] = [handoverOf('c1', own, main, new Set()), handoverOf('c1', own, main, new Set([topic]))];
    expect(
      paths(given)
        .filter((path) => !paths(without).includes(path))
        .sort(),
    ).toEqual([...more].sort());
    expect(given.withheld).not.toContain(topic);
  });

  test('with everything ticked every row is the row itself', () => {
    const given = handoverOf('c1', own, main, new Set(['notes', 'pain', 'arrival']));
    expect(given.rows.slice(0, 4)).toEqual(own.slice(0, 4));
    expect(given).toMatchObject({ withheld: [], leftOut: 0 });
  });

  test('the library rows that are named anywhere, and those that they name; nothing else of `main`', () => {
    const ids = libraryOf(own.slice(0, 2), main).map(({ id }) => id);
    expect(ids.sort()).toEqual(['cue1', 'cue2', 'cue3', 'ex1', 'ex2', 'ex3', 'ex5', 'fault1', 'kit1', 'tpl1']);
  });

  test('in a new stream the client keeps rows and values', () => {
    const [moved, set] = [inNewStream(own[0]!, 'c1', 'c8'), inNewStream(session, 'c1', 'c8')];
    expect(moved).toEqual({ ...own[0], id: 'c8', stream: 'c8' });
    expect(set).toEqual({ ...session, stream: 'c8' });
    expect(inNewStream(main[0]!, 'c1', 'c8')).toBe(main[0]);
  });

  test.each([
    ['session', 'sets/x/notebook', []],
    ['session', 'sets/x/painted', []],
    ['jump', 'pain/left', ['pain']],
    ['session', 'arrival/pain', ['pain', 'arrival']],
    ['exercise', 'question', []],
  ])('%s %s is private for %j', (kind, path, topics) => expect(privateTopics(kind, path, 1)).toEqual(topics));
});
