import { gridOf } from '../../src/domain/block';
import { listedThings, type SessionRecord } from '../../src/domain/session';
import { type Hold, LANDING_SIGNS, type SetRecord } from '../../src/domain/set';
import type { Log } from '../../src/log/log';
import { clients, exercise, session, sessionsInMemory } from '../../src/log/views';
import { turns } from './fakes/life';

/* What a log shows, as short texts that a person can write down by hand. */

const loaded = (sign: string, load: Hold['load']): string[] => (load ? [`${sign}${load.value} ${load.unit}`] : []);
const counted = (value: number | undefined, unit: string): string[] => (value === undefined ? [] : [`${value}${unit}`]);

function held(hold: Hold): string {
  const { load, added, assist, band, pin, seconds, distance, landings, tries, good, degrees, reps } = hold;
  return [
    ...loaded('', load),
    ...loaded('+', added),
    ...loaded('-', assist),
    ...(band === undefined ? [] : [band]),
    ...(pin === undefined ? [] : [`pin ${pin}`]),
    ...counted(seconds, ' s'),
    ...(distance ? [`${distance.value} ${distance.unit}`] : []),
    ...counted(landings, ' landings'),
    ...counted(tries, ' tries'),
    ...counted(good, ' good'),
    ...counted(degrees, ' degrees'),
    ...(reps === undefined ? [] : [`x${reps}`]),
  ].join(' ');
}

function effortOf({ effort }: SetRecord): string[] {
  if (!effort) return [];
  return ['atLeast' in effort ? `at least ${effort.atLeast} left` : `${effort.value} ${effort.as}`];
}

/** Returns a set as a text: its kind, exercise, side and what it held; then, parted by bars, what was observed. */
export function textOfSet(log: Log, set: SetRecord): string {
  const name = exercise(log, set.exercise ?? '')?.name ?? set.exercise ?? 'nothing';
  const parts = [set, ...set.parts].map(held).filter((text) => text !== '');
  const { setUp, tempo, height, pause, pain } = set;
  return [
    [set.kind, name, set.side, set.direction, parts.join(' > ')].filter(Boolean).join(' '),
    ...(setUp === undefined ? [] : [setUp]),
    ...(tempo === undefined ? [] : [tempo]),
    ...(height ? [`${height.value} ${height.unit} high`] : []),
    ...counted(pause, ' s held'),
    ...effortOf(set),
    ...(set.form ? [set.form] : []),
    ...(set.ended ? [set.ended] : []),
    ...set.faults.map(({ id, gone }) => `${id} ${gone ? 'gone' : 'seen'}`),
    ...set.cues.map(({ cue, answer }) => `${wordsOf(log, cue)}: ${answer}`),
    ...set.marks.map((mark) =>
      [`${mark.n} ${mark.good ? 'good' : 'not'}`, ...LANDING_SIGNS.filter((sign) => mark[sign] === false)].join(' '),
    ),
    ...counted(set.smooth, ' smooth'),
    ...(pain ? [`pain ${pain.value}${pain.rising ? ' rising' : ''}`] : []),
    ...(set.note === undefined ? [] : [`"${set.note}"`]),
    ...(set.tally ? ['counted'] : []),
  ].join(' | ');
}

function wordsOf(log: Log, cue: string): unknown {
  return log.get(`main/${cue}`)?.body['words']?.[0].value;
}

/** Returns the session of a client that runs. */
export function running(log: Log, alias: string): SessionRecord {
  const stream = streamOf(log, alias);
  const found = sessionsInMemory(log).find((one) => one.stream === stream && !one.session.end);
  if (!found) throw new Error(`no session of ${alias} runs`);
  return found.session;
}

/** Returns the stream of a client. */
export function streamOf(log: Log, alias: string): string {
  const found = clients(log).find((one) => one.alias === alias);
  if (!found) throw new Error(`no ${alias}`);
  return found.id;
}

/** Returns what the log reads behind the screen, once it is read. */
export async function once<T>(read: () => T | undefined): Promise<T> {
  for (let turn = 0; turn < 200; turn += 1) {
    const found = read();
    if (found !== undefined) return found;
    await turns(5);
  }
  throw new Error('never read');
}

/** Reads a client's sessions that are over, and returns them with the latest first. */
export async function over(log: Log, alias: string): Promise<readonly SessionRecord[]> {
  const stream = streamOf(log, alias);
  const times = await once(() => log.lastTimes(stream, '', ''));
  await Promise.all(times.map((time) => log.loadSession(stream, time.session)));
  const read = times.flatMap((time) => session(log, stream, time.session) ?? []);
  return read.filter((one) => one.end !== undefined);
}

/** Returns the sets of a session, a text each. */
export const setTexts = (log: Log, { sets }: SessionRecord): string[] => sets.map((set) => textOfSet(log, set));

/** Returns what stands on a session's list, a text each. */
export function listTexts(log: Log, record: SessionRecord): string[] {
  return listedThings(record).map(({ type, id }) => {
    if (type === 'block') return `block ${record.blocks.find((one) => one.id === id)?.kind}`;
    const item = record.items.find((one) => one.id === id);
    const swapped = item?.swappedFor && exercise(log, item.swappedFor.exercise)?.name;
    return [
      exercise(log, id)?.name ?? id,
      ...(item?.tally === undefined ? [] : [`${item.tally} in all`]),
      ...(item?.skipped ? [`skipped: ${item.skipped.why}`] : []),
      ...(swapped ? [`instead ${swapped}`] : []),
    ].join(' | ');
  });
}

/** Returns the cells of a session's first block, round by round: what was done in each. */
export function cellTexts(log: Log, { blocks, sets }: SessionRecord): string[] {
  const [block] = blocks;
  if (!block) return [];
  return gridOf(block, sets, (id) => exercise(log, id)).flatMap((row) =>
    row.map(({ station, round, done }) => {
      const reps = done.map((set) => set.reps).join(' ');
      return `${exercise(log, station.exercise)?.name} ${round}: ${reps}`;
    }),
  );
}
