import { useEffect, useRef } from 'preact/hooks';
import type { Block } from '../../domain/block';
import { type BlockClock, blockClock } from '../../domain/blockClock';
import type { Pause } from '../../domain/pause';
import { useApp } from '../app';
import { clockWords } from '../blockWords';
import { duration } from '../format';
import { useTicking } from '../parts/useTicking';
import { restIsOver } from './alarm';
import type { Pad } from './usePad';

/** Returns whether a block has a clock of its own. */
export const hasClock = (block: Block, pauses: readonly Pause[], now: number): boolean =>
  blockClock(block, pauses, now).phase !== 'none';

/** A block's own clock: counted from the instant it was started, so a locked screen or a killed app changes nothing. */
export function BlockClockBar({ pad, block }: { pad: Pad; block: Block }) {
  const { log, acts, world } = useApp();
  const { place, session } = pad;
  const now = (): BlockClock => blockClock(block, session.pauses, world.now());
  useTicking(() => clockKey(now()));
  const clock = now();
  const interval = 'left' in clock ? `${clock.phase}${clock.round}/${clock.station}` : clock.phase;
  const before = useRef(interval);
  useEffect(() => {
    // a change while it is watched sounds: not one that came while the app was away, nor the tap that starts it
    if (before.current !== interval && before.current !== 'not-started' && interval !== 'not-started') restIsOver();
    before.current = interval;
  }, [interval]);
  const running = clock.phase === 'work' || clock.phase === 'rest';
  return (
    <section class="block-clock" aria-label="block clock">
      <span class={`block-clock-time${clock.phase === 'rest' ? ' block-clock-time-rest' : ''}`} role="timer">
        {'left' in clock ? duration(clock.left) : clock.phase === 'over' ? '0:00' : ''}
      </span>
      <span class="hint">{clockWords(clock)}</span>
      <button
        type="button"
        class="button"
        aria-label={running ? 'Stop the clock' : clock.phase === 'over' ? 'Start again' : 'Start the clock'}
        onClick={() =>
          running ? acts.stopClock(log, place, block.id, world) : acts.startClock(log, place, block.id, world)
        }
      >
        {running ? 'Stop' : clock.phase === 'over' ? 'Start again' : 'Start'}
      </button>
    </section>
  );
}

const clockKey = (clock: BlockClock): string =>
  'left' in clock ? `${clock.phase} ${clock.left} ${clock.round} ${clock.station}` : clock.phase;
