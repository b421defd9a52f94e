/// <reference lib="webworker" />
import {
  addRoute,
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  type PrecacheEntry,
  precache,
} from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

declare const self: ServiceWorkerGlobalScope;
/** Every file of this build with the hash of its bytes; put in by vite.config.ts. A file that comes otherwise (half, or another page in its place) fails the
 *  whole install: the version before goes on, and the browser tries again later. */
declare const BUILD_FILES: PrecacheEntry[];

precache(BUILD_FILES);
addRoute();
cleanupOutdatedCaches();

// Every address of the app is the same page; it reads the path itself. Should the browser have dropped the kept copy, the server's is taken.
const page = createHandlerBoundToURL('/index.html');
registerRoute(
  new NavigationRoute((asked) => page(asked).catch(() => fetch(asked.request)), { denylist: [/^\/version\.json$/] }),
);

// A new version waits until the page asks: it never replaces the files under a running session.
self.addEventListener('message', (event) => {
  if ((event.data as { type?: unknown } | null)?.type === 'SKIP_WAITING') event.waitUntil(self.skipWaiting());
});

// The first page is taken over at once, so that the parts it loads later also come from the cache. A waiting version
// never gets here while a page is open, unless that page asked.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
