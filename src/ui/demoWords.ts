/* What is said of the demo. */

export const DEMO = {
  mark: 'Invented demo',
  markMore: 'nobody in it is real',
  remove: 'Remove',
  removeLabel: 'Remove the demo',
  offer: 'Load the demo',
  loading: 'Loading…',
  title: 'Look round first',
  why: 'An invented studio: four performers of a made-up stage piece, twelve weeks. It lies apart from your records and is marked on every screen; one tap removes it.',
  noBackup: 'Invented records: they need no backup.',
  noFiles: 'This is the invented demo. Remove it first: files and keys belong to your own records.',
} as const;

const REFUSED = {
  running: 'A session is running. End it first, then load the demo.',
  unsaved: 'Something is not saved yet. That comes first; then load the demo.',
  failed: 'The demo could not be written: this browser does not keep it. Your records are untouched.',
} as const;

/** Returns why the demo was not loaded. */
export const demoRefused = (why: keyof typeof REFUSED): string => REFUSED[why];
