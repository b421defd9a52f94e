import type { Block } from './block';
import type { Exercise } from './exercise';
import { type Item, listedThings } from './session';
import type { SetRecord } from './set';

/** Seconds one set takes to do, without its rest; common practice, rough. */
const SET_SECONDS = 40;
/** Sets that an exercise is taken to have where none are planned; common practice. */
const USUAL_SETS = 3;

/** Something still to be done today, with how long it may take (s). */
export type ToDo = { readonly type: 'exercise' | 'block'; readonly id: string; readonly seconds: number };

/** Returns what of today's list is still to be done, in its order, with rough durations: sets and their rests, rounds and theirs. */
export function stillToDo(
  items: readonly Item[],
  blocks: readonly Block[],
  sets: readonly SetRecord[],
  exerciseOf: (id: string) => Exercise | undefined,
): readonly ToDo[] {
  return listedThings({ items, blocks }).flatMap(({ type, id }) => {
    const item = type === 'exercise' ? items.find((one) => one.id === id) : undefined;
    const block = type === 'block' ? blocks.find((one) => one.id === id) : undefined;
    const left = item ? exerciseToDo(item, sets, exerciseOf) : block && blockToDo(block, sets, exerciseOf);
    return left ?? [];
  });
}

/** Returns what fits into so many minutes, taken in order, and what is left out; nothing is cut in half. */
export function cutTo(
  todo: readonly ToDo[],
  minutes: number,
): { readonly keeps: readonly ToDo[]; readonly leavesOut: readonly ToDo[] } {
  const keeps: ToDo[] = [];
  const leavesOut: ToDo[] = [];
  let left = minutes * 60;
  for (const one of todo) {
    if (one.seconds <= left) {
      keeps.push(one);
      left -= one.seconds;
    } else leavesOut.push(one);
  }
  return { keeps, leavesOut };
}

function exerciseToDo(
  item: Item,
  sets: readonly SetRecord[],
  exerciseOf: (id: string) => Exercise | undefined,
): ToDo | undefined {
  const exercise = exerciseOf(item.id);
  if (!exercise || item.skipped || item.swappedFor) return undefined;
  const sides = exercise.sides === 'each' ? 2 : 1;
  const done = sets.filter((set) => set.exercise === item.id && set.kind !== 'warm-up').length / sides;
  const left = (item.plan?.sets ?? USUAL_SETS) - done;
  if (left <= 0) return undefined;
  return { type: 'exercise', id: item.id, seconds: Math.round(left * (sides * SET_SECONDS + exercise.rest)) };
}

function blockToDo(
  block: Block,
  sets: readonly SetRecord[],
  exerciseOf: (id: string) => Exercise | undefined,
): ToDo | undefined {
  const stations = block.stations.filter((station) => !station.skipped);
  if (block.skipped || block.done || block.stopped || (stations.length === 0 && block.kind !== 'mobility'))
    return undefined;
  const sidesOf = (exercise: string): number => (exerciseOf(exercise)?.sides === 'each' ? 2 : 1);
  const all = stations.reduce((sum, station) => sum + sidesOf(station.exercise), 0);
  const done = all === 0 ? 0 : sets.filter((set) => set.in?.block === block.id).length / all;
  const seconds = secondsOf(block, all, stations.length, Math.max(0, block.rounds - done));
  return seconds <= 0 ? undefined : { type: 'block', id: block.id, seconds: Math.round(seconds) };
}

function secondsOf(block: Block, sets: number, stations: number, rounds: number): number {
  switch (block.kind) {
    case 'rounds':
    case 'list':
      return rounds * (sets * SET_SECONDS + (block.rest ?? 60));
    case 'every':
      return rounds * (block.every ?? 60);
    case 'most':
      return block.cap ?? 600;
    case 'timed':
      return rounds * stations * ((block.work ?? 30) + (block.off ?? 0));
    case 'mobility':
      return 300;
  }
}
