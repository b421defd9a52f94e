import { AsyncLocalStorage } from 'node:async_hooks';

/**
 * The life of one launch of the app. Everything outside the program (the database, files, locks, messages) asks whether the launch it
 * talks to still lives: to a dead one nothing is ever told again, to a frozen one when it thaws.
 */
export type Life = {
  state: 'runs' | 'frozen' | 'dead';
  /** What could not be told while frozen, in order. */
  readonly late: (() => void)[];
  /** Called once when it dies. */
  readonly onDeath: (() => void)[];
};

const lives = new AsyncLocalStorage<Life>();
let latest: Life | undefined;

export function beginLife(): Life {
  latest = { state: 'runs', late: [], onDeath: [] };
  return latest;
}

/** Runs something as part of a launch; whatever it starts and awaits belongs to that launch too. */
export const within = <T>(life: Life, fn: () => T): T => lives.run(life, fn);

/** Returns the launch that is calling, where that is known. */
export const own = (): Life | undefined => lives.getStore();

/** Returns the launch that is calling. Timers that a test moves by hand have lost theirs: they count for the latest. */
export function caller(): Life {
  const life = lives.getStore() ?? latest;
  if (!life) throw new Error('no app has been launched');
  return life;
}

/** Tells a launch something: now, when it thaws, or never. */
export function tell(life: Life, telling: () => void): void {
  if (life.state === 'dead') return;
  if (life.state === 'frozen') life.late.push(telling);
  else within(life, telling);
}

/** A promise that a dead launch waits for in vain. */
export const forEver = <T>(): Promise<T> => new Promise<T>(() => undefined);

/** Lets so many turns of the event loop pass. */
export async function turns(count: number): Promise<void> {
  for (let i = 0; i < count; i += 1) await new Promise((resolve) => setImmediate(resolve));
}
