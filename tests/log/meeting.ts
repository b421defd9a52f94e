import { expect } from 'vitest';
import type { SessionRecord } from '../../src/domain/session';
import { type At, good, ROUNDS, sessionAt, stations } from './gym';
import { allMeet, type Paper, paper } from './paper';
import { REAL } from './room';

export type Two = { readonly a: Paper; readonly b: Paper; readonly onA: At; readonly onB: At; readonly block: string };

/** Two devices that hold the same running session, with a block of two stations and two rounds. */
export async function two(seed = 1): Promise<Two> {
  const [a, b] = [paper('a-1', seed), paper('b-1', seed + 1000)];
  const client = good(REAL.saveClient(a.log, { alias: 'Client K', short: '', dayName: '', day: '' }, a.world));
  const { saved: _, ...place } = REAL.startSession(a.log, client.id, a.world);
  const onA = { log: a.log, place, world: a.world };
  const fields = { ...ROUNDS, rounds: '2' };
  const { id } = good(REAL.addBlock(a.log, place, fields, stations('lib-push-up', 'lib-pull-up'), a.world));
  allMeet(a, b);
  return { a, b, onA, onB: { log: b.log, place, world: b.world }, block: id };
}

/** Lets the two meet and returns the one session that both hold. */
export function met({ a, b, onA, onB }: Two): SessionRecord {
  allMeet(a, b);
  const read = sessionAt(REAL, onA);
  expect(sessionAt(REAL, onB)).toEqual(read);
  return read;
}
