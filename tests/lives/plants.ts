import type { Plant } from '../laws/plant';

/** Faults that someone could make in merging, in the log or in its imports: each must be found within 200 lives. */
export const LIFE_FAULTS: readonly (Plant & { readonly what: string })[] = [
  {
    what: '[M2] a value is dropped though the other row still holds it',
    file: 'merge/merge.ts',
    find: '    ...a.filter((held) => holds(b, held) || !covers(seenByB, held.stamp)),',
    put: '    ...a.filter((held) => !covers(seenByB, held.stamp)),',
  },
  {
    what: '[M2] `seen` merges by the last one read, not by maximum',
    file: 'merge/stamp.ts',
    find: 'merged[writer] = Math.max(seenOf(merged, writer), l);',
    put: 'merged[writer] = l;',
  },
  {
    what: '[M6] of values written without seeing each other one is kept',
    file: 'merge/merge.ts',
    find: 'return first && [first, ...rest];',
    put: 'return first && (rest.length > 9 ? [first, ...rest] : [first]);',
  },
  {
    what: '[M3] a stamp is the clock alone, above what this writer wrote',
    file: 'merge/stamp.ts',
    find: 'l: Math.max(believed, 1 + highest), writer }',
    put: 'l: Math.max(believed, 1 + attempted, 1 + seenOf(row.seen, writer)), writer }',
  },
  {
    what: '[M3] a launch writes under the name of the launch before',
    file: 'log/start.ts',
    find: 'random, 8)}`, (row) => {',
    put: 'random, 8).slice(8)}0`, (row) => {',
  },
  {
    what: '[M8] a path that this version does not know is left out of the merge',
    file: 'merge/merge.ts',
    find: '    if (register) body[path] = register;',
    put: "    if (register && !path.startsWith('newer/')) body[path] = register;",
  },
  {
    what: 'what is read or comes in takes the place of what is held',
    file: 'log/memory.ts',
    find: '      keep(merged.value);',
    put: '      keep(row);',
  },
  {
    what: 'an import does not look into the store for what memory does not hold',
    file: 'log/held.ts',
    find: 'const values = await Promise.all(wanted.map(',
    put: 'const values = await Promise.all(wanted.slice(0, 0).map(',
  },
  {
    what: 'a save is told before it is complete',
    file: 'log/queue.ts',
    find: '    tx.oncomplete = () => resolve();',
    put: '    tx.oncomplete = () => resolve();\n    resolve();',
  },
  {
    what: 'a file that was cut off is taken as far as it goes',
    file: 'merge/exportLines.ts',
    find: 'if (rows !== says) return',
    put: 'if (says < 0) return',
  },
  {
    what: '[M10] memory takes no notice of who is erased',
    file: 'log/memory.ts',
    find: '    erased.add(gone);',
    put: '',
  },
  {
    what: '[M10] erasing leaves the sessions in the store',
    file: 'log/queue.ts',
    find: "for (const store of [...ROW_STORES, 'series'])",
    put: "for (const store of [ROW_STORES[0], ROW_STORES[2], 'series'])",
  },
  {
    what: '[M10] erasing leaves the files of the second copy',
    file: 'log/erased.ts',
    find: 'second?.dropStreams(streams)',
    put: 'second?.dropStreams([])',
  },
  {
    what: '[M10] erasing leaves what undo would write again',
    file: 'log/erased.ts',
    find: '    undo.set(entry.n, null);',
    put: '',
  },
  {
    what: '[M10] a bundle does not say who is erased',
    file: 'log/scan.ts',
    find: 'const isOf = (row: Row): boolean => ',
    put: "const isOf = (row: Row): boolean => row.kind !== 'erased' && ",
  },
  {
    what: '[M10] an erasing of which the store has heard stops at a kill: the next start leaves the rest',
    file: 'log/read.ts',
    find: '    void core.queue.push(forgetErased(core));',
    put: '',
  },
  {
    what: '[M7] series are not made anew after an import',
    file: 'log/absorbRows.ts',
    find: "    if (after.kind === 'session' || after.kind === 'result') core.stale.add(after.stream);",
    put: '',
  },
  {
    what: 'an import is written row by row, not in one transaction',
    file: 'log/absorbRows.ts',
    find: '      const saved = await core.queue.push(last ? withEntry(core, took, work) : work);',
    put: '      for (const key of work.rows) await core.queue.push({ rows: new Set([key]) });\n      const saved = await core.queue.push(last ? withEntry(core, took, work) : work);',
  },
  {
    what: '[M3] values stand in the order they came',
    file: 'merge/merge.ts',
    find: 'compareStamps(y.stamp, x.stamp) || ',
    put: '',
  },
  {
    what: 'a write is not in what its row has seen',
    file: 'merge/write.ts',
    find: 'seen: { ...row.seen, [stamp.writer]: stamp.l }, body',
    put: 'body',
  },
  {
    what: '[M10] the row of a client that comes back as new bears the old name',
    file: 'merge/newStream.ts',
    find: 'id: row.id === from ? to : row.id',
    put: 'id: row.id',
  },
  {
    what: 'a session that runs elsewhere is not read at the next start',
    file: 'log/absorbRows.ts',
    find: '    opened = core.open.add([keyOf({ stream: row.stream, id })]) || opened;',
    put: '',
  },
];
