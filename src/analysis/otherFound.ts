import type { Day } from '../domain/day';
import type { OtherFinding } from './otherFindings';
import type { Others } from './others';
import type { ClientRecord } from './studio';

/** Returns what the methods beside the trend engine find of a client, the most pressing first. */
export function otherFindings(_client: ClientRecord, _others: Others, _asOf: Day): readonly OtherFinding[] {
  return [];
}
