import type { CuePart, Focus } from '../domain/cues';
import type { Exercise, Pattern } from '../domain/exercise';
import type { Kit } from '../domain/kit';
import { placeFields } from '../domain/kitFields';
import type { PlaceKind } from '../domain/kitPresets';
import type { ShippedFault } from '../domain/library';
import type { Area, AreaShare } from '../domain/muscles';
import type { LibraryPart } from '../domain/recent';
import { clipped, duration, number } from './format';
import type { LibraryTab } from './routes';

/* What the things of the library are called: faults, cues, muscles, places. */

export const FAULTS: Readonly<Record<ShippedFault, string>> = {
  'lib-heel-up': 'heel up',
  'lib-knee-in': 'knee in',
  'lib-back-round': 'back rounding',
  'lib-shrug': 'shrug',
  'lib-early-arm': 'early arm',
  'lib-short-range': 'short range',
  'lib-back-arch': 'back arching',
  'lib-ribs-up': 'ribs up',
  'lib-hip-shift': 'hip shift',
  'lib-hips-first': 'hips up first',
  'lib-elbows-wide': 'elbows wide',
  'lib-wrist-bent': 'wrist bent',
  'lib-head-forward': 'head forward',
  'lib-loud-landing': 'loud landing',
  'lib-stiff-landing': 'stiff landing',
  'lib-wobble': 'wobble',
  'lib-swing': 'swing',
  'lib-rushed': 'rushed',
  'lib-breath-held': 'breath held',
  'lib-late-hip': 'late hip',
};

export const TAB: Readonly<Record<LibraryTab, string>> = {
  exercises: 'exercises',
  cues: 'cues',
  faults: 'faults',
  places: 'places',
};

export const FOCUS: Readonly<Record<Focus, string>> = {
  body: 'on the body',
  effect: 'on the effect',
  image: 'an image',
};

export const PLACE_KIND: Readonly<Record<PlaceKind, string>> = {
  'commercial-gym': 'commercial gym',
  'small-studio': 'small studio',
  'hotel-room': 'hotel room',
};

export const AREA: Readonly<Record<Area, string>> = {
  quads: 'quads',
  hamstrings: 'hamstrings',
  glutes: 'glutes',
  'inner-thighs': 'inner thighs',
  calves: 'calves',
  'hip-front': 'front of the hip',
  chest: 'chest',
  shoulders: 'shoulders',
  'rear-shoulders': 'rear shoulders',
  'upper-back': 'upper back',
  lats: 'lats',
  biceps: 'biceps',
  triceps: 'triceps',
  grip: 'grip',
  'front-trunk': 'front of the trunk',
  'side-trunk': 'side of the trunk',
  'lower-back': 'lower back',
};

export const PART: Readonly<Record<Exclude<LibraryPart['title'], Pattern>, string>> = {
  today: 'today',
  recent: 'done last',
  usual: 'usual of late',
  own: 'your own',
};

export const CUE_PART: Readonly<Record<CuePart<unknown>['title'], string>> = {
  used: 'given before in this exercise',
  fault: 'for the fault noted',
  own: 'your own',
  pattern: 'suits this exercise',
  others: 'others',
};

/** Returns what a cue is for and where it sends the attention: `for knee in, on the body`; empty for one in the trainer's words. */
export function cueFor({ fault, focus }: { readonly fault?: ShippedFault; readonly focus?: Focus }): string {
  return [fault && `for ${FAULTS[fault]}`, focus && FOCUS[focus]].filter((text) => text).join(', ');
}

/** Returns why a search found nothing, and what can be done. */
export function nothingFound(typed: string, closed: readonly string[]): string {
  const name = clipped(typed.trim());
  if (closed.length > 0) return `${closed.join(', ')}: closed by a restriction or by pain.`;
  return `Nothing here is called “${name}”, nor nearly so. It can be added by that name.`;
}

/** Returns what a set of an exercise holds, its step and its rest, as a sentence. */
export function exerciseLine({ perHand, holds, step, rest }: Exercise, held: string, sides: string): string {
  const steps = holds === 'tick' || holds === 'body' || holds === 'band' ? '' : `, steps of ${number(step)}`;
  return `${held}${perHand ? ', one in each hand' : ''}; ${sides}${steps}; rest ${duration(rest)}.`;
}

/** Returns the areas an exercise works: `quads, glutes; half: inner thighs`; empty where there are none. */
export function areaLine(areas: readonly AreaShare[]): string {
  const named = (share: 1 | 0.5): string =>
    areas
      .filter((one) => one.share === share)
      .map(({ area }) => AREA[area])
      .join(', ');
  const half = named(0.5);
  return half === '' ? named(1) : `${named(1)}; half: ${half}`;
}

/** Returns the kit of a place in lines: bands, pins, bars, plates, dumbbells, as far as they are noted. */
export function kitLines(kit: Kit): readonly string[] {
  const { name: _, bands, pins, bars, plates, dumbbells } = placeFields('', kit);
  const named = { Bands: bands, 'Highest pin': pins, Bars: bars, Plates: plates, Dumbbells: dumbbells };
  return Object.entries(named).flatMap(([what, text]) => {
    if (text === '') return [];
    return [`${what}: ${text}${what === 'Bands' || what === 'Highest pin' ? '' : ` ${kit.unit}`}`];
  });
}
