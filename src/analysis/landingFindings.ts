import type { Day } from '../domain/day';
import { LANDING_SIGNS, type LandingSign, SIDES } from '../domain/set';
import type { LandingsFinding } from './clientFinding';
import { evidenceOf, holds, isWithin, type Known, LATELY_DAYS } from './known';
import { type LandingQuality, type LandingsJudged, landingQuality } from './landingQuality';
import { chancesToBeBest } from './stats/beta';
import { wilson } from './stats/wilson';

/*
 * Landings of the latest session against the range of the level, and how many were good of late, by exercise, side and direction. A range is a guide to
 * plan by: above it is worth a look, and no danger.
 */

/** Fewer landings than this that somebody judged tell next to nothing; of one side, where sides are compared (our own choice). */
const FEWEST_JUDGED = 10;
/** How sure it has to be that a side is less often good: of two sides that are alike one is called so at one look in twenty. */
const SURE = 0.975;
/** What the interval of a share is for. */
const INTERVAL = 0.95;

/** Returns what is found of landings within the last six weeks. */
export const landingFindings = (known: Known): readonly LandingsFinding[] => [
  ...countFinding(known),
  ...goodFindings(known),
];

function countFinding({ others, asOf }: Known): readonly LandingsFinding[] {
  const last = others.landings.sessions.findLast(({ day }) => day <= asOf);
  if (!last || !isWithin(last.day, asOf, LATELY_DAYS)) return [];
  const { day, session, landings, against, hoursSince } = last;
  const said = {
    topic: 'landings',
    day,
    evidence: [session],
    certainty: 1,
    landings,
    ...(hoursSince === undefined ? {} : { hoursSince }),
  } as const;
  if (!against) return [{ ...said, type: 'no-level', next: { type: 'note-level' } }];
  return [{ ...said, type: against.type, against, next: { type: against.type === 'above' ? 'look-into' : 'keep-on' } }];
}

function goodFindings({ visits, asOf }: Known): readonly LandingsFinding[] {
  const near = visits.filter(({ day }) => isWithin(day, asOf, LATELY_DAYS));
  const landed = near.flatMap(({ session }) => session.sets.filter(({ landings }) => landings !== undefined));
  return [...new Set(landed.flatMap(({ exercise }) => exercise ?? []))].sort().flatMap((exercise) => {
    const own = near.filter(({ session }) => holds(session, exercise));
    const judged = landingQuality(
      own.map(({ session }) => session),
      exercise,
    );
    const [first, last] = [own[0], own.at(-1)];
    if (!first || !last) return [];
    const said = { topic: 'landings', exercise, day: last.day, evidence: evidenceOf(own) } as const;
    return goodFinding(said, judged, first.day);
  });
}

type Of = Pick<LandingsFinding, 'topic' | 'day' | 'evidence'> & { readonly exercise: string };

function goodFinding(said: Of, { parts, unjudged }: LandingsJudged, since: Day): readonly LandingsFinding[] {
  const has = parts.reduce((sum, { of }) => sum + of, 0);
  if (has + unjudged === 0) return [];
  if (has < FEWEST_JUDGED) {
    const next = { type: 'log-more', what: 'judged', count: FEWEST_JUDGED - has } as const;
    return [{ ...said, type: 'too-few', certainty: 1, has, needs: FEWEST_JUDGED, unjudged, next }];
  }
  const sides = [...SIDES, undefined].flatMap((side) => added(parts.filter((part) => part.side === side)));
  const told = { ...said, since, sides, parts, unjudged };
  const [left, right] = SIDES.map((one) => sides.find(({ side }) => side === one));
  if (left && right && left.of >= FEWEST_JUDGED && right.of >= FEWEST_JUDGED) {
    const [leftBest = 0.5, rightBest = 0.5] = chancesToBeBest([left, right].map(betaOf));
    const certainty = Math.max(leftBest, rightBest);
    const side = leftBest > rightBest ? 'right' : 'left';
    if (certainty >= SURE) return [{ ...told, type: 'weaker-side', side, certainty, next: { type: 'look-into' } }];
  }
  return [{ ...told, type: 'good', certainty: INTERVAL, next: { type: 'keep-on' } }];
}

/** From no view at all (Bayes 1763: every share as likely as any other) by what was counted. */
const betaOf = ({ good, of }: LandingQuality) => ({ a: 1 + good, b: 1 + of - good });

/** The parts of one side over all directions. */
function added(parts: readonly LandingQuality[]): readonly LandingQuality[] {
  const [first] = parts;
  const good = parts.reduce((sum, one) => sum + one.good, 0);
  const of = parts.reduce((sum, one) => sum + one.of, 0);
  const interval = wilson(good, of);
  if (!first || !interval) return [];
  const missing: { [S in LandingSign]?: number } = {};
  for (const sign of LANDING_SIGNS) {
    const count = parts.reduce((sum, one) => sum + (one.missing[sign] ?? 0), 0);
    if (count > 0) missing[sign] = count;
  }
  return [{ ...(first.side ? { side: first.side } : {}), good, of, share: good / of, ...interval, missing }];
}
