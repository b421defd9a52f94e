/** Areas that sets are counted for, as a trainer names them. */
export const AREAS = [
  'quads',
  'hamstrings',
  'glutes',
  'inner-thighs',
  'calves',
  'hip-front',
  'chest',
  'shoulders',
  'rear-shoulders',
  'upper-back',
  'lats',
  'biceps',
  'triceps',
  'grip',
  'front-trunk',
  'side-trunk',
  'lower-back',
] as const;
export type Area = (typeof AREAS)[number];

/** A set counts whole for an area it works directly, half for one it works indirectly. */
export type AreaShare = { readonly area: Area; readonly share: 1 | 0.5 };

const SQUAT = 'quads glutes, inner-thighs lower-back';
const LUNGE = 'quads glutes, inner-thighs hamstrings';
const PULL_FROM_FLOOR = 'glutes hamstrings lower-back, quads grip upper-back';
const HINGE = 'glutes hamstrings, lower-back grip';
const BRIDGE = 'glutes, hamstrings';
const BENCH = 'chest, triceps shoulders';
const PRESS = 'shoulders triceps, upper-back';
const PULL = 'lats, biceps upper-back grip';
const ROW = 'upper-back lats, biceps rear-shoulders';
const REAR = 'rear-shoulders, upper-back';
const CURL = 'biceps, grip';
const CARRY = 'grip, upper-back side-trunk';
const JUMP = 'quads glutes calves, hamstrings';
const HOP = 'calves quads, glutes';
const STRIKE = 'side-trunk, shoulders triceps';
const KICK = 'hip-front side-trunk, quads glutes';
const FRONT = 'front-trunk, side-trunk';
const SIDE = 'side-trunk, front-trunk';

