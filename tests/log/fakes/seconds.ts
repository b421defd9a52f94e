import { vi } from 'vitest';
import { turns } from './life';

/** Lets seconds pass for an app whose timers a test moves by hand, with time in between for what each of them starts. */
export async function seconds(count: number): Promise<void> {
  for (let tenth = 0; tenth < count * 10; tenth += 1) {
    await vi.advanceTimersByTimeAsync(100);
    await turns(5);
  }
}
