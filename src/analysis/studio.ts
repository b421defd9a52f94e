import { type BodyMass, readBodyMass } from '../domain/bodyMass';
import { bodyShare } from '../domain/bodyShare';
import { type Clearance, type LandingLevel, type NamedDay, readClient } from '../domain/client';
import type { Day } from '../domain/day';
import { type Exercise, readExercise } from '../domain/exercise';
import { type Exposure, exposureOf } from '../domain/exposure';
import { SHIPPED_EXERCISES } from '../domain/library';
import { type OtherWork, readOtherWork } from '../domain/otherWork';
import { readSessions, type SessionRecord } from '../domain/session';
import { readSettings } from '../domain/settings';
import { readTargets, type Target } from '../domain/target';
import { toKg } from '../domain/units';
import { byDay } from './onTime';
import { type Body, NO_BODY } from './track';
import { type FirstDay, whenOf } from './weeks';

/*
 * Everything that is said of a studio, from the rows of its log as they show: the same for the app, the command line and a worker.
 */

/** A row as it shows now. */
export type ShownRow = {
  readonly stream: string;
  readonly id: string;
  readonly kind: string;
  readonly values: Readonly<Record<string, unknown>>;
};

/** What is known of one client. */
export type ClientRecord = {
  readonly stream: string;
  readonly alias: string;
  readonly sessions: readonly SessionRecord[];
  readonly targets: readonly Target[];
  readonly masses: readonly BodyMass[];
  readonly otherWork: readonly OtherWork[];
  /** How much landing the client is used to, where that is noted. */
  readonly level?: LandingLevel;
  /** What a professional has cleared, by exercise. */
  readonly clearances?: Readonly<Record<string, Clearance>>;
  /** The client's own day. */
  readonly date?: NamedDay;
};

export type Studio = {
  readonly clients: readonly ClientRecord[];
  readonly exercises: ReadonlyMap<string, Exercise>;
  readonly firstDay: FirstDay;
};

/** Returns the clients and exercises that rows tell of; a client without a name that can be read is left out, as on every screen. */
export function readStudio(rows: readonly ShownRow[]): Studio {
  const shipped = new Map(SHIPPED_EXERCISES.map((one) => [one.id, one]));
  const exercises = new Map<string, Exercise>(shipped);
  for (const { id, kind, values } of rows) {
    const read = kind === 'exercise' ? readExercise(id, values, shipped.get(id)) : undefined;
    if (read) exercises.set(id, read);
  }
  const byStream = new Map<string, ShownRow[]>();
  for (const row of rows) {
    const own = byStream.get(row.stream);
    if (own) own.push(row);
    else byStream.set(row.stream, [row]);
  }
  const clients = [...byStream].flatMap(([stream, own]): ClientRecord[] => {
    const row = own.find(({ kind, id }) => kind === 'client' && id === stream);
    const client = row && readClient(stream, row.values);
    if (!client) return [];
    const of = (kind: string): readonly ShownRow[] => own.filter((one) => one.kind === kind);
    return [
      {
        stream,
        alias: client.alias,
        sessions: readSessions(of('session')),
        targets: byDay(of('role').flatMap(({ values }) => readTargets(values))),
        masses: of('result').flatMap(({ values }) => readBodyMass(values) ?? []),
        otherWork: of('otherWork').flatMap(({ id, values }) => readOtherWork(id, values) ?? []),
        ...(client.landings ? { level: client.landings } : {}),
        ...(Object.keys(client.clearances).length > 0 ? { clearances: client.clearances } : {}),
        ...(client.date ? { date: client.date } : {}),
      },
    ];
  });
  clients.sort((a, b) => (a.stream < b.stream ? -1 : 1));
  const settings = rows.find(({ kind, id }) => kind === 'settings' && id === 'settings');
  return { clients, exercises, firstDay: readSettings(settings?.values ?? {}).firstDay };
}

/** Returns a client as was known by a day: without what was done, noted or aimed at later. */
export const knownBy = (client: ClientRecord, day: Day): ClientRecord => ({
  ...client,
  sessions: client.sessions.filter((session) => {
    const when = whenOf(session);
    return when !== undefined && when.day <= day;
  }),
  targets: client.targets.filter(({ from }) => from <= day),
  masses: client.masses.filter((one) => one.day <= day),
  otherWork: client.otherWork.filter((one) => one.day <= day),
  ...(client.clearances
    ? { clearances: Object.fromEntries(Object.entries(client.clearances).filter(([, one]) => one.day <= day)) }
    : {}),
});

/** Returns what is known of a body for an exercise: the share of it that is moved, and its masses in kg. */
export function bodyOf(exercise: Pick<Exercise, 'id' | 'holds'>, masses: readonly BodyMass[]): Body {
  if (exercise.holds !== 'body') return NO_BODY;
  const share = bodyShare(exercise.id, undefined);
  const kg = masses.map(({ value, unit, day, notedAt }) => ({ day, kg: toKg({ value, unit }), notedAt }));
  // of two noted for one day the later counts
  kg.sort((a, b) => a.notedAt - b.notedAt);
  return { ...(share === undefined ? {} : { share }), masses: kg.map(({ day, kg: of }) => ({ day, kg: of })) };
}

/** One client's exercise with its exposures and how it stands. */
export type ExerciseRecord = {
  readonly exercise: Exercise;
  readonly exposures: readonly Exposure[];
  readonly body: Body;
};

/** Returns every exercise that a client did, by its id; one that is in no library is left out. */
export function exercisesOf(client: ClientRecord, { exercises }: Studio): readonly ExerciseRecord[] {
  const ids = [...new Set(client.sessions.flatMap((session) => session.exercises))].sort();
  return ids.flatMap((id) => {
    const exercise = exercises.get(id);
    if (!exercise) return [];
    const exposures = client.sessions
      .flatMap((session) => exposureOf(session, id) ?? [])
      .sort((a, b) => a.at - b.at || (a.session < b.session ? -1 : 1));
    return exposures.length === 0 ? [] : [{ exercise, exposures, body: bodyOf(exercise, client.masses) }];
  });
}
