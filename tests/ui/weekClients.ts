import type { ClientRecord } from '../../src/analysis/studio';
import { addDays } from '../../src/domain/day';
import type { OtherWork, WorkKind } from '../../src/domain/otherWork';
import type { SessionRecord } from '../../src/domain/session';
import { FRONT_SQUAT, lift, sessionOn } from '../analysis/made';
import { shipped } from '../domain/made';
import { TODAY } from './weekApp';

/* Three invented clients for the studio's week. */

/** Returns a client of whom nothing is known but what is handed in. */
export const client = (stream: string, alias: string, more: Partial<ClientRecord> = {}): ClientRecord => ({
  stream,
  alias,
  sessions: [],
  targets: [],
  masses: [],
  otherWork: [],
  ...more,
});
const work = (kind: WorkKind, day: string, more: Partial<OtherWork> = {}): OtherWork => ({
  id: `${kind} ${day}`,
  work: kind,
  day,
  notedAt: 1,
  ...more,
});
const ended = (session: SessionRecord, minutes: number, more: Partial<SessionRecord> = {}): SessionRecord => ({
  ...session,
  minutes,
  ...(session.start ? { end: { ...session.start, at: session.start.at + minutes * 60_000 } } : {}),
  ...more,
});

/** Twice a week up to two days ago: it rises for six weeks, and is flat for seven. */
const flat = Array.from({ length: 26 }, (_, n) => {
  const load = n < 12 ? 80 + n : 92;
  const day = addDays(TODAY, -2 - Math.round((25 - n) * 3.5));
  return ended(sessionOn(day, FRONT_SQUAT, [lift(load, 5, 2), lift(load, 5, 2), lift(load, 5, 2)]), 50, {
    effort: { value: 7, as: 'session' },
  });
});
/** A lift that is flat, and behind for its target. */
export const ZED = client('z', 'Client Zed', {
  sessions: flat,
  date: { name: 'opening', day: '2027-03-01' },
  targets: [
    {
      id: 't',
      exercise: 'lib-front-squat',
      goal: { value: 110, unit: 'kg' },
      reps: 5,
      start: { value: 90, unit: 'kg' },
      from: '2026-10-01',
      day: '2026-12-20',
    },
  ],
});
const JUMP = shipped('lib-drop-landing');
/** More landings than the range, and an end that nobody noted. */
export const BIRCH = client('b', 'Client Birch', {
  level: 'beginner',
  sessions: [sessionOn('2026-11-23', JUMP, [{ landings: 60 }, { landings: 50 }])],
});
/** No session that took place: a rest day, one cancelled, a rehearsal. */
export const ASH = client('a', 'Client Ash', {
  date: { name: 'fitting', day: '2026-12-06' },
  sessions: [{ ...sessionOn('2026-11-24', FRONT_SQUAT, []), attendance: 'cancelled' }],
  otherWork: [work('rest day', '2026-11-23'), work('rehearsal', '2026-11-25', { hours: 3 })],
});
