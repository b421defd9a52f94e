import { type BodyMass, nearestNoted } from '../domain/bodyMass';
import { bodyShare, type Sex, systemLoad } from '../domain/bodyShare';
import { type Day, daysBetween } from '../domain/day';
import type { Exercise } from '../domain/exercise';
import type { Hold, SetRecord } from '../domain/set';
import { toKg } from '../domain/units';

/*
 * What one repetition of a set moves, in kg: what is held, of a pair both; with one's own body the share of it that is moved, with what is added or
 * taken off (shares: domain/bodyShare.ts). What cannot be told is named, and never taken as 0.
 */

/** Why a set's kg are not known. */
export const NOT_MOVED = [
  'no-load',
  'no-reps',
  'no-mass',
  'no-share',
  // a band or a pin is no number of kg
  'no-number',
  // help is as much as the body
  'nothing-left',
  // merged values that do not go together, or from a newer app
  'unread',
] as const;
export type NotMoved = (typeof NOT_MOVED)[number];

/** What is known of the client's own body: masses as they were noted, in any order, and the sex that shares are published by. */
export type OwnBody = { readonly masses: readonly BodyMass[]; readonly sex?: Sex };

export type Moved = {
  /** Each part of the set: reps, kg moved by one of them, and kg as one hand holds it (the same where it is no pair). */
  readonly parts: readonly { readonly reps: number; readonly kg: number; readonly held: number }[];
  /** With one's own body: the share of it that was reckoned with, 0–1, and by how many days its mass lies off the set's day. */
  readonly share?: number;
  readonly massAge?: number;
};

/** Body mass older than this is told to be stale, days (our own choice). */
export const STALE_DAYS = 28;

/** Returns what a set moved on a day, or why that is not known. A drop set or cluster is known where each of its parts is. */
export function movedIn(
  set: SetRecord,
  exercise: Pick<Exercise, 'id' | 'holds' | 'perHand'>,
  body: OwnBody,
  day: Day,
): Moved | NotMoved {
  if (set.unread.length > 0) return 'unread';
  const share = exercise.holds === 'body' ? bodyShare(exercise.id, body.sex) : undefined;
  const mass = exercise.holds === 'body' ? massNear(body.masses, day) : undefined;
  const parts: { reps: number; kg: number; held: number }[] = [];
  for (const part of [set, ...set.parts]) {
    const held = exercise.holds === 'body' ? withBody(part, share, mass) : heldIn(part);
    if (typeof held === 'string') return held;
    if (part.reps === undefined) return 'no-reps';
    parts.push({ reps: part.reps, held, kg: exercise.perHand ? 2 * held : held });
  }
  return {
    parts,
    ...(share === undefined ? {} : { share }),
    ...(mass ? { massAge: Math.abs(daysBetween(mass.day, day)) } : {}),
  };
}

function heldIn({ load, band, pin }: Hold): number | NotMoved {
  if (load) return toKg(load);
  return band !== undefined || pin !== undefined ? 'no-number' : 'no-load';
}

function withBody(
  { added, assist, band }: Hold,
  share: number | undefined,
  mass: BodyMass | undefined,
): number | NotMoved {
  if (band !== undefined) return 'no-number';
  if (share === undefined) return 'no-share';
  if (!mass) return 'no-mass';
  return systemLoad(share, mass, { ...(added ? { added } : {}), ...(assist ? { assist } : {}) }) ?? 'nothing-left';
}

/** Returns the body mass for a day: the latest noted by then (of one day the one noted last), else the first one after; undefined for none. */
export const massNear = (masses: readonly BodyMass[], day: Day): BodyMass | undefined =>
  nearestNoted(masses, day, isLater);

const isLater = (a: BodyMass, b: BodyMass): boolean =>
  a.notedAt > b.notedAt || (a.notedAt === b.notedAt && toKg(a) > toKg(b));
