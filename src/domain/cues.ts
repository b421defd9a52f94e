import type { Pattern } from './exercise';
import { SHIPPED_FAULTS, type ShippedFault } from './library';

/** Where a cue sends the attention: to the body, to what the movement does, or to an image. None is scored above another. */
export const FOCUSES = ['body', 'effect', 'image'] as const;
export type Focus = (typeof FOCUSES)[number];

export type ShippedCue = {
  readonly id: string;
  readonly words: string;
  readonly focus: Focus;
  /** What it is said for. */
  readonly fault: ShippedFault;
  /** The patterns it suits; none named: any. */
  readonly patterns: readonly Pattern[];
};

type Words = readonly [id: string, words: string];

/** Three cues for one fault: on the body, on the effect, an image. */
const cuesFor = (fault: ShippedFault, patterns: readonly Pattern[], ...three: readonly [Words, Words, Words]) =>
  three.map(([id, words], at): ShippedCue => {
    const focus = FOCUSES[at] ?? 'body';
    return { id: `lib-${id}`, words, focus, fault, patterns };
  });

/** The cues that ship with the app, written for it. Code, not rows: a set names them by their ids, which never change. */
export const SHIPPED_CUES: readonly ShippedCue[] = [
  ...cuesFor(
    'lib-heel-up',
    ['squat', 'hinge'],
    ['cue-whole-foot', 'whole foot stays heavy'],
    ['cue-print-the-floor', 'leave a full footprint'],
    ['cue-roots', 'roots under the heels'],
  ),
  ...cuesFor(
    'lib-knee-in',
    ['squat', 'landing'],
    ['cue-knees-small-toes', 'knees over the small toes'],
    ['cue-part-the-floor', 'tear the paper between your feet'],
    ['cue-saloon-doors', 'knees open two swing doors'],
  ),
  ...cuesFor(
    'lib-back-round',
    ['hinge', 'squat', 'pull'],
    ['cue-long-spine', 'stay long from seat to crown'],
    ['cue-show-the-shirt', 'show your shirt front to the wall'],
    ['cue-broom-back', 'a broomstick down your back'],
  ),
  ...cuesFor(
    'lib-shrug',
    ['push', 'pull', 'carry', 'throw'],
    ['cue-ears-free', 'shoulders away from the ears'],
    ['cue-bar-to-you', 'bring the handle to you, not you to it'],
    ['cue-wet-coat', 'wear a wet, heavy coat'],
  ),
  ...cuesFor(
    'lib-early-arm',
    ['throw', 'hinge', 'skill'],
    ['cue-arms-last', 'arms come last'],
    ['cue-floor-sends-it', 'let the floor send it'],
    ['cue-whip', 'a whip: handle first, tip last'],
  ),
  ...cuesFor(
    'lib-short-range',
    ['squat', 'push', 'pull', 'range'],
    ['cue-all-the-way', 'bend all the way, straighten all the way'],
    ['cue-touch-every-rep', 'touch the mark every rep'],
    ['cue-ground-floor', 'ride the lift to the ground floor'],
  ),
  ...cuesFor(
    'lib-back-arch',
    ['push', 'trunk', 'carry'],
    ['cue-seat-tight', 'seat tight, tail tucked a little'],
    ['cue-buckle-up', 'tip the belt buckle up'],
    ['cue-full-bowl', 'your hips are a full bowl: spill nothing'],
  ),
  ...cuesFor(
    'lib-ribs-up',
    ['push', 'trunk', 'carry', 'squat'],
    ['cue-ribs-to-hips', 'front ribs towards the hips'],
    ['cue-sigh-and-stay', 'breathe out until it gets firm, keep that'],
    ['cue-shut-the-lid', 'shut the lid on the box'],
  ),
  ...cuesFor(
    'lib-hip-shift',
    ['squat', 'hinge', 'carry'],
    ['cue-hips-level', 'both hips at one height'],
    ['cue-two-scales', 'the same weight on two scales'],
    ['cue-tray', 'carry a tray of glasses on your hips'],
  ),
  ...cuesFor(
    'lib-hips-first',
    ['squat', 'hinge'],
    ['cue-chest-with-hips', 'chest and hips leave together'],
    ['cue-bar-first', 'the bar goes up first'],
    ['cue-one-plank', 'rise as one board'],
  ),
  ...cuesFor(
    'lib-elbows-wide',
    ['push', 'pull'],
    ['cue-elbows-pockets', 'elbows towards the back pockets'],
    ['cue-screw-hands', 'screw your hands into the floor'],
    ['cue-newspaper', 'a newspaper under each arm'],
  ),
  ...cuesFor(
    'lib-wrist-bent',
    ['push', 'throw', 'carry'],
    ['cue-knuckles-ahead', 'knuckles lead, wrist straight'],
    ['cue-load-over-bone', 'stack the load over the forearm'],
    ['cue-full-cup', 'hold a full cup level'],
  ),
  ...cuesFor(
    'lib-head-forward',
    ['pull', 'carry', 'hinge', 'push'],
    ['cue-chin-back', 'chin back, neck long'],
    ['cue-over-the-wall', 'see over a low wall'],
    ['cue-thread', 'a thread lifts your crown'],
  ),
  ...cuesFor(
    'lib-loud-landing',
    ['landing'],
    ['cue-toes-then-heel', 'toes, then heel, then bend'],
    ['cue-nobody-hears', 'land so that nobody hears it'],
    ['cue-cat', 'a cat off a shelf'],
  ),
  ...cuesFor(
    'lib-stiff-landing',
    ['landing', 'skill'],
    ['cue-bend-on-touch', 'hips and knees bend at the touch'],
    ['cue-slow-the-stop', 'make the stop last longer'],
    ['cue-deep-snow', 'sink into deep snow'],
  ),
  ...cuesFor(
    'lib-wobble',
    ['landing', 'squat', 'skill'],
    ['cue-standing-seat', 'tighten the seat on the standing side'],
    ['cue-hold-the-picture', 'hold the picture for three'],
    ['cue-tripod', 'your foot is a tripod'],
  ),
  ...cuesFor(
    'lib-swing',
    ['pull', 'trunk', 'push'],
    ['cue-legs-still', 'legs and ribs stay still'],
    ['cue-start-from-stop', 'begin every rep from a stop'],
    ['cue-plumb-line', 'hang like a plumb line'],
  ),
  ...cuesFor(
    'lib-rushed',
    [],
    ['cue-three-down', 'count three on the way down'],
    ['cue-stop-then-go', 'stop it, then send it'],
    ['cue-honey', 'move through honey'],
  ),
  ...cuesFor(
    'lib-breath-held',
    [],
    ['cue-breathe-up', 'breathe out as you come up'],
    ['cue-hiss', 'let me hear the air as it moves'],
    ['cue-candle', 'blow a candle out at the top'],
  ),
  ...cuesFor(
    'lib-late-hip',
    ['throw', 'skill', 'hinge'],
    ['cue-hip-opens', 'the hip turns before the shoulder'],
    ['cue-belt-to-target', 'belt to the target first'],
    ['cue-push-the-door', 'shut a heavy door with your hip'],
  ),
];

