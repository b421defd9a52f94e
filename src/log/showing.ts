/*
 * Which log this device shows: the trainer's own, or the invented one of the demo. The flag lies outside both, so neither has to be opened to know; and
 * a start takes its word, so that going from one to the other is a start like any other.
 */

export const OWN_LOG = 'cuewright';
export const DEMO_LOG = 'cuewright-demo';

const FLAG = `${OWN_LOG}.demo`;

/** `loading`: being written, or a kill came in between. `leaving`: to be deleted. Either way the own log is shown, and a start clears what is left. */
export type DemoFlag = 'none' | 'loading' | 'shown' | 'leaving';

/** Returns what stands of the demo on this device. */
export function demoFlag(): DemoFlag {
  try {
    const text = localStorage.getItem(FLAG);
    return text === null ? 'none' : text === 'shown' || text === 'leaving' ? text : 'loading';
  } catch {
    return 'none';
  }
}

/** Notes what stands of the demo. Returns whether the device remembers it: one that does not cannot show a demo. */
export function setDemoFlag(flag: DemoFlag): boolean {
  try {
    if (flag === 'none') localStorage.removeItem(FLAG);
    else localStorage.setItem(FLAG, flag);
  } catch {
    // refused or full
  }
  return demoFlag() === flag;
}

/** Calls `fn` when another tab changes which log is shown. */
export function watchDemoFlag(fn: () => void): void {
  addEventListener('storage', ({ key }) => {
    if (key === FLAG || key === null) fn();
  });
}
