import { describe, expect, test } from 'vitest';
import { bodyShare, type Sex, systemLoad } from '../../src/domain/bodyShare';
import { published } from './published';

type Masses = Readonly<Record<string, number>>;
const segments = published<{ readonly pairs: readonly string[]; readonly female: Masses; readonly male: Masses }>(
  'segmentMasses',
);
const sexes: readonly Sex[] = ['female', 'male'];

describe(segments.source, () => {
  test.each(sexes)('the segments of a %s body make the whole of it (the table is typed as it was published)', (sex) => {
    let whole = 0;
    for (const [segment, mass] of Object.entries(segments[sex]))
      whole += mass * (segments.pairs.includes(segment) ? 2 : 1);
    expect(Math.abs(whole - 1)).toBeLessThan(3e-4);
  });

  // our own reckoning: the body less what rests on the bar or the floor
  test.each([
    ['lib-pull-up', 0.9612, 0.9554],
    ['lib-chin-up', 0.9612, 0.9554],
    ['lib-neutral-pull-up', 0.9612, 0.9554],
    ['lib-dip', 0.9612, 0.9554],
    ['lib-bodyweight-squat', 0.878, 0.886],
    ['lib-back-squat', 0.878, 0.886],
    ['lib-single-leg-squat', 0.939, 0.943],
  ])('%s moves %s of a woman, %s of a man', (id, female, male) => {
    expect(bodyShare(id, 'female')).toBeCloseTo(female, 6);
    expect(bodyShare(id, 'male')).toBeCloseTo(male, 6);
  });

  test('62 kg woman with 10 kg on a pull-up, with 20 kg of help, and 80 kg man with 60 kg on a squat', () => {
    const kg = (value: number) => ({ value, unit: 'kg' }) as const;
    expect(systemLoad(bodyShare('lib-pull-up', 'female'), kg(62), { added: kg(10) })).toBeCloseTo(69.5944, 6);
    expect(systemLoad(bodyShare('lib-pull-up', 'female'), kg(62), { assist: kg(20) })).toBeCloseTo(39.5944, 6);
    expect(systemLoad(bodyShare('lib-back-squat', 'male'), kg(80), { added: kg(60) })).toBeCloseTo(130.88, 6);
  });
});

type UpDown = { readonly up: number; readonly down: number };
type PushUp = { readonly female?: UpDown; readonly male: UpDown };
const { source, ...pushUps } = published<Readonly<Record<string, PushUp>>>('pushUps');

describe(source, () => {
  const rows = Object.entries(pushUps as Readonly<Record<string, PushUp>>);
  test.each(rows)('%s: as far from the share up as from the share down', (name, measured) => {
    for (const sex of sexes) {
      const share = bodyShare(`lib-${name}`, sex);
      const of = measured[sex];
      if (!of) expect(share).toBeUndefined();
      else {
        expect(share).toBeGreaterThan(of.up);
        expect(share).toBeLessThan(of.down);
        expect((share ?? 0) - of.up).toBeCloseTo(of.down - (share ?? 0), 9);
      }
    }
  });
});

describe('nothing is told', () => {
  test.each(['lib-split-squat', 'lib-inverted-row', 'lib-reverse-lunge'])(
    'of %s, for want of a published share',
    (id) => {
      for (const sex of sexes) expect(bodyShare(id, sex)).toBeUndefined();
    },
  );

  test.each([
    ['help is as much as the body', 0.5, 60, 0, 30],
    ['there is no mass', 0.5, 0, 0, 0],
    ['it is too huge to be a number', 1, Number.MAX_VALUE, Number.MAX_VALUE, 0],
  ])('where %s', (_, share, mass, added, assist) => {
    const kg = (value: number) => ({ value, unit: 'kg' }) as const;
    expect(systemLoad(share, kg(mass), { added: kg(added), assist: kg(assist) })).toBeUndefined();
  });
});
