import { type NumberFault, parseNumber } from './number';
import { fail, ok, type Result } from './result';
import { BOUNDS, MOST_SET_UP, TEMPO } from './set';
import { HEIGHT_UNITS, type Height, type HeightUnit, MOST_HEIGHT } from './units';

/** How an exercise is set up: the words for grip, seat and the like, and what is computed with, each by itself. */
export type SetUp = {
  readonly setUp?: string;
  readonly tempo?: string;
  readonly height?: Height;
  /** Seconds held still in each rep. */
  readonly pause?: number;
};

/** A set-up as it is typed; empty is empty. */
export type SetUpTexts = {
  readonly setUp: string;
  readonly tempo: string;
  readonly height: string;
  readonly heightUnit: HeightUnit;
  readonly pause: string;
};

/** The registers of a set-up, in a set and, under `setUps/<exercise>/`, of a client. */
export const SET_UP_PATHS = ['setUp', 'tempo', 'height', 'pause'] as const;

export type SetUpFault =
  | NumberFault<'height' | 'pause'>
  | { readonly type: 'label-too-long'; readonly field: 'setUp'; readonly most: number; readonly has: number }
  | { readonly type: 'not-a-tempo'; readonly field: 'tempo'; readonly text: string };

/** Returns the registers of a set-up as typed; a field left empty has none. Fails with the first fault. */
export function parseSetUp(texts: SetUpTexts): Result<SetUp, SetUpFault> {
  const setUp = texts.setUp.trim();
  if (setUp.length > MOST_SET_UP)
    return fail({ type: 'label-too-long', field: 'setUp', most: MOST_SET_UP, has: setUp.length });
  const tempo = texts.tempo.trim();
  if (tempo !== '' && !TEMPO.test(tempo)) return fail({ type: 'not-a-tempo', field: 'tempo', text: tempo });
  const height = parseNumber('height', texts.height, { min: 0, max: MOST_HEIGHT[texts.heightUnit] }, texts.heightUnit);
  if (!height.ok && height.error.type !== 'empty') return height;
  const pause = parseNumber('pause', texts.pause, BOUNDS.pause, 's');
  if (!pause.ok && pause.error.type !== 'empty') return pause;
  return ok({
    ...(setUp === '' ? {} : { setUp }),
    ...(tempo === '' ? {} : { tempo }),
    ...(height.ok ? { height: { value: height.value, unit: texts.heightUnit } } : {}),
    ...(pause.ok ? { pause: pause.value } : {}),
  });
}

/** Returns the texts that would enter a set-up; a height that is not there yet begins in `unit`. */
export function setUpTexts({ setUp, tempo, height, pause }: SetUp, unit: HeightUnit = HEIGHT_UNITS[0]): SetUpTexts {
  return {
    setUp: setUp ?? '',
    tempo: tempo ?? '',
    height: height ? String(height.value) : '',
    heightUnit: height?.unit ?? unit,
    pause: pause === undefined ? '' : String(pause),
  };
}

/** Returns the seconds one rep takes at a tempo, or undefined where a part of it is "as fast as can be". */
export function secondsOfTempo(tempo: string): number | undefined {
  const parts = [...tempo.replaceAll('-', '')].map(Number);
  return parts.some(Number.isNaN) ? undefined : parts.reduce((sum, part) => sum + part, 0);
}
