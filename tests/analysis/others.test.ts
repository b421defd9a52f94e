import { describe, expect, test } from 'vitest';
import { demoRows } from '../../fixtures/demo/studio';
import { othersOf, usesOf } from '../../src/analysis/others';
import { knownBy, readStudio } from '../../src/analysis/studio';
import { shown } from '../../src/merge/shown';

/* The other methods over a whole studio: the demo, whose stories are known. */

const TODAY = '2026-11-25';
const studio = readStudio(
  demoRows({ seed: 7, today: TODAY, zone: 'Europe/Vienna' }).map((row) => ({
    stream: row.stream,
    id: row.id,
    kind: row.kind,
    values: shown(row),
  })),
);
const told = (word: string, day = TODAY) => {
  const all = studio.clients.map((client) => knownBy(client, day));
  const client = all.find(({ alias }) => alias.endsWith(word));
  if (!client) throw new Error(`no client ${word}`);
  const others = all.filter((one) => one !== client);
  return { client, said: othersOf(client, others.map(usesOf), studio, day) };
};

describe('what the other methods say of the demo', () => {
  test('the cue that works is told to, the one that does nothing is not', () => {
    const { cues } = told('Puddle').said;
    expect(cues.best).toEqual({ type: 'told', cue: 'lib-cue-nobody-hears' });
    const share = (cue: string) => cues.cues.find((one) => one.cue === cue)?.share ?? 0;
    expect(share('lib-cue-nobody-hears')).toBeGreaterThan(share('lib-cue-tripod') + 0.3);
  });

  test('a week’s tonnage is the loads that were lifted that week, warm-ups apart', () => {
    const { client, said } = told('Gale');
    // the week of Monday 9 November, added up set by set
    const sets = client.sessions
      .filter(({ start }) => start && start.day >= '2026-11-09' && start.day <= '2026-11-15')
      .flatMap((session) => session.sets)
      .filter((set) => set.exercise === 'lib-front-squat' && set.kind !== 'warm-up');
    const lifted = sets.reduce((sum, set) => sum + (set.load?.value ?? 0) * (set.reps ?? 0), 0);
    expect(sets.length).toBeGreaterThan(3);
    const week = said.tonnage.weeks.find((one) => one.week === '2026-11-09' && one.exercise === 'lib-front-squat');
    expect(week).toMatchObject({ kg: lifted, sets: sets.length });
  });

  test('landings are set against the range of the level that is noted, and judged by side', () => {
    const { landings } = told('Puddle').said;
    expect(landings.sessions.at(-1)?.against).toBeDefined();
    expect(new Set(landings.quality.parts.map(({ side }) => side))).toEqual(new Set([undefined, 'left', 'right']));
    expect(told('Gale').said.landings.sessions).toEqual([]);
  });

  test('nothing that is said is lost in JSON, on whichever day it is asked', () => {
    for (const day of ['2026-08-01', '2026-09-03', '2026-10-20', TODAY, '2027-06-01']) {
      for (const { alias } of studio.clients) {
        const { said } = told(alias, day);
        expect(JSON.stringify(said)).not.toContain('null');
        expect(JSON.parse(JSON.stringify(said))).toEqual(said);
      }
    }
  });
});
