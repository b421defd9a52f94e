import { type ComponentType, h } from 'preact';
import { useEffect } from 'preact/hooks';
import { useRedraw } from '../app';

type Loading<P> = { component: ComponentType<P> | undefined; load: () => Promise<void> };
const all: Loading<never>[] = [];
let before = (): Promise<void> => Promise.resolve();

/** Sets what every part waits for before it is drawn: what its taps will call. */
export function loadBefore(load: () => Promise<void>): void {
  before = load;
}

/**
 * Returns a component whose code is loaded behind the first screen: nothing is drawn until it is there, which it nearly always is (`loadAll`).
 * What fails to load is tried again at the next drawing.
 */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const part: Loading<P> = {
    component: undefined,
    load: async () => {
      await before();
      part.component ??= await load();
    },
  };
  all.push(part as unknown as Loading<never>);
  return function Later(props: P) {
    const redraw = useRedraw();
    const drawn = part.component;
    useEffect(() => {
      // not whether it is there, but whether it was drawn: it may have come in between
      if (!drawn) void part.load().then(redraw, () => undefined);
    });
    return drawn ? h(drawn, props) : null;
  };
}

/** Loads everything that was put off, so that no tap waits for it and an update on the server takes nothing away. */
export async function loadAll(): Promise<void> {
  for (const part of all) await part.load().catch(() => undefined);
}
