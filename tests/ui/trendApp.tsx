import { render } from '@testing-library/preact';
import type { Exposure } from '../../src/domain/exposure';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import { type App, AppProvider } from '../../src/ui/app';
import { TrendSheet } from '../../src/ui/floor/TrendSheet';

export const TODAY = '2026-11-25';
const NOW = Date.parse(`${TODAY}T12:00Z`);

/** What the log tells of the exercise: a test may change it and then tell the watchers. */
export type Told = { times: readonly Exposure[] | undefined; watchers: (() => void)[] };

/** Opens the sheet in a session called `session` over a log that tells what is handed in. */
export function openTrend(times: readonly Exposure[] | undefined, exercise = 'lib-front-squat', session = TODAY) {
  const told: Told = { times, watchers: [] };
  let closed = 0;
  // the sheet reads the log in these few ways alone
  const app = {
    log: {
      exposures: () => told.times,
      watch: (_topics: readonly string[], fn: () => void) => {
        told.watchers.push(fn);
        return () => undefined;
      },
    },
    views: {
      exercise: (_log: unknown, id: string) => SHIPPED_EXERCISES.find((one) => one.id === id),
      cues: () => [
        { id: 'c1', words: 'Zip the ribs down' },
        { id: 'c2', words: 'Elbow home' },
      ],
      session: () => undefined,
    },
    world: { now: () => NOW, zone: () => 'UTC', random: (count: number) => new Uint8Array(count) },
  } as unknown as App;
  const place = { stream: 'client', session };
  const view = render(
    <AppProvider value={app}>
      <TrendSheet place={place} exercise={exercise} close={() => closed++} />
    </AppProvider>,
  );
  return { ...view, told, closed: () => closed };
}
