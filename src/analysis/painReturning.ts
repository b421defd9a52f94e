import { wasAsked } from '../domain/arrival';
import { STOP_AT } from '../domain/pain';
import { type SetRecord, SIDES } from '../domain/set';
import type { PainFinding, PainNote } from './clientFinding';
import { evidenceOf, isWithin, type Known, LATELY_DAYS, TESTED_DAYS, type Visit } from './known';
import type { OtherAct } from './otherActs';

/*
 * Pain that comes again: noted in sets of an exercise, at a place in several exercises, or before sessions; after one or more sessions without, or in two
 * sessions running. A question to the client. From 4 of 10 on, where it ended a set, or rising over two sessions running a licensed practitioner is to be
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
  return [
    ...exercises.flatMap((exercise) => {
      const own = near.flatMap((visit) => seenIn(visit, (set) => set.exercise === exercise));
      return told(own, asOf, { about: 'exercise', exercise });
    }),
    ...places.flatMap((place) => {
      const own = near.flatMap((visit) => seenAt(visit, place));
      // in one exercise alone it is told of that
      const where = new Set(own.flatMap(({ note }) => note?.exercises ?? []));
      return where.size < 2 ? [] : told(own, asOf, { about: 'place', place });
    }),
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
  if (!isWithin(last.day, asOf, after.length === 0 ? LATELY_DAYS : HOT_DAYS)) return [];
  const notes = own.flatMap((one) => (one.note && isWithin(one.day, last.day, TESTED_DAYS) ? [one] : []));
  const before = notes.at(-2);
  const between = before ? own.slice(own.indexOf(before) + 1, at) : [];
  const lastWithout = own.slice(0, at).findLastIndex(({ note }) => !note);
  const run = notes.filter((one) => own.indexOf(one) > lastWithout);
  const isStop = (last.note.value ?? 0) >= STOP_AT || last.note.ended;
  const type = before ? (between.length === 0 ? 'running' : 'again') : 'noted';
  // pain before two sessions, a month apart, of 1 each is no news
  const isNews = about.about === 'arrival' ? type === 'running' || isStop : before !== undefined || isStop;
  if (!isNews) return [];
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
      next: nextOf(last.note, isStop, type === 'running' ? before?.note : undefined),
    },
  ];
}

function nextOf(last: PainNote, isStop: boolean, before: PainNote | undefined): OtherAct {
  const isRising = before !== undefined && ((last.value ?? 0) > (before.value ?? 10) || (last.rising && before.rising));
  return { type: isStop || isRising ? 'refer' : 'ask-the-client' };
}

const counted = (own: readonly Seen[]): PainFinding['between'] => ({
  sessions: own.length,
  toldNone: own.filter(({ toldNone }) => toldNone).length,
});
