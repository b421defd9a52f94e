import type { Plant } from '../laws/plant';
import type * as suite from './suite-floor';

/** A fault in an act on a whole session, and the suite function that must fail on it. */
export type FloorFault = Plant & { readonly what: string; readonly foundBy: Exclude<keyof typeof suite, 'atOf'> };

export const FLOOR_FAULTS: readonly FloorFault[] = [
  {
    what: 'the second session of a day takes the first one for its own',
    file: 'log/templateActs.ts',
    find: '    if (log.get(keyOf({ stream, id: planned }))) continue;',
    put: '',
    foundBy: 'plannedIdsCountUp',
  },
  {
    what: 'a planned session is looked for in memory alone',
    file: 'log/templateActs.ts',
    find: 'const wasRead = await log.loadSession(stream, planned);',
    put: 'const wasRead = n > 0;',
    foundBy: 'plannedIdsCountUp',
  },
  {
    what: 'the plan of a template is not copied at the start',
    file: 'log/templateActs.ts',
    find: 'plannedDay: start.day, ...plan }',
    put: 'plannedDay: start.day, ...(Object.keys(plan).length > 99 ? plan : {}) }',
    foundBy: 'aStartedSessionKeepsItsPlan',
  },
  {
    what: 'a bad set of a round is left out, and the others stored',
    file: 'log/roundActs.ts',
    find: "    if (!values.ok) return fail({ type: 'set-refused', exercise: exercise.id, fault: values.error });",
    put: '    if (!values.ok) continue;',
    foundBy: 'aBadRoundStoresNothing',
  },
  {
    what: 'the sets of a round lie as their ids fall',
    file: 'log/roundActs.ts',
    find: 'newId(world.random, 8)).sort();',
    put: 'newId(world.random, 8)).sort().reverse();',
    foundBy: 'aRoundFillsWhatIsMissing',
  },
  {
    what: 'a removed block takes its sets out of their cells for good',
    file: 'log/planActs.ts',
    find: 'removing(row, pathOf(thing)));',
    put: `{
    ...Object.fromEntries(Object.keys(row.body).filter((path) => path.startsWith('sets/')).map((path) => [path, null])),
    ...removing(row, pathOf(thing)),
  });`,
    foundBy: 'aRemovedBlockLeavesItsSets',
  },
  {
    what: 'a moved set leaves its marks behind',
    file: 'log/setActs.ts',
    find: 'Object.keys(row.body).filter((path) => path.startsWith(prefix) &&',
    put: "Object.keys(row.body).filter((path) => path.startsWith(prefix) && !path.includes('/marks/') &&",
    foundBy: 'aMoveKeepsEverything',
  },
  {
    what: 'a pause can end before it began',
    file: 'log/sessionActs.ts',
    find: 'Math.max(world.now(), pause.from)',
    put: 'world.now()',
    foundBy: 'pausesEndAfterTheyBegan',
  },
  {
    what: 'adding to a count takes what the pad has out of hand',
    file: 'log/roundActs.ts',
    find: '      rows: [addingSets(log, place, 1, changes.value)],\n',
    put: '      rows: [addingSets(log, place, 1, changes.value)],\n      drafts: [{ key: padDraft(place), value: null }],\n',
    foundBy: 'aCountLeavesThePadAlone',
  },
  {
    what: 'an old session that lost an exercise stays in what is charted',
    file: 'log/fold.ts',
    find: '[...row.last, ...row.times].some(',
    put: '[...row.last].some(',
    foundBy: 'anOldSessionLosesItsExposure',
  },
];
