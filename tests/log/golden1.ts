import { expect } from 'vitest';
import { deviceNames, thisDevice } from '../../src/log/deviceNames';
import { latestBodyMass } from '../../src/log/libraryActs';
import { padDraft } from '../../src/log/logSet';
import { gatherRecords } from '../../src/log/recordActs';
import { stubs } from '../../src/log/stubActs';
import * as views from '../../src/log/views';
import { shown } from '../../src/merge/shown';
import { createSealing } from '../../src/sealing';
import { isPin, readPin } from '../../src/sync/pin';
import type { App, Device } from './fakes/device';
import { cellTexts, listTexts, once, over, running, setTexts, streamOf } from './goldenTexts';

/* What a trainer must see of fixtures/logs/1.json, written down by hand from what was done (tests/tools/goldenActs.ts). */

export const WORDS = 'silly ambiguity backside drank frosting disprove both';
export const CODE = 'TYC4-DBQR-CTRZ-GHYS-0ZDD-KZE1-6VKB';

export const SQUATS = [
  'warm-up High-bar squat 40 kg x8',
  'warm-up High-bar squat 70 kg x5',
  'working High-bar squat 100 kg x5 | heels on 5 mm | 3-1-x-0 | 40 cm high | 1 s held | 2 left | clean | made | lib-knee-in gone | Push the floor away: better | "Left heel lifts."',
  'working High-bar squat 102.5 kg x5 | 8.5 rpe | slipping | pain 3 rising',
  'test High-bar squat 225 lb x3 | at least 4 left',
  'drop High-bar squat 80 kg x8 > 60 kg x12 > 40 kg x12',
];

/** The first session of K, which is over. */
const FIRST = [
  ...SQUATS,
  'working Pull-up x8',
  'working Pull-up +5 kg x4',
  'assisted Pull-up -20 kg x6',
  'working Pull-up red x7',
  'working Band pull-apart blue x15',
  'working Lat pulldown pin 7 x10',
  'working Plank 45 s',
  'working Farmer carry 24 kg 30 m',
  'working Hop and hold left out 4 landings | 1 good | 3 not quiet held',
  'working Wall drill 10 tries 8 good | 4 smooth',
  'working Ankle bend, knee to wall right 38.5 degrees',
  'working Hip mobility',
  'back-off Leg press 140 kg x12',
];

/** The session of M that runs: in it a set that was moved out of K's that day, and one the next. */
export const OF_M = [
  'working One-arm row left 22 kg x9',
  'working Push-up x8 | 3 left',
  'working Calf raise x12',
  'working Push-up x7',
  'working Calf raise x11',
  'working Push-up x9',
  'working Push-up x13',
];

/** Expects of an open log that all is there that the trainer had put in. */
export async function seesOne(app: App, device: Device): Promise<void> {
  const { log } = app;
  seesLibrary(app);
  await seesClients(app);
  await seesSeries(app);
  await seesSessions(app);
  await seesRecords(app, device);
  expect(log.status()).toMatchObject({
    phase: 'open',
    seat: 'writer',
    unreadable: 0,
    unsaved: 0,
    saveFault: null,
    wiped: false,
    broughtBack: 0,
    lastBackup: Date.parse('2026-03-03T19:31:00Z'),
  });
}

function seesLibrary({ log, run }: App): void {
  expect(views.settings(log)).toEqual({ load: 'kg', length: 'cm', firstDay: 'sun', effort: 'rpe', rest: { body: 75 } });
  expect([...deviceNames(log).values()].sort()).toEqual(['Phone', 'Tablet']);
  expect(deviceNames(log).get(run(() => thisDevice(log)))).toBe('Phone');
  const own = views.exercises(log).find(({ name }) => name === 'Wall drill');
  expect(own).toMatchObject({ holds: 'tries', sides: 'both', pattern: 'skill' });
  const squat = { name: 'High-bar squat', step: 5, rest: 200, holds: 'load', sides: 'both', pattern: 'squat' };
  expect(views.exercise(log, 'lib-back-squat')).toMatchObject(squat);
  expect(views.exercise(log, 'lib-pull-up')?.rest, 'as the settings say').toBe(75);
  expect(views.cues(log).map(({ words }) => words)).toEqual(['Push the floor away']);
  expect(views.places(log)).toMatchObject([
    {
      name: 'Studio',
      bands: ['blue', 'red'],
      pins: 15,
      unit: 'kg',
      bars: [20, 15],
      plates: [25, 10, 2.5],
      dumbbells: [
        { from: 2, to: 20, step: 2 },
        { from: 24, to: 24, step: 1 },
      ],
    },
  ]);
  expect(stubs(log)).toMatchObject([{ alias: 'Client N', to: 'Trainer B', day: '2026-03-03' }]);
  expect(log.ofKind('erased')).toHaveLength(1);
}

