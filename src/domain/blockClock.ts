import type { Block } from './block';
import { type Pause, pausedMs } from './pause';

/** What a block's own clock says: nothing to time, not started, or the interval it is in. `left` and `gone` are whole seconds. */
export type BlockClock =
  | { readonly phase: 'none' }
  | { readonly phase: 'not-started'; readonly seconds: number }
  | {
      readonly phase: 'work' | 'rest';
      readonly left: number;
      readonly round: number;
      /** Stations count from 1; of a block timed round by round, 0. */
      readonly station: number;
    }
  | { readonly phase: 'over'; readonly gone: number };

/**
 * Returns what a block's clock says at `now` (ms), counted from the instant it was started: a locked screen or a killed app changes nothing. What
 * was paused does not count; a clock set back shows the first interval whole, one set forward the end.
 */
export function blockClock(block: Block, pauses: readonly Pause[], now: number): BlockClock {
  const intervals = intervalsOf(block);
  const total = intervals.reduce((sum, { seconds }) => sum + seconds, 0);
  if (total === 0) return { phase: 'none' };
  if (!block.started) return { phase: 'not-started', seconds: total };
  const from = block.started.at;
  const until = Math.min(now, block.stopped?.at ?? now);
  const gone = Math.max(0, (until - from - pausedMs(pauses, from, until)) / 1000);
  if (block.stopped || gone >= total) return { phase: 'over', gone: Math.min(total, Math.floor(gone)) };
  let end = 0;
  for (const { phase, seconds, round, station } of intervals) {
    end += seconds;
    if (gone < end) return { phase, left: Math.ceil(end - gone), round, station };
  }
  return { phase: 'over', gone: total };
}

type Interval = {
  readonly phase: 'work' | 'rest';
  readonly seconds: number;
  readonly round: number;
  readonly station: number;
};

function intervalsOf(block: Block): readonly Interval[] {
  const rounds = Array.from({ length: block.rounds }, (_, index) => index + 1);
  switch (block.kind) {
    case 'every':
      return rounds.map((round) => ({ phase: 'work', seconds: block.every ?? 60, round, station: 0 }));
    case 'most':
      return block.cap === undefined ? [] : [{ phase: 'work', seconds: block.cap, round: 0, station: 0 }];
    case 'timed': {
      const stations = Math.max(1, block.stations.filter((station) => !station.skipped).length);
      const all = rounds.flatMap((round) =>
        Array.from({ length: stations }, (_, index) => [
          { phase: 'work' as const, seconds: block.work ?? 30, round, station: index + 1 },
          { phase: 'rest' as const, seconds: block.off ?? 0, round, station: index + 1 },
        ]).flat(),
      );
      // nothing follows the last work: its rest is not the block's
      return all.slice(0, -1).filter(({ seconds }) => seconds > 0);
    }
    case 'rounds':
    case 'list':
    case 'mobility':
      return [];
  }
}
