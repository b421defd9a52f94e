import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';

/** What a host does in place of sending a file: nothing of it, another page, or half of it and the line is cut. */
export type Fault = 'missing' | 'page' | 'cut';

/** A plain static host whose folder can be swapped under the pages it has served. */
export type Host = {
  readonly url: string;
  /** Serves another folder from now on, and nothing of the one before. */
  readonly swap: (folder: string) => void;
  /** Answers addresses that hold `part` with a fault; `null`: all is well again. */
  readonly spoil: (part: string, fault: Fault | null) => void;
  /** The addresses asked for so far. */
  readonly asked: readonly string[];
  readonly stop: () => Promise<void>;
};

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
};

/**
 * Serves a folder on a free port as a static host does. It obeys the folder's `_headers` and `_redirects`, where they are there; without them an unknown
 * path under assets/ is missing, any other is the page, and nothing may be kept by the browser unasked.
 */
export async function openHost(first: string): Promise<Host> {
  let folder = first;
  const faults = new Map<string, Fault>();
  const asked: string[] = [];
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://host').pathname;
    asked.push(path);
    const fault = [...faults].find(([part]) => path.includes(part))?.[1];
    const found = fault === 'page' ? join(folder, 'index.html') : fileOf(folder, path);
    if (fault === 'missing' || found === undefined) return response.writeHead(404).end('not there');
    const bytes = readFileSync(found);
    response.writeHead(200, {
      'Content-Type': TYPES[extname(found)] ?? 'application/octet-stream',
      'Content-Length': bytes.length,
      ...headersOf(folder, path),
    });
    if (fault !== 'cut') return response.end(bytes);
    response.write(bytes.subarray(0, bytes.length / 2), () => response.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the host has no port');
  return {
    url: `http://127.0.0.1:${address.port}`,
    swap: (next) => {
      folder = next;
    },
    spoil: (part, fault) => (fault === null ? faults.delete(part) : faults.set(part, fault)),
    asked,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function fileOf(folder: string, path: string): string | undefined {
  const file = join(folder, path.endsWith('/') ? `${path}index.html` : path);
  if (existsSync(file) && statSync(file).isFile()) return file;
  const redirects = join(folder, '_redirects');
  const catchesAll = existsSync(redirects) && /^\/\* \/index\.html 200$/m.test(readFileSync(redirects, 'utf8'));
  return catchesAll || !path.startsWith('/assets/') ? join(folder, 'index.html') : undefined;
}

/** Returns the headers that the `_headers` file gives a path: every pattern that fits adds its own; a later one replaces. */
function headersOf(folder: string, path: string): Record<string, string> {
  const file = join(folder, '_headers');
  if (!existsSync(file)) return { 'Cache-Control': 'no-cache' };
  const headers: Record<string, string> = {};
  let fits = false;
  for (const line of readFileSync(file, 'utf8').split('\n')) {
    if (line.startsWith('/')) fits = line.endsWith('*') ? path.startsWith(line.slice(0, -1)) : path === line;
    const [, name, value] = /^\s+([\w-]+): (.+)$/.exec(line) ?? [];
    if (fits && name && value) headers[name] = value;
  }
  return headers;
}
