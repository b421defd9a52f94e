import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser', 'google-chrome'];

/** The path of the browser to test with: the variable CHROMIUM, or the first known name on PATH; undefined when there is none. */
export function findChromium() {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const found = names.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [process.env.CHROMIUM ?? '', ...found].find((path) => path !== '' && canRun(path));
}

function canRun(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
