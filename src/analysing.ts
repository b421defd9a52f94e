import type { Log } from './log/log';
import type { Analysing } from './ui/analysing';

/** Joins the log and the worker into what the screens ask of the analysis. */
export function createAnalysing(log: Log): Analysing {
  return {
    client: async () => {
      await log.ready;
      return undefined;
    },
    studio: async () => {
      await log.ready;
      return undefined;
    },
  };
}