/** Returns the faults that are seen in a pattern, as the cues for them have it; without a pattern all of them. */
export const faultsIn = (pattern: Pattern | undefined): readonly ShippedFault[] =>
  SHIPPED_FAULTS.filter(
    (fault) =>
      pattern === undefined ||
      SHIPPED_CUES.some((cue) => cue.fault === fault && (cue.patterns.length === 0 || cue.patterns.includes(pattern))),
  );

/** Cues that belong together for the set in hand. */
export type CuePart<C> = {
  readonly title: 'used' | 'fault' | 'own' | 'pattern' | 'others';
  readonly cues: readonly C[];
};

/**
 * Returns cues in the order one looks for one: those given before in this exercise (as `used` has them), those for a fault that was noted, the
 * trainer's own, those that suit the pattern, the rest. Each stands in one part; no part is empty.
 */
export function cueParts<C extends { readonly id: string } & Partial<Pick<ShippedCue, 'fault' | 'patterns'>>>(
  all: readonly C[],
  used: readonly string[],
  faults: readonly string[],
  pattern: Pattern | undefined,
): readonly CuePart<C>[] {
  const left = new Set(all);
  const take = (title: CuePart<C>['title'], cues: readonly C[]): CuePart<C> => {
    const own = cues.filter((cue) => left.has(cue));
    for (const cue of own) left.delete(cue);
    return { title, cues: own };
  };
  const parts = [
    take(
      'used',
      [...new Set(used)].flatMap((id) => all.find((cue) => cue.id === id) ?? []),
    ),
    take(
      'fault',
      all.filter(({ fault }) => fault !== undefined && faults.includes(fault)),
    ),
    take(
      'own',
      all.filter(({ fault }) => fault === undefined),
    ),
    take(
      'pattern',
      all.filter(({ patterns }) => pattern !== undefined && patterns?.includes(pattern)),
    ),
    take('others', all),
  ];
  return parts.filter(({ cues }) => cues.length > 0);
}
