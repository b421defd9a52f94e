import { wasAsked } from '../domain/arrival';
import { STOP_AT } from '../domain/pain';
import { type SetRecord, SIDES } from '../domain/set';
import type { PainFinding, PainNote } from './clientFinding';
import { evidenceOf, isWithin, type Known, LATELY_DAYS, TESTED_DAYS, type Visit } from './known';

/*
 * Pain that comes again: noted in sets of an exercise, at a place in several exercises, or before sessions; after one or more sessions without, or in two
 * sessions running; a single mild note for a while. A question to the client. From 4 of 10 on, where it ended a set, or rising over two sessions running a licensed practitioner is to be
 * asked (METHODS §14, a rule of this project). What it comes from is not ours to say, and a session without a note may have had it all the same.
 */

/** What happened of one subject in one session it could have been noted in. */
type Seen = Visit & { readonly note?: PainNote; readonly toldNone: boolean };

const MOST_NOTES = 12;
/** Told of for so long after the last note, even where sessions without one have followed. */
const HOT_DAYS = 14;

/** Returns where pain has come again, or has stopped an exercise, by exercise, then place, then before sessions. */
export function painFindings({ client, visits, asOf }: Known): readonly PainFinding[] {
  const near = visits.filter(({ day }) => isWithin(day, asOf, 2 * TESTED_DAYS)).map((visit) => cleared(visit, client));
  const sets = near.flatMap(({ session }) => session.sets);
  const exercises = [...new Set(sets.filter(isPain).flatMap(({ exercise }) => exercise ?? []))].sort();
  const places = [...new Set(sets.filter(isPain).flatMap((set) => placeOf(set) ?? []))].sort();
  const atPlaces = places.flatMap((place) => {
    const own = near.flatMap((visit) => seenAt(visit, place));
    // in one exercise alone it is told of that
    const where = new Set(own.flatMap(({ note }) => note?.exercises ?? []));
    return where.size < 2 ? [] : told(own, asOf, { about: 'place', place });
  });
  const inExercises = exercises.flatMap((exercise) => {
    const own = near.flatMap((visit) => seenIn(visit, (set) => set.exercise === exercise));
    return told(own, asOf, { about: 'exercise', exercise });
  });
  const placed = atPlaces.flatMap(({ notes }) => notes);
  // what is told of its place need not be told once more
  const isPlaced = ({ exercise = '', day }: PainFinding): boolean =>
    placed.some((note) => note.day === day && note.exercises.includes(exercise));
  return [
    ...inExercises.filter((one) => one.type !== 'once' || !isPlaced(one)),
    ...atPlaces,
    ...told(
      near.flatMap((visit) => seenBefore(visit)),
      asOf,
      { about: 'arrival' },
    ),
  ];
}

/** A clearance that was noted later lifts what went before it, as on the floor (domain/pain.ts). */
function cleared({ session, day }: Visit, { clearances = {} }: Known['client']): Visit {
  const isCleared = ({ exercise = '', at }: SetRecord): boolean => (at?.at ?? 0) < (clearances[exercise]?.at ?? 0);
  if (!session.sets.some((set) => isPain(set) && isCleared(set))) return { session, day };
  const sets = session.sets.map((set): SetRecord => {
    const { pain, ended, ...rest } = set;
    return isPain(set) && isCleared(set) ? { ...rest, ...(ended && ended !== 'pain' ? { ended } : {}) } : set;
  });
  return { session: { ...session, sets }, day };
}

const isPain = ({ pain, ended }: SetRecord): boolean => (pain?.value ?? 0) > 0 || ended === 'pain';

const placeOf = ({ pain }: SetRecord): string | undefined => {
  const place = pain?.place?.trim().toLowerCase();
  return place === '' ? undefined : place;
};

function seenIn(visit: Visit, which: (set: SetRecord) => boolean): readonly Seen[] {
  const own = visit.session.sets.filter(which);
  if (own.length === 0) return [];
  const pained = own.filter(isPain);
  const toldNone = pained.length === 0 && own.some(({ pain }) => pain?.value === 0);
  return [{ ...visit, toldNone, ...(pained.length > 0 ? { note: noteOf(visit, pained) } : {}) }];
}

function seenAt(visit: Visit, place: string): readonly Seen[] {
  if (visit.session.sets.length === 0) return [];
  const [seen] = seenIn(visit, (set) => isPain(set) && placeOf(set) === place);
  return [seen ?? { ...visit, toldNone: false }];
}