async function seesClients({ log }: App): Promise<void> {
  expect(views.clients(log)).toMatchObject([
    {
      alias: 'Client K',
      short: 'K',
      since: '2026-03-03',
      date: { name: 'opening', day: '2026-03-28' },
      landings: 'intermediate',
      question: 'How is the left knee?',
      setUps: { 'lib-back-squat': { setUp: 'heels on 5 mm', tempo: '3-1-x-0' } },
      clearances: { 'lib-depth-jump': { who: 'Dr. A.', day: '2026-03-03' } },
    },
    { alias: 'Client M', short: 'Em', since: '2026-03-03', question: 'Slept well?' },
  ]);
  const [k, m] = [streamOf(log, 'Client K'), streamOf(log, 'Client M')];
  expect(views.restrictions(log, m)).toMatchObject([
    {
      who: 'Physio P.',
      what: 'no overhead work',
      from: '2026-03-01',
      until: '2026-03-31',
      hides: ['lib-overhead-press', 'lib-push-press'],
    },
  ]);
  expect(views.templates(log, k)).toMatchObject([{ name: 'Legs and pull', days: ['tue', 'fri'] }]);
  await log.loadResults(m);
  expect(views.otherWork(log, m)).toMatchObject([{ work: 'rehearsal', day: '2026-03-02', hours: 3, effort: 6 }]);
  expect(latestBodyMass(log, m)).toMatchObject({ value: 62.5, unit: 'kg', day: '2026-03-02' });
}

/** What pads and charts begin with, from the stored series: no session that is over is read yet. */
async function seesSeries({ log }: App): Promise<void> {
  expect(views.sessionsInMemory(log)).toHaveLength(2);
  const k = streamOf(log, 'Client K');
  const runs = running(log, 'Client K');
  const times = await once(() => log.lastTimes(k, 'lib-back-squat', runs.id));
  expect(times.map(({ day, sets }) => [day, setTexts(log, { ...runs, sets })])).toEqual([['2026-03-03', SQUATS]]);
  const squats = await once(() => log.exposures(k, 'lib-back-squat'));
  expect(squats).toMatchObject([
    { day: '2026-03-03', sets: 4, tops: [{ load: { value: 102.5, unit: 'kg' }, reps: 5 }] },
  ]);
  expect(squats[0]?.cues).toMatchObject([{ given: 1, better: 1, same: 0, worse: 0, clean: 1, noted: 1 }]);
}

