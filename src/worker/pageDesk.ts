import { createAnalyst } from './analyst';
import type { Desk } from './desk';

/* Where there is no worker the same is done in the page, in between other work. */

/** Returns a desk in the page: it lets everything else have its turn between two steps. */
export function pageDesk(): Desk {
  let analyst = createAnalyst();
  return {
    hand: (handed) => analyst.take(handed),
    async ask(question, signal) {
      try {
        const steps = analyst.reply(question);
        for (;;) {
          if (signal?.aborted) return { type: 'stopped' };
          const step = steps.next();
          if (step.done) return step.value;
          await new Promise((next) => setTimeout(next, 0));
        }
      } catch {
        return { type: 'failed' };
      }
    },
    end: () => {
      analyst = createAnalyst();
    },
  };
}
