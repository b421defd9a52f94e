import type { Day } from '../domain/day';
import { type ClientWeek, clientWeek } from './clientWeek';
import type { CueUses } from './cueUses';
import type { OtherFinding } from './otherFindings';
import { otherFindings } from './otherFound';
import { type Others, othersInSteps, whole } from './others';
import type { ClientRecord, Studio } from './studio';

/* Everything that the methods beside the trend engine say of one client: what `analyse`, the worker and the screens share. */

export type Answers = {
  readonly stream: string;
  readonly alias: string;
  /** The day it is said as of: nothing later was used. */
  readonly asOf: Day;
  readonly others: Others;
  /** The week that the day lies in, as it was noted up to then. */
  readonly week: ClientWeek;
  /** What of it can be said, the most pressing first. */
  readonly found: readonly OtherFinding[];
};

/** Returns it of a client as was known by a day (`knownBy`); `pool` holds the cues of the coach's other clients, one list each, which own ones are pooled with. */
export function answersOf(
  client: ClientRecord,
  pool: readonly (readonly CueUses[])[],
  studio: Pick<Studio, 'exercises' | 'firstDay'>,
  asOf: Day,
): Answers {
  return whole(answersInSteps(client, pool, studio, asOf));
}

/** Returns the same, worked out in steps with room between them. */
export function* answersInSteps(
  client: ClientRecord,
  pool: readonly (readonly CueUses[])[],
  studio: Pick<Studio, 'exercises' | 'firstDay'>,
  asOf: Day,
): Generator<undefined, Answers> {
  const others = yield* othersInSteps(client, pool, studio, asOf);
  yield;
  const week = clientWeek(client, studio.firstDay, asOf);
  return { stream: client.stream, alias: client.alias, asOf, others, week, found: otherFindings(client, others, asOf) };
}
