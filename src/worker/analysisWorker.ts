import { whole } from '../analysis/others';
import { createAnalyst, type Question } from './analyst';
import type { FromWorker, ToWorker } from './messages';

/* An analyst in a thread of their own. What goes wrong there is told, and nothing is left without an answer. */

const analyst = createAnalyst();

addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  if (data.type !== 'ask') return analyst.take(data);
  postMessage({ n: data.n, reply: replyTo(data.question) } satisfies FromWorker);
});

function replyTo(question: Question): FromWorker['reply'] {
  try {
    return whole(analyst.reply(question));
  } catch {
    return { type: 'failed' };
  }
}
