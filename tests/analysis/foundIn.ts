import type { OtherFinding } from '../../src/analysis/otherFindings';
import { otherFindings } from '../../src/analysis/otherFound';
import { othersOf } from '../../src/analysis/others';
import { type ClientRecord, readStudio } from '../../src/analysis/studio';
import type { FirstDay } from '../../src/analysis/weeks';
import type { BodyMass } from '../../src/domain/bodyMass';
import type { Day } from '../../src/domain/day';
import type { OtherWork } from '../../src/domain/otherWork';
import type { SessionRecord } from '../../src/domain/session';
import type { SetRecord } from '../../src/domain/set';
import { trained } from '../reference/records';

/* What the other methods find in records made by hand. */

const { exercises } = readStudio([]);

/** Returns a client with these sessions; what stands on the list of each is what it has sets of. */
export const clientWith = (sessions: readonly SessionRecord[], more: Partial<ClientRecord> = {}): ClientRecord => ({
  stream: 'c1',
  alias: 'Client Slate',
  sessions: sessions.map((session) => ({
    ...session,
    exercises: [...new Set(session.sets.flatMap(({ exercise }) => exercise ?? []))],
  })),
  targets: [],
  masses: [],
  otherWork: [],
  ...more,
});

/** Returns all that is found of a client as of a day. */
export const foundOf = (client: ClientRecord, asOf: Day, firstDay: FirstDay = 'mon'): readonly OtherFinding[] =>
  otherFindings(client, othersOf(client, [], { exercises, firstDay }, asOf), asOf);

export type In<T extends OtherFinding['topic']> = Extract<OtherFinding, { readonly topic: T }>;

/** Returns what is found about a topic. */
export const about = <T extends OtherFinding['topic']>(topic: T, found: readonly OtherFinding[]): readonly In<T>[] =>
  found.filter((one): one is In<T> => one.topic === topic);

/** Returns the one thing in a list; fails where there are more or none. */
export const only = <T>(some: readonly T[]): T => {
  const [one, ...others] = some;
  if (one === undefined || others.length > 0) throw new Error(`${some.length} of them`);
  return one;
};

/** Returns a session as `trained` makes it, in which one exercise is done. */
export const did = (
  day: Day,
  exercise: string,
  sets: readonly Partial<SetRecord>[],
  more: Parameters<typeof trained>[3] = {},
): SessionRecord => trained(day, exercise, sets, more);

/** Returns a body mass in kg, noted on the day itself. */
export const mass = (value: number, day: Day): BodyMass => ({
  value,
  unit: 'kg',
  day,
  notedAt: Date.parse(`${day}T08:00Z`),
});

/** Returns other work of a kind on a day. */
export const worked = (day: Day, work: OtherWork['work'], more: Partial<OtherWork> = {}): OtherWork => ({
  id: `${day}-${work}`,
  work,
  day,
  notedAt: Date.parse(`${day}T20:00Z`),
  ...more,
});
