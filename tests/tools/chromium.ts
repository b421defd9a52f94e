import { type Browser, chromium } from 'playwright-core';
import { findChromium } from '../../.ci/chromium.mjs';

/** Starts the machine's Chromium, headless, with a new empty profile and nothing that calls home. Throws when there is none. */
export function launchChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: chromiumPath(), args: [...quiet] });
}

/** The browser's path; `npm test` has made sure that there is one. */
export function chromiumPath(): string {
  const path = findChromium();
  if (path === undefined) throw new Error('no Chromium: run "node .ci/ready.mjs --browser"');
  return path;
}

/** The switches every run of Chromium needs here. */
export const quiet: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A phone as small as most of those in use. */
export const phone = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 3, isMobile: true, hasTouch: true };
