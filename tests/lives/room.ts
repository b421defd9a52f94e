import { join } from 'node:path';
import type * as absorb from '../../src/log/absorb';
import type * as beside from '../../src/log/beside';
import type * as eraseActs from '../../src/log/eraseActs';
import type * as exportRead from '../../src/log/exportRead';
import type * as libraryActs from '../../src/log/libraryActs';
import type * as logSet from '../../src/log/logSet';
import type * as scan from '../../src/log/scan';
import type * as series from '../../src/log/series';
import type * as sessionActs from '../../src/log/sessionActs';
import type * as setActs from '../../src/log/setActs';
import type * as start from '../../src/log/start';
import type * as views from '../../src/log/views';

/** What lives ask of the log, as one object: they run alike on the real rooms and on planted copies. */
export type LivesRoom = Pick<typeof start, 'startLog'> &
  Pick<typeof absorb, 'beginImport'> &
  Pick<typeof beside, 'besideIn' | 'settle'> &
  Pick<typeof eraseActs, 'eraseClient'> &
  Pick<typeof exportRead, 'readExport'> &
  Pick<typeof scan, 'scanRows'> &
  Pick<typeof series, 'buildSeries'> &
  Pick<typeof logSet, 'logSet' | 'padDraft'> &
  Pick<typeof setActs, 'touchUp' | 'removeSet' | 'moveSet'> &
  Pick<typeof sessionActs, 'startSession' | 'endSession' | 'resumeSession' | 'removeSession'> &
  Pick<typeof libraryActs, 'saveClient' | 'removeClient' | 'noteBodyMass' | 'addCue'> &
  Pick<typeof views, 'session' | 'sessionsInMemory' | 'clients'>;

const FILES = [
  'absorb',
  'beside',
  'eraseActs',
  'exportRead',
  'libraryActs',
  'logSet',
  'scan',
  'series',
  'sessionActs',
  'setActs',
  'start',
  'views',
];

/** Returns the room found below a source folder, the real one or a copy. */
export async function livesRoomIn(src: string): Promise<LivesRoom> {
  const modules = await Promise.all(FILES.map((file) => import(/* @vite-ignore */ join(src, `log/${file}.ts`))));
  return Object.assign({}, ...modules) as LivesRoom;
}
