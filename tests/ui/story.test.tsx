import { describe, expect, test } from 'vitest';
import type { Exercise } from '../../src/domain/exercise';
import type { Exposure, Top } from '../../src/domain/exposure';
import { cueTallies } from '../../src/ui/charts/cueCounts';
import { markedOf, storyOf } from '../../src/ui/charts/story';
import { frameOf, visitsOf } from '../../src/ui/charts/visits';
import { dayShort } from '../../src/ui/format';
import { cueLines, storyText } from '../../src/ui/trendWords';
import { kg, lb, on, shipped } from './exposures';

const TODAY = '2026-11-25';
const SQUAT = shipped('front-squat');
const [SEP, OCT, NOV] = ['2026-09-30', '2026-10-20', '2026-11-18'];

/** Returns the sentence in a session that began this morning, with its no-break spaces as spaces. */
function told(times: readonly Exposure[], exercise: Exercise = SQUAT, session = TODAY, shown = times): string {
  const frame = frameOf(exercise, times);
  const story = storyOf(visitsOf(times, frame), visitsOf(shown, frame), session, Date.parse(`${TODAY}T09:00Z`));
  return storyText(story, exercise, frame, TODAY).replaceAll('\u00a0', ' ');
}
const squat = (day: string, value: number, reps = 5): Exposure => on(day, [{ load: kg(value), reps }]);

