/*
 * The headers a host should send, in one place: the preview server sends them, and `npm run package` writes them out for others.
 */

/** Of every answer. The page brings its content rules itself; a header alone can forbid being framed, and isolates the page from who opened it. */
const ALWAYS: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(), geolocation=(), microphone=(), payment=(), usb=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
};

/** Of the page and of all that must be asked for anew each time: a copy from the browser's own cache could hold an update back for a day. */
export const PAGE_HEADERS: Readonly<Record<string, string>> = { ...ALWAYS, 'Cache-Control': 'no-cache' };

/** Of files under assets/, whose names carry a hash of what is inside. */
export const ASSET_HEADERS: Readonly<Record<string, string>> = {
  ...ALWAYS,
  'Cache-Control': 'public, max-age=31536000, immutable',
};

/** Returns the content rules of a built page, with what only a header can carry: that nobody may frame it. */
export function contentRules(page: string): string {
  const rules = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(page)?.[1];
  if (rules === undefined) throw new Error('the page has no content security policy');
  return `${rules}; frame-ancestors 'none'`;
}
