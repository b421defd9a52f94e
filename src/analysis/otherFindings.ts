import type { Day } from '../domain/day';
import type { Others } from './others';
import type { ClientRecord } from './studio';

/*
 * What the methods beside the trend engine find of a client, as data: what it is, since when, on what it rests, how sure it is, and what to do next. The
 * words are the screen's. None is a diagnosis, foretells an injury, or forbids a session.
 */

/** What a finding is about; the screens have a part for each. */
export const TOPICS = [
  'pain',
  'came-in',
  'sides',
  'landings',
  'cues',
  'tonnage',
  'sets',
  'carries',
  'time',
  'load',
  'measures',
  'learning',
] as const;
export type Topic = (typeof TOPICS)[number];

export type OtherFinding = {
  readonly topic: Topic;
  /** What is found, as the method names it. */
  readonly type: string;
  readonly day: Day;
  readonly since?: Day;
  readonly exercise?: string;
  /** How sure it is, 0–1. */
  readonly certainty: number;
  /** The ids of the sessions it rests on. */
  readonly evidence: readonly string[];
};

/** Returns what is found, the most pressing first. */
export function otherFindings(_client: ClientRecord, _others: Others, _asOf: Day): readonly OtherFinding[] {
  return [];
}
