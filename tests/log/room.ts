import { join } from 'node:path';
import * as blockActs from '../../src/log/blockActs';
import * as careActs from '../../src/log/careActs';
import * as keys from '../../src/log/keys';
import * as libraryActs from '../../src/log/libraryActs';
import * as logSet from '../../src/log/logSet';
import * as memory from '../../src/log/memory';
import * as planActs from '../../src/log/planActs';
import * as roundActs from '../../src/log/roundActs';
import * as sessionActs from '../../src/log/sessionActs';
import * as setActs from '../../src/log/setActs';
import * as start from '../../src/log/start';
import * as targetActs from '../../src/log/targetActs';
import * as templateActs from '../../src/log/templateActs';
import * as views from '../../src/log/views';
import * as workActs from '../../src/log/workActs';

/** What the suites ask of the log, as one object: they run alike on the real rooms and on planted copies. */
export type LogRoom = Pick<typeof start, 'startLog'> &
  Pick<typeof logSet, 'logSet' | 'padDraft'> &
  Pick<typeof setActs, 'touchUp' | 'noteSet' | 'editSet' | 'removeSet' | 'moveSet' | 'logRamp'> &
  Pick<
    typeof sessionActs,
    | 'startSession'
    | 'pauseSession'
    | 'endPauses'
    | 'noteMissedSession'
    | 'endSession'
    | 'resumeSession'
    | 'removeSession'
  > &
  Omit<typeof planActs, 'held' | 'orderBehind' | 'planned'> &
  typeof blockActs &
  typeof roundActs &
  typeof templateActs &
  typeof careActs &
  typeof targetActs &
  typeof workActs &
  Omit<typeof libraryActs, 'latestBodyMass'> &
  Omit<typeof views, 'shownOf' | 'sessionRows'> &
  Pick<typeof memory, 'createMemory'> &
  Pick<typeof keys, 'keyOf'>;

export const REAL: LogRoom = {
  ...start,
  ...logSet,
  ...setActs,
  ...sessionActs,
  ...planActs,
  ...blockActs,
  ...roundActs,
  ...templateActs,
  ...careActs,
  ...targetActs,
  ...workActs,
  ...libraryActs,
  ...views,
  ...memory,
  ...keys,
};

const FILES = [
  'start',
  'logSet',
  'setActs',
  'sessionActs',
  'planActs',
  'blockActs',
  'roundActs',
  'templateActs',
  'careActs',
  'targetActs',
  'workActs',
  'libraryActs',
  'views',
  'memory',
  'keys',
];

/** Returns the room found below a source folder: a copy's. */
export async function roomIn(src: string): Promise<LogRoom> {
  const modules = await Promise.all(FILES.map((file) => import(/* @vite-ignore */ join(src, `log/${file}.ts`))));
  return Object.assign({}, ...modules) as LogRoom;
}