async function seesSessions({ log }: App): Promise<void> {
  const [first, ...older] = await over(log, 'Client K');
  expect(older).toEqual([]);
  if (!first) throw new Error('the first session is gone');
  expect(setTexts(log, first)).toEqual(FIRST);
  expect(first).toMatchObject({
    start: { day: '2026-03-03', zone: 'Europe/Vienna' },
    minutes: 55,
    effort: { value: 7, as: 'session' },
    attendance: 'done',
    note: 'A good day.',
    place: views.places(log)[0]?.id,
    arrival: {
      items: { sleep: 4, energy: 3 },
      usual: false,
      sore: ['lower back'],
      pain: 2,
      answer: { asked: 'How is the left knee?', said: 'Better' },
    },
    signs: [{ sign: 'joint', exercise: 'lib-depth-jump' }],
    blocks: [{ kind: 'every', rounds: 10, every: 60 }],
    unread: [{ type: 'from-a-newer-app', value: 'wobbly' }],
  });
  expect(first.pauses.map(({ from, to = 0 }) => to - from)).toEqual([60_000]);
  const [swings] = first.blocks;
  expect(swings?.stations).toMatchObject([{ exercise: 'lib-kettlebell-swing', plan: { load: '16', reps: '10' } }]);
  expect((swings?.stopped?.at ?? 0) - (swings?.started?.at ?? 0)).toBe(60_000);

  const k = running(log, 'Client K');
  expect(setTexts(log, k)).toEqual(['working Push-up x20 | counted']);
  expect(k).toMatchObject({ plannedDay: '2026-03-04', arrival: { usual: true }, unread: [] });
  expect(k.template).toBe(views.templates(log, streamOf(log, 'Client K'))[0]?.id);
  expect(listTexts(log, k)).toEqual([
    'High-bar squat',
    'Pull-up | instead Inverted row',
    'Inverted row',
    'block every',
    'Band pull-apart',
    'Lat pulldown',
    'Plank | skipped: no time',
    'Farmer carry | skipped: too long',
    'Hop and hold',
    'Wall drill',
    'Ankle bend, knee to wall',
    'Hip mobility',
    'Push-up | 60 in all',
  ]);
  expect(k.items[0]?.plan).toMatchObject({ sets: 2, load: '102.5', reps: '5', unit: 'kg' });

  const m = running(log, 'Client M');
  expect(setTexts(log, m)).toEqual(OF_M);
  expect(m.blocks).toMatchObject([
    { kind: 'rounds', rounds: 3, rest: 90 },
    { kind: 'mobility', done: { day: '2026-03-04' } },
  ]);
  expect(m.blocks[0]?.stations[1]).toMatchObject({ was: 'lib-calf-raise', plan: {} });
  expect(cellTexts(log, m)).toEqual([
    'Push-up 1: 8',
    'Push-up 2: 7',
    'Push-up 3: ',
    'Single-leg bridge 1: 12',
    'Single-leg bridge 2: 11',
    'Single-leg bridge 3: ',
  ]);
  const [missed, ...more] = await over(log, 'Client M');
  expect([missed, more]).toMatchObject([{ attendance: 'no-show', why: 'travel', sets: [] }, []]);
  // a continuation is no session of its own
  expect(views.sessionsInMemory(log)).toHaveLength(4);
}

async function seesRecords(app: App, device: Device): Promise<void> {
  const { log, run } = app;
  const k = streamOf(log, 'Client K');
  const runs = { stream: k, session: running(log, 'Client K').id };
  expect(log.draft(padDraft(runs))).toMatchObject({ exercise: 'lib-lat-pulldown', pin: '8', reps: '10' });
  expect(log.draft(`rest/${runs.stream}/${runs.session}`)).toMatchObject({ seconds: 150 });

  const found = await run(() => gatherRecords(log, device.world.now()));
  expect(found?.beside.list.map(({ shown: { value }, others }) => [value, others.map((one) => one.value)])).toEqual([
    ['Left heel lifts.', ['Even and quiet.']],
  ]);
  expect(found?.settled.list).toMatchObject([
    { path: 'question', shown: { value: 'Slept well?' }, others: [{ value: 'Any travel?' }] },
  ]);
  expect(found?.both.list.map(({ row, thing }) => shown(row)[`${thing}/reps`])).toEqual([8]);
  // the latest first: the squat of the second day, the slip of the first, the travel that was none
  const gone = found?.removed.list.map(
    ({ row, thing }) => row.body[thing === '' ? 'work' : `${thing}/load`]?.[0].value,
  );
  expect(gone).toEqual([{ value: 105, unit: 'kg' }, { value: 60, unit: 'kg' }, 'travel']);
  expect(found?.mending).toMatchObject({ count: 1, list: [{ faults: [{ value: 'wobbly' }] }] });

  const sealing = run(() => createSealing(log, device.world, '9'));
  expect(await run(() => sealing.keys())).toMatchObject({
    made: true,
    words: WORDS,
    code: { made: Date.parse('2026-03-03T19:31:00Z'), confirmed: Date.parse('2026-03-03T19:31:00Z') },
    hasPassphrase: false,
    locked: false,
    sealed: [{ at: Date.parse('2026-03-03T19:31:00Z'), what: 'vault', streams: [] }],
  });
  expect(await run(() => sealing.isOwner(CODE))).toBe('yes');
  const pin = readPin(JSON.parse(device.local.get('cuewright.lock') ?? ''));
  expect(pin.ok && (await isPin(pin.value, '2580'))).toBe(true);
}
