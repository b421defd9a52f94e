import { join } from 'node:path';
import type * as day from '../../src/domain/day';
import type * as ids from '../../src/domain/ids';
import type * as session from '../../src/domain/session';
import type * as set from '../../src/domain/set';
import type * as canonical from '../../src/merge/canonical';
import type * as door from '../../src/merge/door';
import type * as merge from '../../src/merge/merge';
import type * as removal from '../../src/merge/removal';
import type * as row from '../../src/merge/row';
import type * as shown from '../../src/merge/shown';
import type * as stamp from '../../src/merge/stamp';
import type * as write from '../../src/merge/write';

/** Everything the laws ask of domain and merge, as one object: the suite runs alike on the real rooms and on planted copies. */
export type MergeRoom = Pick<typeof merge, 'mergeRows' | 'registerOf'> &
  Pick<typeof write, 'writeRow'> &
  Pick<typeof stamp, 'nextStamp'> &
  Pick<typeof removal, 'standing' | 'removing' | 'restoring'> &
  Pick<typeof shown, 'shown' | 'beside'> &
  Pick<typeof row, 'emptyRow' | 'valueAt'> &
  Pick<typeof door, 'admitRow'> &
  Pick<typeof canonical, 'canonicalRow'> &
  Pick<typeof set, 'readSet'> &
  Pick<typeof session, 'readSession'> &
  Pick<typeof ids, 'plannedSessionId'> &
  Pick<typeof day, 'instantAt'>;

const FILES = [
  'domain/day',
  'domain/ids',
  'domain/session',
  'domain/set',
  'merge/canonical',
  'merge/door',
  'merge/merge',
  'merge/removal',
  'merge/row',
  'merge/shown',
  'merge/stamp',
  'merge/write',
];

/** The sources the tests stand beside. */
export const REAL_SRC = join(import.meta.dirname, '../../src');

/** Returns the rooms found below a source folder, the real one or a copy. */
export async function roomIn(src: string): Promise<MergeRoom> {
  const modules = await Promise.all(FILES.map((file) => import(/* @vite-ignore */ join(src, `${file}.ts`))));
  return Object.assign({}, ...modules) as MergeRoom;
}
