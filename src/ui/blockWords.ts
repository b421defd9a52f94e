import type { Block, BlockKind, BlockState } from '../domain/block';
import type { BlockClock } from '../domain/blockClock';
import type { WeekDay } from '../domain/template';
import { countOf, duration, number } from './format';

/* What blocks, their clocks and changes of today are called. */

export const BLOCK_KIND: Readonly<Record<BlockKind, string>> = {
  rounds: 'rounds',
  list: 'reps by round',
  every: 'a round every minute',
  most: 'as many rounds as possible',
  timed: 'work and rest by the clock',
  mobility: 'mobility, one tick',
};

/** Returns what a block is, in a few words: `4 rounds`, `21-15-9`, `10 rounds, one every 1:00`. */
export function blockWords(block: Block): string {
  switch (block.kind) {
    case 'rounds':
      return countOf(block.rounds, 'round');
    case 'list':
      return (block.reps ?? []).join('-');
    case 'every':
      return `${countOf(block.rounds, 'round')}, one every ${duration(block.every ?? 60)}`;
    case 'most':
      return block.cap === undefined ? BLOCK_KIND.most : `${BLOCK_KIND.most} in ${duration(block.cap)}`;
    case 'timed':
      return `${countOf(block.rounds, 'round')}, ${number(block.work ?? 30)} s work, ${number(block.off ?? 0)} s rest`;
    case 'mobility':
      return 'mobility';
  }
}

/** Returns where a block stands, as a plain sentence; `reps` of a round that was begun and not finished. */
export function stateWords(block: Block, state: BlockState, resting: boolean, extraReps: number): string {
  if (block.skipped) return leftOut(block.skipped.why);
  switch (state.state) {
    case 'empty':
      return 'No stations. Add one, or remove the block.';
    case 'working':
      return `Working: round ${state.round}, station ${state.station} of ${state.of}`;
    case 'round-done':
      return `Round ${state.round} done${resting ? ', rest' : `; round ${state.next} next`}`;
    case 'done':
      return block.kind === 'most'
        ? `Done: ${countOf(state.rounds, 'round')}${extraReps > 0 ? ` and ${countOf(extraReps, 'rep')}` : ''}`
        : 'Done';
  }
}

/** Returns what a block's clock says: `work 0:24 · station 2 · round 1`. */
export function clockWords(clock: BlockClock): string {
  switch (clock.phase) {
    case 'none':
      return '';
    case 'not-started':
      return `${duration(clock.seconds)} in all`;
    case 'work':
    case 'rest': {
      const where = [
        clock.station > 0 ? `station ${clock.station}` : '',
        clock.round > 0 ? `round ${clock.round}` : '',
      ].filter((text) => text !== '');
      return [clock.phase, ...where].join(' · ');
    }
    case 'over':
      return `time is up after ${duration(clock.gone)}`;
  }
}

/** Returns that something is left out today, and why where that is noted. */
export const leftOut = (why: string): string => (why === '' ? 'Left out today.' : `Left out: ${why}.`);

export const WHY_NOT = ['machine taken', 'no time', 'tired', 'pain', 'other reason'] as const;

export const WEEK_DAY: Readonly<Record<WeekDay, string>> = {
  mon: 'Mon',
  tue: 'Tue',
  wed: 'Wed',
  thu: 'Thu',
  fri: 'Fri',
  sat: 'Sat',
  sun: 'Sun',
};

/** Returns the sentence about what a week lacks when a pattern is left out, given the day it was last trained this week. */
export function lackSentence(pattern: string, trainedOn: string | null): string {
  return trainedOn === null
    ? `This week then has no ${pattern} work yet.`
    : `This week had ${pattern} work on ${trainedOn}.`;
}
