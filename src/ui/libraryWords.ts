import type { CuePart, Focus } from '../domain/cues';
import type { Pattern } from '../domain/exercise';
import type { PlaceKind } from '../domain/kitPresets';
import type { ShippedFault } from '../domain/library';
import type { Area } from '../domain/muscles';
import type { LibraryPart } from '../domain/recent';
import { clipped } from './format';

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
