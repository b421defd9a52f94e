import { folderName } from './second';

/**
 * Deletes a log that no tab shows any more, wherever it lies: its database (a tab that still holds it open lets go), its second copy, its texts outside.
 * Rejects where some of it could not be deleted; doing it again is harmless.
 */
export async function dropLog(name: string): Promise<void> {
  const results = await Promise.allSettled([dropDatabase(name), dropFolder(folderName(name))]);
  dropTexts(`${name}.`);
  const failed = results.find((one) => one.status === 'rejected');
  if (failed) throw failed.reason;
}

/** A tab that holds the database and is frozen cannot let go of it. */
const PATIENCE_MS = 5000;

function dropDatabase(name: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase(name);
    request.onsuccess = () => resolve();
    request.onerror = () => reject(request.error ?? new Error(`${name} was not deleted`));
    setTimeout(() => reject(new Error(`${name} is held open`)), PATIENCE_MS);
  });
}

async function dropFolder(name: string): Promise<void> {
  // without a private file system there is no second copy
  const root = await navigator.storage?.getDirectory?.().catch(() => undefined);
  try {
    await root?.removeEntry(name, { recursive: true });
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== 'NotFoundError') throw error;
  }
}

function dropTexts(prefix: string): void {
  for (const key of Object.keys(localStorage)) if (key.startsWith(prefix)) localStorage.removeItem(key);
}
