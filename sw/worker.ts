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
/** Every file of this build with its revision; put in by vite.config.ts. */
declare const BUILD_FILES: PrecacheEntry[];

precache(BUILD_FILES);
addRoute();
cleanupOutdatedCaches();

// Every address of the app is the same page; it reads the path itself.
registerRoute(new NavigationRoute(createHandlerBoundToURL('/index.html')));

// A new version waits until the page asks: it never replaces the files under a running session.
self.addEventListener('message', (event) => {
  if ((event.data as { type?: unknown } | null)?.type === 'SKIP_WAITING') event.waitUntil(self.skipWaiting());
});

// The first page is taken over at once, so that the parts it loads later also come from the cache. A waiting version
// never gets here while a page is open, unless that page asked.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