function seenBefore(visit: Visit): readonly Seen[] {
  const { arrival } = visit.session;
  if (!wasAsked(arrival)) return [];
  const { pain = 0, sore } = arrival;
  if (pain === 0) return [{ ...visit, toldNone: arrival.pain === 0 }];
  const note = { rising: false, ended: false, exercises: [], sides: [], places: sore };
  return [{ ...visit, toldNone: false, note: { session: visit.session.id, day: visit.day, value: pain, ...note } }];
}

function noteOf({ session, day }: Visit, pained: readonly SetRecord[]): PainNote {
  const values = pained.flatMap(({ pain }) => (pain && pain.value > 0 ? [pain.value] : []));
  const all = (of: (set: SetRecord) => string | undefined): readonly string[] =>
    [...new Set(pained.flatMap((set) => of(set) ?? []))].sort();
  return {
    session: session.id,
    day,
    ...(values.length > 0 ? { value: Math.max(...values) } : {}),
    rising: pained.some(({ pain }) => pain?.rising === true),
    ended: pained.some(({ ended }) => ended === 'pain'),
    exercises: all(({ exercise }) => exercise),
    sides: SIDES.filter((side) => pained.some((set) => set.side === side)),
    places: all(placeOf),
  };
}

type About = Pick<PainFinding, 'about' | 'exercise' | 'place'>;

function told(own: readonly Seen[], asOf: string, about: About): readonly PainFinding[] {
  const at = own.findLastIndex(({ note }) => note);
  const last = own[at];
  if (!last?.note) return [];
  const after = own.slice(at + 1);
  const notes = own.flatMap((one) => (one.note && isWithin(one.day, last.day, TESTED_DAYS) ? [one] : []));
  const before = notes.at(-2);
  const between = before ? own.slice(own.indexOf(before) + 1, at) : [];
  const lastWithout = own.slice(0, at).findLastIndex(({ note }) => !note);
  const run = notes.filter((one) => own.indexOf(one) > lastWithout);
  const isStopped = isStop(last.note);
  // an exercise that was stopped, and not cleared since, is held back on the floor whatever was noted after it
  const isHeld = about.about === 'exercise' && notes.some(({ note }) => note && isStop(note));
  const type = typeOf(about, isStopped, before && between.length);
  const isMild = type === 'once' || type === 'now-and-then';
  // in one session at one place, in several exercises: each of these tells of it
  if (type === 'once' && about.about === 'place') return [];
  const days = isHeld || (after.length === 0 && !isMild) ? LATELY_DAYS : HOT_DAYS;
  if (!isWithin(last.day, asOf, days)) return [];
  const shown = notes.slice(-MOST_NOTES).flatMap(({ note }) => note ?? []);
  const sides = new Set(shown.flatMap((note) => note.sides));
  const [side] = sides;
  return [
    {
      topic: 'pain',
      type,
      ...about,
      ...(side && sides.size === 1 && shown.every((note) => note.sides.length === 1) ? { side } : {}),
      day: last.day,
      since: shown[0]?.day ?? last.day,
      certainty: 1,
      evidence: evidenceOf(notes.slice(-MOST_NOTES)),
      notes: shown,
      run: { sessions: run.length, since: run[0]?.day ?? last.day },
      between: counted(between),
      after: counted(after),
      next: isHeld
        ? { type: 'refer', held: true }
        : { type: isStopped || isRising(last.note, type, before?.note) ? 'refer' : 'ask-the-client' },
    },
  ];
}

const isStop = ({ value = 0, ended }: PainNote): boolean => value >= STOP_AT || ended;

/** `between`: sessions between the last two notes; undefined where there is but one. */
function typeOf({ about }: About, isStopped: boolean, between: number | undefined): PainFinding['type'] {
  if (between === undefined) return isStopped ? 'noted' : 'once';
  if (between === 0) return 'running';
  // pain before two sessions, a month apart, of 1 each is no heads-up
  return about === 'arrival' && !isStopped ? 'now-and-then' : 'again';
}

const isRising = (last: PainNote, type: PainFinding['type'], before: PainNote | undefined): boolean =>
  type === 'running' &&
  before !== undefined &&
  ((last.value ?? 0) > (before.value ?? 10) || (last.rising && before.rising));

const counted = (own: readonly Seen[]): PainFinding['between'] => ({
  sessions: own.length,
  toldNone: own.filter(({ toldNone }) => toldNone).length,
});
