import * as fc from 'fast-check';
import type { Row } from '../../src/merge/row';
import { CLOCKS, type Deed, live, pathsOf, standingDeeds, steps, THINGS, winnerOf } from './history';
import { type Law, law, must } from './law';
import { base, merged, written } from './laws-merge';
import type { MergeRoom } from './room';
import { facts } from './rows';

const clock = fc.constantFrom(...CLOCKS);

/** Law M5: removing is a write that carries what it had seen. */
export const removalLaws: readonly Law[] = [
  law(
    'M5',
    'A thing is removed while its removal register shows removed and every other stamp in the thing is covered by that `seen` (several removals: their union)',
    [steps],
    (room, lived) => {
      for (const { row, knows } of live(room, lived).devices) {
        for (const thing of THINGS) {
          const [told, should] = [room.standing(row, thing), byTheBook(knows, thing)];
          must(told === should, `"${thing}" is said to be ${told}, and by the book it is ${should}`);
        }
      }
    },
  ),
  law('M5', 'Nothing of a removed thing is shown, and all else is', [steps], (room, lived) => {
    for (const { row, knows } of live(room, lived).devices) {
      const gone = THINGS.filter((thing) => byTheBook(knows, thing) === 'removed');
      const paths = [...pathsOf(knows)].filter(
        (path) => !gone.some((thing) => thing === '' || path.startsWith(`${thing}/`)),
      );
      must(
        Object.keys(room.shown(row)).sort().join() === paths.sort().join(),
        () => `shown: ${Object.keys(room.shown(row))}`,
      );
    }
  }),
  law('M5', 'Values stay: a removal takes none, and restoring brings all back', [steps, clock], (room, lived, when) => {
    for (const { row } of live(room, lived).devices) {
      const alive = written(room, row, 'z1', room.restoring('sets/a'), when);
      const removed = written(room, alive, 'z2', room.removing(alive, 'sets/a'), when);
      must(room.standing(removed, 'sets/a') === 'removed', 'what its remover had seen whole is not removed');
      const kept = facts(removed);
      for (const one of facts(row)) must(one.startsWith('sets/a/removed ') || kept.has(one), `a removal took ${one}`);
      const back = written(room, removed, 'z3', room.restoring('sets/a'), when);
      must(room.standing(back, 'sets/a') === 'there', 'a restored thing is not there');
      must(
        JSON.stringify(room.shown(back)) === JSON.stringify(room.shown(alive)),
        'a restored thing is not what it was',
      );
    }
  }),
  law(
    'M5',
    'What the remover had not seen keeps the thing alive, and the screen is told of both',
    [clock, clock, fc.boolean()],
    (room, removes, edits, sideways) => {
      const start = withSet(room);
      const removed = written(room, start, 'x', room.removing(start, 'sets/a'), removes);
      const edited = written(room, start, 'y', { [sideways ? 'sets/a/newer/x' : 'sets/a/reps']: 8 }, edits);
      must(room.standing(removed, 'sets/a') === 'removed', 'what its remover had seen whole is not removed');
      for (const both of [merged(room, removed, edited), merged(room, edited, removed)]) {
        must(room.standing(both, 'sets/a') === 'removed-and-written', 'an edit the remover had not seen was removed');
        must(room.shown(both)['sets/a/load'] === 60, 'the thing kept alive is not whole');
        const again = written(room, both, 'z', room.removing(both, 'sets/a'), removes);
        must(room.standing(again, 'sets/a') === 'removed', 'who has seen the edit too cannot remove it');
      }
    },
  ),
  law(
    'M5',
    'Several removals: their union',
    [fc.tuple(clock, clock, clock, clock), fc.boolean(), fc.boolean()],
    (room, [one, two, three, four], third, swapped) => {
      const start = withSet(room);
      const reps = written(room, start, 'x', { 'sets/a/reps': 8 }, one);
      const load = written(room, start, 'y', { 'sets/a/load': 70 }, two);
      const byX = written(room, reps, 'x2', room.removing(reps, 'sets/a'), three);
      const byY = written(room, load, 'y2', room.removing(load, 'sets/a'), four);
      const halfSeen = merged(room, byX, load);
      must(room.standing(halfSeen, 'sets/a') === 'removed-and-written', 'a removal took what it had not seen');
      const unseen = written(room, start, 'w', { 'sets/a/note': 'slow' }, one);
      const both = swapped ? merged(room, byY, byX) : merged(room, byX, byY);
      const all = third ? merged(room, unseen, both) : both;
      const should = third ? 'removed-and-written' : 'removed';
      must(room.standing(all, 'sets/a') === should, `between them the removers saw all ${third ? 'but one' : ''}`);
    },
  ),
  law('M5', 'Removing a block leaves its sets, in no block', [clock, clock], (room, first, second) => {
    const start = withSet(room);
    const inBlock = written(room, start, 'x', { 'blocks/k/name': 'A', 'sets/a/block': 'k' }, first);
    const without = room.shown(written(room, inBlock, 'y', room.removing(inBlock, 'blocks/k'), second));
    must(!Object.keys(without).some((path) => path.startsWith('blocks/k/')), 'the block is still shown');
    must(without['sets/a/load'] === 60 && without['sets/a/block'] === 'k', 'a set went with its block');
  }),
];

const withSet = (room: MergeRoom): Row => written(room, base(room), 'd', { 'sets/a/load': 60, 'sets/b/load': 80 }, 1);

/** How a thing stands by the book of what was known, without a stamp or a `seen`. */
function byTheBook(knows: ReadonlySet<Deed>, thing: string): 'there' | 'removed' | 'removed-and-written' {
  const register = thing === '' ? 'removed' : `${thing}/removed`;
  const removals = standingDeeds(knows, register);
  if ((winnerOf(removals)?.value ?? null) === null) return 'there';
  const inside = [...pathsOf(knows)].filter(
    (path) => path !== register && (thing === '' || path.startsWith(`${thing}/`)),
  );
  const known = removals.filter(({ value }) => value !== null).map(({ knew }) => knew);
  const all = inside.flatMap((path) => standingDeeds(knows, path));
  return all.every((deed) => known.some((knew) => knew.has(deed))) ? 'removed' : 'removed-and-written';
}
