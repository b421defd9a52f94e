import type { Readable, Writable } from 'node:stream';
import type { Started } from './process';

type Sent = Readonly<Record<string, unknown>>;
type Message = { id?: number; method?: string; params?: Sent; result?: Sent; error?: { message: string } };

/** The devtools protocol with nothing around it: a browser may be killed in the middle of any word. */
export type Pipe = {
  /** Resolves with the answer; rejects where there is none to come, as the browser is gone. */
  readonly send: (method: string, params?: Sent, session?: string) => Promise<Sent>;
  readonly on: (method: string, fn: (params: Sent) => void) => void;
};

/** Returns the protocol of a browser that was started to be spoken with over pipes. */
export function pipeOf({ child }: Started): Pipe {
  const [, , , into, from] = child.stdio as [unknown, unknown, unknown, Writable, Readable];
  const waiting = new Map<number, { resolve: (result: Sent) => void; reject: (error: Error) => void }>();
  const listeners = new Map<string, (params: Sent) => void>();
  let last = 0;
  let gone = false;
  let part = '';

  const end = (): void => {
    gone = true;
    for (const { reject } of waiting.values()) reject(new Error('the browser is gone'));
    waiting.clear();
  };
  function take(text: string): void {
    const { id, method, params = {}, result = {}, error } = JSON.parse(text) as Message;
    if (method !== undefined) listeners.get(method)?.(params);
    if (id === undefined) return;
    if (error) waiting.get(id)?.reject(new Error(error.message));
    else waiting.get(id)?.resolve(result);
    waiting.delete(id);
  }
  from.setEncoding('utf8');
  from.on('data', (chunk: string) => {
    // every message ends with a zero
    const texts = (part + chunk).split('\0');
    part = texts.pop() ?? '';
    for (const text of texts) take(text);
  });
  from.on('close', end);
  for (const stream of [into, from]) stream.on('error', end);

  return {
    send: (method, params = {}, session) =>
      new Promise((resolve, reject) => {
        if (gone) return reject(new Error('the browser is gone'));
        last += 1;
        waiting.set(last, { resolve, reject });
        into.write(`${JSON.stringify({ id: last, method, params, ...(session ? { sessionId: session } : {}) })}\0`);
      }),
    on: (method, fn) => void listeners.set(method, fn),
  };
}