describe('the sentence above the chart', () => {
  test('last time against the first one', () => {
    expect(told([squat(SEP, 52), squat(OCT, 55), squat(NOV, 57)])).toBe(
      `Last time 57 kg × 5 on ${dayShort(NOV)}; 5 kg more than on ${dayShort(SEP)}.`,
    );
  });

  test('against the first one of those shown', () => {
    const times = [squat(SEP, 52), squat(OCT, 55), squat(NOV, 54)];
    expect(told(times, SQUAT, TODAY, times.slice(1))).toBe(
      `Last time 54 kg × 5 on ${dayShort(NOV)}; 1 kg less than on ${dayShort(OCT)}.`,
    );
  });

  test('this time against last time, once it holds something', () => {
    expect(told([squat(SEP, 52), squat(NOV, 57), squat(TODAY, 57)])).toBe(
      `This time 57 kg × 5; the same load as last time, on ${dayShort(NOV)}.`,
    );
    const nothingYet = on(TODAY, [{ reps: 5 }]);
    expect(told([squat(SEP, 52), squat(NOV, 57), nothingYet])).toMatch(/^Last time 57 kg × 5 on/);
  });

  test('other reps are told, so that less load for more reps does not look like a loss', () => {
    expect(told([squat(NOV, 60, 3), squat(TODAY, 55, 8)])).toBe(
      `This time 55 kg × 8; 5 kg less than last time, on ${dayShort(NOV)} (60 kg × 3).`,
    );
  });

  test('the first session, and one alone before it', () => {
    expect(told([])).toBe('First session: nothing to compare with yet.');
    expect(told([squat(TODAY, 50)])).toBe('First session: nothing to compare with yet.');
    expect(told([squat(NOV, 50)])).toBe(
      `Last time 50 kg × 5 on ${dayShort(NOV)}; that is the first time: nothing to compare with yet.`,
    );
  });

  test('a session looked at again knows nothing of later ones', () => {
    expect(told([squat(SEP, 52), squat(OCT, 55), squat(NOV, 57)], SQUAT, OCT)).toBe(
      `This time 55 kg × 5; 3 kg more than last time, on ${dayShort(SEP)}.`,
    );
  });

  test('each side by itself, and once where they are alike', () => {
    const both = (day: string, left: number, right: number): Exposure =>
      on(day, [
        { side: 'left', load: kg(left), reps: 8 },
        { side: 'right', load: kg(right), reps: 8 },
      ]);
    const row = shipped('one-arm-row');
    expect(told([both(SEP, 18, 20), both(NOV, 22, 22)], row)).toBe(
      `Last time each side 22 kg × 8 on ${dayShort(NOV)}; left 4 kg more, right 2 kg more than on ${dayShort(SEP)}.`,
    );
    expect(told([both(SEP, 18, 20), both(NOV, 20, 22)], row)).toBe(
      `Last time left 20 kg × 8, right 22 kg × 8 on ${dayShort(NOV)}; each side 2 kg more than on ${dayShort(SEP)}.`,
    );
  });

  test('pounds against kilograms, in the unit used last and to a tenth', () => {
    const times = [on(SEP, [{ load: lb(135), reps: 5 }]), squat(NOV, 65)];
    // 135 lb is 61.235 kg
    expect(told(times).replace(',', '.')).toBe(
      `Last time 65 kg × 5 on ${dayShort(NOV)}; 3.8 kg more than on ${dayShort(SEP)}.`,
    );
  });

  test.each<[string, Top, Top, string]>([
    ['pull-up', { assist: kg(20), reps: 5 }, { assist: kg(10), reps: 5 }, '10 kg less help than'],
    ['pull-up', { assist: kg(5), reps: 5 }, { added: kg(5), reps: 5 }, '10 kg more than'],
    ['push-up', { reps: 9 }, { reps: 8 }, '1 rep fewer than'],
    ['dead-hang', { seconds: 30 }, { seconds: 45 }, '15 s longer than'],
    ['shoulder-range', { degrees: 150 }, { degrees: 165 }, '15° more than'],
    ['kneeling-cable-pull', { pin: '7', reps: 8 }, { pin: '9', reps: 8 }, '2 pins higher than'],
    ['box-jump', { landings: 10, good: 5, of: 10 }, { landings: 10, good: 7, of: 9 }, '5 of 10 good'],
    ['dumbbell-press', { load: kg(20), reps: 8 }, { load: kg(22), reps: 8 }, '2 × 2 kg more than'],
  ])('%s in its own words', (id, then, now, words) => {
    expect(told([on(SEP, [then]), on(NOV, [now])], shipped(id))).toContain(`; ${words} on ${dayShort(SEP)}.`);
  });

  test('what is only ticked off has no numbers', () => {
    expect(told([on(SEP, [{}]), on(NOV, [{}])], shipped('hip-flow'))).toBe(
      'Ticked off when done: there are no numbers to chart.',
    );
  });

  test('the sessions marked in words are those the sentence tells of', () => {
    const frame = { measure: 'load', unit: 'kg' } as const;
    const marks = (times: readonly Exposure[]) => {
      const visits = visitsOf(times, frame);
      return markedOf(storyOf(visits, visits, TODAY, undefined), TODAY).lastTime;
    };
    expect(marks([squat(SEP, 50), squat(NOV, 55)])).toBe(NOV);
    expect(marks([squat(SEP, 50), squat(NOV, 55), squat(TODAY, 60)])).toBe(NOV);
    expect(marks([squat(TODAY, 60)])).toBeUndefined();
  });
});

describe('what the cues did', () => {
  const use = (given: number, better: number, same: number, worse: number, clean: number, noted: number) => ({
    cue: 'elbow',
    given,
    better,
    same,
    worse,
    clean,
    noted,
  });

  test('sets with it are told beside those without it', () => {
    const times = [
      on(SEP, [], { clean: 7, noted: 12, cues: [use(6, 5, 1, 0, 5, 6)] }),
      on(OCT, [], { clean: 2, noted: 5, cues: [use(5, 3, 0, 1, 3, 5)] }),
      on(NOV, [], { clean: 3, noted: 5 }),
    ];
    const [tally] = cueTallies(times);
    expect(tally && cueLines(tally)).toEqual([
      'better on 8 of 11, same on 1, worse on 1, not noted on 1',
      'clean form on 8 of 11 sets with it, on 4 of 11 without',
    ]);
  });

  test('under five uses it is too few to tell', () => {
    const lines = (given: number) => {
      const [tally] = cueTallies([on(SEP, [], { cues: [use(given, given, 0, 0, 0, 0)] })]);
      return tally && cueLines(tally);
    };
    expect(lines(4)).toEqual(['too few to tell (4)']);
    expect(lines(5)).toEqual(['better on 5 of 5, same on 0, worse on 0', 'form not noted on sets with it']);
  });
});
