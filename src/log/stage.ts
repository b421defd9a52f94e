import type { Row } from '../merge/row';
import { packRow, unpackRow } from './encode';

/** Rows that wait to be taken in, in the order they came. */
export type Stage = {
  readonly add: (rows: readonly Row[]) => Promise<void>;
  readonly size: () => number;
  /** Yields everything in batches of at most 2,000 rows; `last` with the one that ends it. */
  readonly batches: () => AsyncGenerator<{ readonly rows: readonly Row[]; readonly last: boolean }>;
};

/** About what one bulk transaction holds. */
export const BATCH_ROWS = 2000;

/**
 * Returns an empty stage. What goes beyond one batch is packed and handed to the browser as blobs, which it may keep on disk: a ten-year log, or a
 * hostile million of rows, must not stand in memory as objects.
 */
export function createStage(): Stage {
  const full: Blob[] = [];
  let open: Row[] = [];
  let size = 0;
  return {
    async add(rows) {
      size += rows.length;
      for (const row of rows) {
        open.push(row);
        if (open.length < BATCH_ROWS) continue;
        full.push(new Blob(open.map((one) => `${JSON.stringify(packRow(one))}\n`)));
        open = [];
      }
    },
    size: () => size,
    async *batches() {
      for (const [index, blob] of full.entries()) {
        const lines = (await blob.text()).split('\n').filter((line) => line !== '');
        const rows = lines.flatMap((line) => {
          const row = unpackRow(JSON.parse(line));
          return row.ok ? [row.value] : [];
        });
        yield { rows, last: open.length === 0 && index === full.length - 1 };
      }
      if (open.length > 0) yield { rows: open, last: true };
    },
  };
}
