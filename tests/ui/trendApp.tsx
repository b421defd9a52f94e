import { render } from '@testing-library/preact';
import type { BodyMass } from '../../src/domain/bodyMass';
import type { Exposure } from '../../src/domain/exposure';
import { SHIPPED_EXERCISES } from '../../src/domain/library';
import type { Target } from '../../src/domain/target';
import { type App, AppProvider } from '../../src/ui/app';
import { TrendSheet } from '../../src/ui/floor/TrendSheet';

export const TODAY = '2026-11-25';
const NOW = Date.parse(`${TODAY}T12:00Z`);

/** What the log tells of the exercise: a test may change it and then tell the watchers. */
export type Told = {
  times: readonly Exposure[] | undefined;
  readonly targets: readonly Target[];
  readonly masses: readonly BodyMass[];
  watchers: (() => void)[];
};

/** Opens the sheet in a session called `session` over a log that tells what is handed in. */
export function openTrend(
  times: readonly Exposure[] | undefined,
  exercise = 'lib-front-squat',
  session = TODAY,
  { targets = [], masses = [] }: Partial<Pick<Told, 'targets' | 'masses'>> = {},
) {
  const told: Told = { times, targets, masses, watchers: [] };
  let closed = 0;
  // the sheet reads the log in these few ways alone
  const app = {
    log: {
      exposures: () => told.times,
      loadResults: () => Promise.resolve(),
      status: () => ({ phase: 'open', seat: 'writer' }),
      lastAct: () => undefined,
      watch: (_topics: readonly string[], fn: () => void) => {
        told.watchers.push(fn);
        return () => undefined;
      },
    },
    acts: { targets: () => told.targets, bodyMasses: () => told.masses },
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
