import { evidenceOf, isWithin, type Known, TESTED_DAYS } from './known';
import type { LearningCurve } from './learningCurve';
import type { LearningFinding } from './otherFindings';
import { meanOf } from './stats/spread';

/* How the share of good ones grows on the weaker side of an exercise. */

/** The sessions by which the weaker side is told. */
const LAST = 3;

/** Returns what is found of exercises of which both sides were judged within a quarter of a year; nothing where both are equal. */
export function learningFindings({ others, visits, asOf }: Known): readonly LearningFinding[] {
  return others.learning.flatMap(({ exercise, sides, weaker }): readonly LearningFinding[] => {
    const own = sides.find(({ side }) => side === weaker);
    const than = sides.find(({ side }) => side !== weaker);
    const judged = visits.filter(({ session }) =>
      session.sets.some((set) => set.exercise === exercise && set.side === weaker && isJudged(set)),
    );
    const [first, last] = [judged[0], judged.at(-1)];
    if (!weaker || !own || !than || !first || !last || !isWithin(last.day, asOf, TESTED_DAYS)) return [];
    const share = (attempts: typeof own.attempts): number =>
      meanOf(attempts.slice(-LAST).map(({ value }) => value)) ?? 0;
    const said = {
      topic: 'learning',
      exercise,
      side: weaker,
      day: last.day,
      since: first.day,
      evidence: evidenceOf(judged),
      judged: own.attempts.length,
      share: share(own.attempts),
      other: share(than.attempts),
    } as const;
    return [finding(said, own.curve)];
  });
}

const isJudged = ({ kind, good, marks, unread }: Known['visits'][number]['session']['sets'][number]): boolean =>
  kind !== 'warm-up' && unread.length === 0 && (good !== undefined || marks.length > 0);

type Of = Pick<
  LearningFinding,
  'topic' | 'exercise' | 'side' | 'day' | 'since' | 'evidence' | 'judged' | 'share' | 'other'
>;

function finding(said: Of, curve: LearningCurve): LearningFinding {
  switch (curve.type) {
    case 'curve':
      return { ...said, ...curve, next: { type: 'keep-on' } };
    case 'too-few': {
      const { has, needs } = curve;
      return { ...said, ...curve, certainty: 1, next: { type: 'log-more', what: 'sessions', count: needs - has } };
    }
    case 'no-bend':
      return { ...said, type: curve.type, next: { type: 'keep-on' } };
    case 'no-improvement':
      return { ...said, type: curve.type, next: { type: 'look-into' } };
  }
}
