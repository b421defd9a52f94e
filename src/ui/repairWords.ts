/* What the repair page says: it stands apart from the app, and needs nothing of it. */

export const REPAIR = {
  title: 'The app did not start',
  kept: 'Your records lie in this browser as they were, and nothing on this page deletes them.',
  again: 'Start it again',
  save: 'Save the records as a file',
  pin: 'PIN of the screen lock, before anything is saved',
  wrongPin: 'That is not the PIN. Where it is forgotten, the app itself has the way on: fetch it anew.',
  wait: (seconds: number): string => `Too many wrong PINs in a row: try again in ${seconds} seconds.`,
  saved: (rows: number): string => `A file with ${rows} records was handed over. Keep it where only you can read it.`,
  partly: 'The browser’s storage did not answer: the file holds only what the second copy had.',
  notSaved: 'The file could not be made. Start the app again, or restart the phone, and try once more.',
  fetch: 'Fetch the app anew',
  fetchHint:
    'Throws away the app’s own files and takes them from the server again. It needs a network; records are not touched.',
  noServer: 'The server cannot be reached, so the app’s files stay as they are. Try again with a network.',
};
