import { join } from 'node:path';
import * as keys from '../../src/log/keys';
import * as libraryActs from '../../src/log/libraryActs';
import * as logSet from '../../src/log/logSet';
import * as memory from '../../src/log/memory';
import * as planActs from '../../src/log/planActs';
import * as sessionActs from '../../src/log/sessionActs';
import * as setActs from '../../src/log/setActs';
import * as start from '../../src/log/start';
import * as views from '../../src/log/views';

/** What the suites ask of the log, as one object: they run alike on the real rooms and on planted copies. */
export type LogRoom = Pick<typeof start, 'startLog'> &
  Pick<typeof logSet, 'logSet' | 'padDraft'> &
  Pick<typeof setActs, 'touchUp' | 'noteSet' | 'editSet' | 'removeSet' | 'moveSet' | 'logRamp'> &
  Pick<typeof sessionActs, 'startSession' | 'endSession' | 'resumeSession' | 'removeSession'> &
  Pick<typeof planActs, 'listExercise'> &
  Pick<typeof libraryActs, 'saveClient'> &
  Pick<typeof views, 'session' | 'sessionsInMemory'> &
  Pick<typeof memory, 'createMemory'> &
  Pick<typeof keys, 'keyOf'>;

export const REAL: LogRoom = {
  ...start,
  ...logSet,
  ...setActs,
  ...sessionActs,
  ...planActs,
  ...libraryActs,
  ...views,
  ...memory,
  ...keys,
};

const FILES = ['start', 'logSet', 'setActs', 'sessionActs', 'planActs', 'libraryActs', 'views', 'memory', 'keys'];

/** Returns the room found below a source folder: a copy's. */
export async function roomIn(src: string): Promise<LogRoom> {
  const modules = await Promise.all(FILES.map((file) => import(/* @vite-ignore */ join(src, `log/${file}.ts`))));
  return Object.assign({}, ...modules) as LogRoom;
}