/** By exercise: the areas worked directly, then behind the comma those worked indirectly. Common practice, as trainers count. */
const WORKED: Readonly<Record<string, string>> = {
  'front-squat': SQUAT,
  'back-squat': SQUAT,
  'goblet-squat': SQUAT,
  'box-squat': SQUAT,
  'paused-squat': SQUAT,
  'overhead-squat': 'quads glutes, shoulders upper-back lower-back',
  'bodyweight-squat': SQUAT,
  'split-squat': LUNGE,
  'single-leg-squat': LUNGE,
  'rear-foot-split-squat': LUNGE,
  'reverse-lunge': LUNGE,
  'walking-lunge': LUNGE,
  'side-lunge': 'glutes inner-thighs, quads',
  'step-up': LUNGE,
  'step-down': 'quads, glutes',
  'squat-to-press': 'quads glutes shoulders, triceps',
  'leg-press': 'quads glutes, inner-thighs',
  'leg-extension': 'quads',
  'wall-sit': 'quads, glutes',
  'calf-raise': 'calves',
  'single-leg-calf-raise': 'calves',
  deadlift: PULL_FROM_FLOOR,
  'trap-bar-deadlift': 'glutes quads hamstrings, lower-back grip',
  'wide-deadlift': 'glutes inner-thighs, hamstrings lower-back grip',
  'kettlebell-deadlift': HINGE,
  'romanian-deadlift': HINGE,
  'dumbbell-romanian': HINGE,
  'single-leg-romanian': HINGE,
  'hip-thrust': BRIDGE,
  'glute-bridge': BRIDGE,
  'single-leg-bridge': BRIDGE,
  'good-morning': 'hamstrings lower-back, glutes',
  'back-extension': 'lower-back, glutes hamstrings',
  'kettlebell-swing': HINGE,
  'power-clean': PULL_FROM_FLOOR,
  'clean-pull': PULL_FROM_FLOOR,
  'dumbbell-snatch': 'glutes, hamstrings shoulders upper-back',
  'cable-pull-through': BRIDGE,
  'leg-curl': 'hamstrings',
  'slider-curl': 'hamstrings, glutes',
  'nordic-lower': 'hamstrings',
  'bench-press': BENCH,
  'dumbbell-press': BENCH,
  'incline-bench': 'chest shoulders, triceps',
  'paused-bench': BENCH,
  'floor-press': 'chest triceps, shoulders',
  'close-grip-bench': 'triceps chest, shoulders',
  'push-up': 'chest, triceps shoulders front-trunk',
  'incline-push-up': BENCH,
  'knee-push-up': BENCH,
  'feet-up-push-up': 'chest shoulders, triceps front-trunk',
  'strap-push-up': 'chest, triceps shoulders front-trunk',
  'overhead-press': PRESS,
  'shoulder-press': PRESS,
  'half-kneeling-press': 'shoulders triceps, side-trunk',
  'landmine-press': 'shoulders, chest triceps',
  'push-press': 'shoulders triceps, quads glutes',
  dip: 'chest triceps, shoulders',
  'pike-push-up': PRESS,
  'wall-handstand': 'shoulders, triceps upper-back',
  'chest-press-machine': BENCH,
  'cable-press': 'chest, triceps side-trunk',
  'band-press': BENCH,
  'lateral-raise': 'shoulders',
  'dumbbell-fly': 'chest',
  'triceps-pressdown': 'triceps',
  'one-arm-row': ROW,
  'pull-up': PULL,
  'chin-up': 'lats biceps, upper-back grip',
  'neutral-pull-up': PULL,
  'pull-up-lower': PULL,
  'inverted-row': ROW,
  'strap-row': ROW,
  'barbell-row': 'upper-back lats, biceps lower-back rear-shoulders',
  'chest-supported-row': ROW,
  'seated-row': ROW,
  'band-row': ROW,
  'lat-pulldown': PULL,
  'kneeling-cable-pull': PULL,
  'band-pull-apart': REAR,
  'face-pull': REAR,
  'rear-fly': REAR,
  'band-turn-out': 'rear-shoulders',
  'dead-hang': 'grip, lats',
  'bent-arm-hang': 'lats biceps, grip',
  'shoulder-blade-pull': 'lats, upper-back grip',
  'dumbbell-curl': CURL,
  'hammer-curl': 'biceps grip',
  'shoulder-shrug': 'upper-back, grip',
  'rope-climb': 'lats biceps grip, upper-back front-trunk',
  'farmer-carry': CARRY,
  'suitcase-carry': 'side-trunk grip, upper-back',
  'front-carry': 'upper-back front-trunk, shoulders biceps',
  'overhead-carry': 'shoulders, side-trunk upper-back',
  'bear-hug-carry': 'upper-back biceps, front-trunk lower-back',
  'stair-carry': 'quads glutes, calves grip',
  'sled-push': 'quads glutes, calves',
  'sled-drag': 'quads, calves grip',
  'box-jump': JUMP,
  'drop-landing': JUMP,
  'jump-and-hold': JUMP,
  'broad-jump': JUMP,
  'depth-jump': JUMP,
  'tuck-jump': JUMP,
  'turn-jump': JUMP,
  'hop-and-hold': HOP,
  'side-bound': 'glutes quads calves, inner-thighs',
  'single-leg-drop': HOP,
  'pogo-hop': 'calves',
  'hurdle-hop': HOP,
  'ball-throw': SIDE,
  'straight-punch': STRIKE,
  'hook-punch': STRIKE,
  'elbow-strike': STRIKE,
  'staff-strike': STRIKE,
  'knee-strike': KICK,
  'front-kick': KICK,
  'round-kick': KICK,
  'ball-slam': 'front-trunk lats, shoulders',
  'chest-pass': 'chest, triceps shoulders',
  'scoop-throw': 'glutes side-trunk, hamstrings',
  'get-up': 'shoulders front-trunk, side-trunk glutes',
  'floor-to-standing': 'quads glutes, front-trunk',
  'bear-crawl': 'front-trunk shoulders, quads',
  'side-plank': SIDE,
  plank: FRONT,
  'inner-thigh-plank': 'inner-thighs side-trunk',
  'hollow-hold': 'front-trunk, hip-front',
  'dead-bug': FRONT,
  'bird-dog': 'lower-back, glutes front-trunk',
  'wheel-rollout': 'front-trunk, lats',
  'knee-raise': 'front-trunk hip-front, grip',
  'leg-raise': 'front-trunk hip-front, grip',
  'sit-up': 'front-trunk, hip-front',
  'press-out': SIDE,
  'cable-chop': SIDE,
  'deep-squat-hold': 'quads, inner-thighs',
};

/** Returns the areas a shipped exercise works, the direct ones first; empty for one that works on range or skill, or is not shipped. */
export function musclesOf(exercise: string): readonly AreaShare[] {
  const worked = exercise.startsWith('lib-') ? WORKED[exercise.slice(4)] : undefined;
  const [direct = '', indirect = ''] = worked?.split(', ') ?? [];
  return [
    ...direct.split(' ').flatMap((word) => areaOf(word, 1)),
    ...indirect.split(' ').flatMap((word) => areaOf(word, 0.5)),
  ];
}

function areaOf(word: string, share: 1 | 0.5): readonly AreaShare[] {
  const area = AREAS.find((one) => one === word);
  return area ? [{ area, share }] : [];
}
