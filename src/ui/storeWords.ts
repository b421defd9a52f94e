import type { OpenFault } from '../log/open';
import type { SaveFault } from '../log/queue';

/* Why the log is not open, or something in it not saved, as sentences: what happened, and what helps. */

/** Returns why the log's database is not open. */
export function openFaultSentence(fault: OpenFault | null): string {
  switch (fault?.type) {
    case 'no-storage':
      return 'This browser keeps nothing for this page (a private window does that). Open it in an ordinary window.';
    case 'open-timeout':
      return 'The browser’s storage did not answer. Reload; if that does not help, restart the phone. Nothing is deleted.';
    case 'blocked':
      return 'Another tab holds an older version open. Close the other tabs of this app, then reload.';
    case 'newer':
      return 'These records were written by a newer version of the app. Reload to get it; until then a backup can be saved.';
    default:
      return `The browser’s storage could not be opened${fault ? ` (${fault.name})` : ''}. Reload; nothing is deleted.`;
  }
}

/** Returns why something is not saved. */
export function saveFaultSentence(fault: SaveFault | null): string {
  switch (fault?.type) {
    case 'storage-full':
      return 'this phone’s storage is full: free some space, or save a backup file';
    case 'connection-lost':
      return 'the browser dropped its storage: try again, or reload after saving a backup file';
    case 'write-failed':
      return `the browser refused the write (${fault.name})`;
    case 'not-the-writer':
      return 'another tab is the one that writes';
    case 'erased':
      return 'this client was erased';
    case undefined:
      return 'the browser is slow to answer';
  }
}
