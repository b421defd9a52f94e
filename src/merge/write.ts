import type { Json, Register, Row, Stamp } from './row';
import { seenOf } from './stamp';

/**
 * Returns the row after one act: each path now holds the one value written, and `seen` includes the act.
 *
 * - [M3] The stamp must be fresh (`nextStamp` of this very row), so the edit beats every value its author was looking at.
 * - [M6] A write settles its register: what stood beside the winner was seen and goes.
 * - [M8] Every other register is carried over as it is, known or not; clearing writes `null` and keeps the register.
 *
 * Throws where a stamp is not above what the row includes of its writer: that would make one stamp name two values.
 */
export function writeRow(row: Row, changes: Readonly<Record<string, Json>>, stamp: Stamp): Row {
  const seen = seenOf(row.seen, stamp.writer);
  if (stamp.l <= seen) {
    throw new Error(`stale stamp ${stamp.l} for ${row.stream}/${row.id}: it has seen ${seen}`);
  }
  const body: Record<string, Register> = { ...row.body };
  for (const [path, value] of Object.entries(changes)) body[path] = [{ value, stamp }];
  return { ...row, seen: { ...row.seen, [stamp.writer]: stamp.l }, body };
}
