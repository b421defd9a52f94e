import { admitRow, type DoorFault } from '../merge/door';
import { erasedStream } from '../merge/erased';
import { mergeRows } from '../merge/merge';
import { inNewStream } from '../merge/newStream';
import type { Row } from '../merge/row';
import { isSameRow } from '../merge/same';
import { beside } from '../merge/shown';
import { MOST_UNDONE, putRows } from './absorbRows';
import type { Core } from './core';
import { heldRows } from './held';
import { keyOf, type RowKey } from './keys';
import type { Log, Saving } from './log';
import { createStage } from './stage';

/** Why a row is not taken in. One of another kind than the row here is kept aside; nothing else of a refused row is. */
export type Refusal =
  | DoorFault
  | { readonly type: 'kind-differs'; readonly held: string }
  /** The client was erased here [M10]: their rows can only come back as another client's. */
  | { readonly type: 'erased' }
  /** What lies here under this name was written by a newer app, or is torn: it is not written over. */
  | { readonly type: 'unreadable-here' };

/** What an import would do, or has done, counted in rows; a row that stands in it twice counts twice. */
export type ImportReport = {
  readonly new: number;
  readonly changed: number;
  readonly same: number;
  /** Values that will stand beside others [M6], written without seeing each other. */
  readonly keptBeside: number;
  readonly refused: number;
  /** The first hundred refused rows. */
  readonly told: readonly { readonly key: RowKey | null; readonly why: Refusal }[];
  /** Clients whose rows were refused, as they are erased here. */
  readonly erased: readonly string[];
  /** Clients that are here and that the import erases. */
  readonly erases: readonly string[];
  /** False where it is too large to be taken back. */
  readonly canUndo: boolean;
};

/** An import that is being prepared: nothing changes before `commit`, and leaving it alone is calling it off. */
export type Import = {
  /**
   * Takes in the next rows, as they came: checked at the door, compared with what is here, and kept ready where they would change anything. Returns
   * false where the log could not be read.
   */
  readonly take: (raw: readonly unknown[]) => Promise<boolean>;
  readonly report: () => ImportReport;
  /**
   * Merges what was taken in into the log, as one act with one undo. Up to 2,000 rows are one transaction. More are several, and not called off in
   * between: after a kill in the middle what is there is there, and the same import again brings the rest. `tell` hears of the share done.
   */
  readonly commit: (tell?: (share: number) => void) => Saving;
};

const MOST_TOLD = 100;

/**
 * Begins to take rows in from outside. `asNew` names, for clients that were erased here, the new stream that their rows are to land in: a name from
 * `newId`, asked for once the report told of them. Call it with an open log.
 */
export function beginImport(log: Log, asNew: ReadonlyMap<string, string> = new Map()): Import {
  return log.inside((core) => importInto(core, asNew));
}

function importInto(core: Core, asNew: ReadonlyMap<string, string>): Import {
  const counts = { new: 0, changed: 0, same: 0, keptBeside: 0, refused: 0 };
  const told: { key: RowKey | null; why: Refusal }[] = [];
  const erased = new Set<string>();
  const erases = new Set<string>();
  const stage = createStage();

  function refuse(key: RowKey | null, why: Refusal): void {
    counts.refused += 1;
    if (told.length < MOST_TOLD) told.push({ key, why });
  }

  function admitted(raw: unknown): Row[] {
    const row = admitRow(raw);
    if (!row.ok) refuse(null, row.error);
    if (!row.ok) return [];
    const { stream } = row.value;
    const moved = inNewStream(row.value, stream, asNew.get(stream) ?? stream);
    if (!core.memory.isErased(moved.stream)) return [moved];
    erased.add(moved.stream);
    refuse(keyOf(moved), { type: 'erased' });
    return [];
  }

  function count(row: Row, here: Row | 'unreadable' | undefined): boolean {
    if (here === 'unreadable') refuse(keyOf(row), { type: 'unreadable-here' });
    if (here === 'unreadable') return false;
    const gone = erasedStream(row);
    if (gone !== undefined && core.memory.all().some((held) => held.stream === gone)) erases.add(gone);
    if (!here) {
      counts.new += 1;
      counts.keptBeside += besides(row);
      return true;
    }
    const merged = mergeRows(here, row);
    if (!merged.ok) {
      refuse(keyOf(row), { type: 'kind-differs', held: here.kind });
      // it is put aside with the rest
      return true;
    }
    const isSame = isSameRow(merged.value, here);
    counts[isSame ? 'same' : 'changed'] += 1;
    counts.keptBeside += Math.max(0, besides(merged.value) - besides(here));
    return !isSame;
  }

  return {
    async take(raw) {
      const rows = raw.flatMap(admitted);
      const held = await heldRows(core, rows);
      if (!held) return false;
      await stage.add(rows.filter((row) => count(row, held.get(keyOf(row)))));
      return true;
    },
    report: () => ({
      ...counts,
      told: [...told],
      erased: [...erased],
      erases: [...erases],
      canUndo: counts.new + counts.changed <= MOST_UNDONE,
    }),
    commit: (tell = () => undefined) => putRows(core, stage, tell),
  };
}

/** Returns how many values stand beside others in a row. */
const besides = (row: Row): number => Object.keys(row.body).reduce((sum, path) => sum + beside(row, path).length, 0);
