import { type ComponentType, h } from 'preact';
import { useEffect } from 'preact/hooks';
import { useRedraw } from '../app';
import { LostPart } from './LostPart';

type Loading<P> = { component: ComponentType<P> | undefined; failed: boolean; load: () => Promise<void> };
const all: Loading<never>[] = [];
let before = (): Promise<void> => Promise.resolve();
let lost = (): Promise<void> => Promise.resolve();

/** Sets what every part waits for before it is drawn (what its taps will call), and who is told of a part that could not be loaded. */
export function loadBefore(load: () => Promise<void>, whenLost: () => Promise<void>): void {
  before = load;
  lost = whenLost;
}

/**
 * Returns a component whose code is loaded behind the first screen: nothing is drawn until it is there, which it nearly always is (`loadAll`).
 * What fails to load says so in its place, and is tried again at the next drawing.
 */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const part: Loading<P> = {
    component: undefined,
    failed: false,
    load: async () => {
      try {
        await before();
        part.component ??= await load();
        part.failed = false;
      } catch (error) {
        part.failed = true;
        void lost();
        throw error;
      }
    },
  };
  all.push(part as unknown as Loading<never>);
  return function Later(props: P) {
    const redraw = useRedraw();
    const drawn = part.component;
    const saidFailed = part.failed;
    useEffect(() => {
      // not whether it is there, but whether it was drawn: it may have come in between
      if (!drawn) void part.load().then(redraw, () => saidFailed || redraw());
    });
    if (drawn) return h(drawn, props);
    return part.failed ? h(LostPart, { again: redraw }) : null;
  };
}

/** Loads everything that was put off, so that no tap waits for it and an update on the server takes nothing away. */
export async function loadAll(): Promise<void> {
  for (const part of all) await part.load().catch(() => undefined);
}
