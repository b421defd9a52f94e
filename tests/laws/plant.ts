import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { REAL_SRC } from './room';

/** A fault to put into a copy of the sources: in one file, one text that stands there exactly once becomes another. */
export type Plant = { readonly file: string; readonly find: string; readonly put: string };

export type PlantedCopy = {
  /** The copy's source folder: import from it what is to be tried. */
  readonly src: string;
  readonly remove: () => void;
};

/**
 * Returns a copy of whole rooms (`domain`, `merge`, `log` …) with the faults planted, in a folder of its own, which sees the real packages.
 * Throws where a text does not stand in its file exactly once: the fault would not be the one that is meant.
 */
export function plantedCopy(rooms: readonly string[], plants: readonly Plant[]): PlantedCopy {
  const dir = mkdtempSync(join(tmpdir(), 'cuewright-planted-'));
  const remove = (): void => rmSync(dir, { recursive: true, force: true });
  const src = join(dir, 'src');
  try {
    symlinkSync(join(REAL_SRC, '../node_modules'), join(dir, 'node_modules'));
    // the compiler's settings stay behind: they name files that the copy has not
    for (const room of rooms) {
      cpSync(join(REAL_SRC, room), join(src, room), { recursive: true, filter: (path) => !path.endsWith('.json') });
    }
    for (const plant of plants) plantIn(src, plant);
  } catch (failed) {
    remove();
    throw failed;
  }
  return { src, remove };
}

function plantIn(src: string, { file, find, put }: Plant): void {
  const path = join(src, file);
  const pieces = readFileSync(path, 'utf8').split(find);
  if (pieces.length !== 2)
    throw new Error(`${file} holds ${JSON.stringify(find)} ${pieces.length - 1} times, not once`);
  writeFileSync(path, pieces.join(put));
}
