import { expect } from 'vitest';
import { beginImport } from '../../src/log/absorb';
import { saveClient } from '../../src/log/libraryActs';
import type { SessionPlace } from '../../src/log/logSet';
import { noteSet, touchUp } from '../../src/log/setActs';
import * as views from '../../src/log/views';
import type { App, Device } from './fakes/device';
import { lookInto } from './fakes/disk';
import { OF_M } from './golden1';
import { atRest } from './goldenDevice';
import { listTexts, once, over, running, setTexts, streamOf } from './goldenTexts';
import { good } from './gym';

const NEWER = 'newer000-00000001';
type Stored = {
  readonly id: string;
  readonly kind: string;
  readonly seen: readonly (readonly [string, number])[];
  readonly body: Readonly<Record<string, readonly unknown[]>>;
};

async function stored(device: Device, store: string, kind: string): Promise<readonly Stored[]> {
  return ((await lookInto(device.disk, 'cuewright', store)) as Stored[]).filter((one) => one.kind === kind);
}

/** Edits the rows that a newer app has written to, and expects what it wrote to lie there untouched. */
export async function writesToOne({ log, run }: App, device: Device): Promise<void> {
  const k = streamOf(log, 'Client K');
  const [first] = await over(log, 'Client K');
  if (!first) throw new Error('the first session is gone');
  const place: SessionPlace = { stream: k, session: first.id };
  const noted = first.sets.find((set) => set.note !== undefined);
  const plank = first.sets.find((set) => set.exercise === 'lib-plank');
  await good(run(() => noteSet(log, place, noted?.id ?? '', 'Heel flat.')));
  await run(() => touchUp(log, place, plank?.id ?? '', { ended: 'stopped' }));
  const texts = { alias: 'Client Kay', short: '', dayName: '', day: '' };
  await good(run(() => saveClient(log, texts, device.world, k))).saved;
  await atRest(log);

  const clients = await stored(device, 'rows', 'client');
  const own = clients.find(({ id }) => id === k);
  expect(own?.body['alias']?.[2]).toBe('Client Kay');
  expect(own?.body['goals/spring']?.[2]).toBe('two clean pull-ups');
  const sessions = await stored(device, 'sessions', 'session');
  const row = sessions.find(({ id }) => id === first.id);
  const writer = row?.seen.findIndex(([name]) => name === NEWER);
  expect(writer).toBeGreaterThan(0);
  expect(row?.body[`sets/${noted?.id}/note`]?.[2]).toBe('Heel flat.');
  expect(row?.body[`sets/${plank?.id}/ended`]?.[2]).toBe('stopped');
  // its file of the second copy is the very one that was there
  expect(device.files.get('cuewright-second')?.get(`${k}~${first.id}.json`)).toContain('"Heel flat."');
  const at = Date.parse('2026-03-04T15:51:30Z');
  expect(row?.body[`sets/${noted?.id}/velocity/mean`]).toEqual([at, writer, { value: 0.62, unit: 'm/s' }]);
  expect(row?.body[`sets/${plank?.id}/form`]).toEqual([at, writer, 'wobbly']);
  expect(row?.body['arrival/thirst']).toEqual([at, writer, 2]);
  const [orbit, ...more] = await stored(device, 'rows', 'orbit');
  expect(more).toEqual([]);
  expect(orbit?.body).toEqual({
    'apex/height': [at, 0, { metres: 3.5, sure: true }],
    words: [at, 0, ['up', null, -1.5e-7]],
  });
  const aside = (await lookInto(device.disk, 'cuewright', 'meta')) as Stored[];
  expect(aside.filter(({ kind }) => kind === 'orbit')).toMatchObject([{ body: { words: [at, 0, 'of another kind'] } }]);
}

/** Offers a row of the client who was erased, as an old file of another device would. */
export async function refusesErasedOne({ log, run }: App): Promise<void> {
  const stream = log.ofKind('erased')[0]?.id ?? '';
  const held = { value: 'Client X', stamp: { l: 1, writer: 'old00000-00000001' } };
  const prepared = run(() => beginImport(log));
  const seen = { 'old00000-00000001': 1 };
  await run(() => prepared.take([{ id: stream, stream, kind: 'client', seen, body: { alias: [held] } }]));
  expect(prepared.report()).toMatchObject({ new: 0, refused: 1, erased: [stream] });
  expect(await run(() => prepared.commit())).toMatchObject({ ok: true });
}

/** Takes back act by act: the latest with what each of them leaves, then all that are known. */
export async function undoesOne({ log }: App): Promise<void> {
  const undone = async (): Promise<string> => {
    const entry = await once(log.lastAct);
    const done = log.undo();
    expect(done?.changedSince, entry.act.type).toBe(0);
    expect(await done?.saved).toEqual({ ok: true, value: undefined });
    return entry.act.type;
  };
  const setsOf = (alias: string): string[] => setTexts(log, running(log, alias));
  const carry = (): string | undefined => listTexts(log, running(log, 'Client K')).find((one) => /^Farmer/.test(one));
  const counted = 'working Push-up x20 | counted';

  expect(await undone()).toBe('remove-set');
  const squat = 'working High-bar squat 105 kg x3';
  expect(setsOf('Client K')).toEqual([counted, `${squat} | 1 left | "Slow off the floor."`]);
  expect(await undone()).toBe('skip');
  expect(carry()).toBe('Farmer carry');
  expect(await undone()).toBe('move-set');
  expect(setsOf('Client K').at(-1)).toBe('working Push-up x13');
  expect(setsOf('Client M')).toEqual(OF_M.slice(0, -1));
  expect(await undone()).toBe('log-set');
  expect(setsOf('Client K')).toEqual([counted, `${squat} | 1 left | "Slow off the floor."`]);
  expect(await undone()).toBe('touch-up');
  expect(setsOf('Client K')).toEqual([counted, `${squat} | 1 left`]);
  expect(await undone()).toBe('touch-up');
  expect(setsOf('Client K')).toEqual([counted, squat]);
  expect(await undone()).toBe('log-set');
  expect(setsOf('Client K')).toEqual([counted]);

  expect(await undone()).toBe('import');
  const [first] = await over(log, 'Client K');
  expect(setTexts(log, first ?? running(log, 'Client K')).some((text) => text.startsWith('back-off'))).toBe(false);
  expect(await undone()).toBe('settle');

  // and on to the very first, which named this device
  let [count, last] = [0, ''];
  while (log.inside((core) => core.undo.length) > 0) {
    const entry = await once(log.lastAct);
    last = entry.act.type;
    count += 1;
    expect(await log.undo()?.saved).toEqual({ ok: true, value: undefined });
  }
  expect([count, last]).toEqual([86, 'name-device']);
  expect(views.clients(log)).toEqual([]);
  expect(views.places(log)).toEqual([]);
}
