import { join } from 'node:path';
import { preview } from 'vite';

const root = join(import.meta.dirname, '../..');

/** A running server: where it is, and how to end it (open connections are cut). */
export interface Served {
  readonly url: string;
  stop(): Promise<void>;
}

/** Serves a built app as `npm start` does, on a free port or the given one. `folder` is dist unless it is named. */
export async function serveApp({ folder = join(root, 'dist'), port = 0 } = {}): Promise<Served> {
  const server = await preview({ root, preview: { port }, build: { outDir: folder }, logLevel: 'error' });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the server has no port');
  return { url: `http://127.0.0.1:${address.port}`, stop: () => server.close() };
}
