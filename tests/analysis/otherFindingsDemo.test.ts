import { describe, expect, test } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import { answersOf } from '../../src/analysis/answers';
import { usesOf } from '../../src/analysis/others';
import { knownBy, readStudio } from '../../src/analysis/studio';
import type { Day } from '../../src/domain/day';
import { shown } from '../../src/merge/shown';
import { about } from './foundIn';

/* The demo, whose stories are known (fixtures/demo/cast.ts). */

const TODAY = '2026-11-25';
const studioOf = (seed: number) =>
  readStudio(
    demoRows({ seed, today: TODAY, zone: 'Europe/Vienna' }).map((row) => ({
      stream: row.stream,
      id: row.id,
      kind: row.kind,
      values: shown(row),
    })),
  );
const studio = studioOf(7);

function told(word: string, day: Day = TODAY) {
  const all = studio.clients.map((client) => knownBy(client, day));
  const client = all.find(({ alias }) => alias.endsWith(word));
  if (!client) throw new Error(`no client ${word}`);
  const pool = all.filter((one) => one !== client).map(usesOf);
  return answersOf(client, pool, studio, day).found;
}

describe('what is found in the demo', () => {
  test('the cue that works mostly does, the one that changes nothing is not worth saying again', () => {
    const cues = about('cues', told('Puddle'));
    expect(cues.find(({ type }) => type === 'often')).toMatchObject({ cue: { cue: 'lib-cue-nobody-hears' } });
    expect(cues.find(({ type }) => type === 'seldom' || type === 'no-help')).toMatchObject({
      cue: { cue: 'lib-cue-tripod' },
      next: { type: 'try-another-cue' },
    });
  });

  test('in the week that Sleet comes in tired it says so, and a month later it does not', () => {
    expect(about('came-in', told('Sleet', '2026-10-14')).map(({ type }) => type)).not.toContain('below');
    const [tired] = about('came-in', told('Sleet', '2026-10-22'));
    expect(tired).toMatchObject({ type: 'below', since: '2026-10-21', next: { type: 'ask-the-client' } });
    if (tired?.type !== 'below') throw new Error(tired?.type);
    // two days in a row of those asked, and nearly every item lies below its own mean
    expect(tired.running).toBe(2);
    expect(tired.moved.length).toBeGreaterThanOrEqual(4);
    expect(about('came-in', told('Sleet', '2026-11-24')).map(({ type }) => type)).toEqual(['usual']);
  });

  test('the gap of Puddle’s ankles has closed: beyond the error of their own trials first, within it at last', () => {
    const sides = about('sides', told('Puddle')).find(({ exercise }) => exercise === 'lib-ankle-range');
    expect(sides).toMatchObject({
      type: 'closed',
      side: 'left',
      unit: 'degrees',
      since: '2026-09-04',
      next: { type: 'keep-on' },
    });
    if (sides?.type !== 'closed') throw new Error(sides?.type);
    expect(sides.widest.apart).toBeGreaterThan(6);
    expect(Math.abs(sides.last.apart)).toBeLessThan(3);
    const early = about('sides', told('Puddle', '2026-10-01')).find(({ exercise }) => exercise === 'lib-ankle-range');
    expect(early).toMatchObject({ type: 'gap', side: 'left' });
  });

  test('landings of the last session lie below the range of the level', () => {
    const [last] = about('landings', told('Puddle')).filter(({ exercise }) => exercise === undefined);
    expect(last).toMatchObject({ type: 'below', against: { from: 100, to: 120 } });
    expect(about('landings', told('Gale'))).toEqual([]);
  });

  test('nobody is in pain, and nothing is said of it', () => {
    for (const { alias } of studio.clients) expect(about('pain', told(alias)), alias).toEqual([]);
  });

  test('nothing is lost in JSON or on the way to a worker, on whichever day', () => {
    for (const day of ['2026-08-01', '2026-09-03', '2026-10-20', TODAY, '2027-06-01']) {
      for (const { alias } of studio.clients) {
        const found = told(alias, day);
        expect(JSON.parse(JSON.stringify(found))).toEqual(found);
        expect(structuredClone(found)).toEqual(found);
      }
    }
  });

  test('half a year later nothing is told of what has long been left', () => {
    for (const { alias } of studio.clients) expect(told(alias, '2027-06-01'), alias).toEqual([]);
  });

  test('before the first session there is nothing', () => {
    for (const { alias } of studio.clients) expect(told(alias, '2026-01-01'), alias).toEqual([]);
  });
});
