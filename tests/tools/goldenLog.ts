/*
 * Makes the golden files of a stored shape: `npm run golden -- 1` writes fixtures/logs/1.json (all that a device keeps), 1.jsonl (its
 * plain export) and 1.age (its sealed backup), made by real acts on the fakes of tests/log. A golden file is never made anew, so none is
 * written over: a new shape gets the next number. The words and the code that it prints belong into the .md beside them, what must be seen
 * of it into tests/log.
 */
import { existsSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { nameDevice, thisDevice } from '../../src/log/deviceNames';
import { exportLog } from '../../src/log/export';
import * as library from '../../src/log/libraryActs';
import { createLocal } from '../../src/log/local';
import { padDraft } from '../../src/log/logSet';
import * as plans from '../../src/log/planActs';
import { gatherRecords, settleFound } from '../../src/log/recordActs';
import * as sets from '../../src/log/setActs';
import { OWN_LOG } from '../../src/log/showing';
import { restrictions, templates } from '../../src/log/views';
import type { Json } from '../../src/merge/row';
import { createSealing } from '../../src/sealing';
import { newPin } from '../../src/sync/pin';
import { workingEntry } from '../domain/made';
import { turns } from '../log/fakes/life';
import { atRest, keptOn, textOf } from '../log/goldenDevice';
import { begins, erases, firstDay, type Made, nextDay } from './goldenActs';
import { carried, did, logged, must, newPhone, type Phone, takes } from './goldenPhone';

const [n = ''] = process.argv.slice(2);
if (!/^[1-9]\d*$/.test(n)) throw new Error('which? npm run golden -- <number>');
const fileOf = (kind: string): string => join(import.meta.dirname, `../../fixtures/logs/${n}.${kind}`);

const there = ['json', 'jsonl', 'age'].map(fileOf).filter((file) => existsSync(file));
if (there.length > 0) throw new Error(`a golden file is never made anew: ${there.join(', ')}`);

const phone = await newPhone(101);
const { log, world, app } = phone;
const sealing = app.run(() => createSealing(log, world, '1'));
const inApp = <T>(what: () => Promise<T>): Promise<T> => app.run(what);

const begun = await begins(phone);
await erases(phone);
const day = await firstDay(phone, begun);
const code = must(await inApp(() => sealing.newCode()));
must(await inApp(() => sealing.confirmCode(code)));
// of what this backup holds no second copy is kept
const weekly = must(await inApp(() => sealing.seal({ what: 'vault' })));
await inApp(() => weekly.handedOver());
const [template] = templates(log, begun.k);
if (!template) throw new Error('no template');
const made: Made = { ...begun, ...day, ...(await nextDay(phone, { ...begun, ...day }, template.id)) };

await writtenApart(phone, made);
await takes(phone, fromNewerApp(made));
await lastActs(phone, made);
app.run(() => createLocal(OWN_LOG).set('lock-after', '5'));
const pin = JSON.stringify(must(await newPin('2580', world.random)));
app.run(() => createLocal(OWN_LOG).set('lock', pin));

const { file, words } = must(await inApp(() => sealing.seal({ what: 'vault' })));
await atRest(log);
const plain = await inApp(() => exportLog(OWN_LOG, log.all(), world.now()));
app.kill();
await turns(30);
const kept = textOf(await keptOn(phone.device, OWN_LOG));
for (const [kind, text] of [
  ['json', kept],
  ['jsonl', await plain.blob.text()],
  ['age', new Uint8Array(await file.arrayBuffer())],
] as const)
  await writeFile(fileOf(kind), text, { flag: 'wx' });
console.log(`fixtures/logs/${n}.*: ${plain.rows} rows; the words "${words}", the recovery code ${code}`);
process.exit(0);

/** A second device, and what both wrote without seeing each other. */
async function writtenApart(here: Phone, { k, m, first, noted, runsM, pushed }: Made): Promise<void> {
  const tablet = await newPhone(202);
  await carried(here, tablet);
  tablet.world.pass(here.world.now() - tablet.world.now());
  await tablet.log.loadSession(k, first.session);
  await here.log.loadSession(k, first.session);
  await did(tablet, nameDevice(tablet.log, thisDevice(tablet.log), 'Tablet'));
  await did(tablet, must(sets.noteSet(tablet.log, first, noted, 'Left heel lifts.')));
  await did(tablet, library.agreeOnQuestion(tablet.log, m, 'Slept well?'));
  await did(tablet, sets.touchUp(tablet.log, runsM, pushed, { effort: { value: 3, as: 'left' } }));
  await logged(tablet, runsM, 'lib-push-up', { reps: '9' });
  here.world.pass(30_000);
  await did(here, must(sets.noteSet(here.log, first, noted, 'Even and quiet.')));
  await did(here, library.agreeOnQuestion(here.log, m, 'Any travel?'));
  await did(here, sets.removeSet(here.log, runsM, pushed));
  await carried(tablet, here);
  const found = await inRecords(here);
  const question = found.beside.list.find(({ path }) => path === 'question');
  if (!question || found.both.count !== 1) throw new Error('nothing was written apart');
  await here.log.loadSession(k, first.session);
  must(await here.app.run(() => settleFound(here.log, question, 'Slept well?')));
  here.world.pass(60_000);
}

async function inRecords({ app, log, world }: Phone) {
  const found = await app.run(() => gatherRecords(log, world.now()));
  if (!found) throw new Error('the store could not be read');
  return found;
}

/** Rows as a newer app would write them: a kind, paths and a value that this one does not know, a row under a name that another kind has. */
function fromNewerApp({ k, m, first, noted, plank }: Made): readonly unknown[] {
  const writer = 'newer000-00000001';
  const row = (stream: string, id: string, kind: string, values: Readonly<Record<string, Json>>) => ({
    id,
    kind,
    stream,
    seen: { [writer]: world.now() },
    body: Object.fromEntries(
      Object.entries(values).map(([path, value]) => [path, [{ value, stamp: { l: world.now(), writer } }]]),
    ),
  });
  const at = { at: world.now(), day: '2026-03-04', zone: 'Europe/Vienna' };
  return [
    row(k, 'orbit00000000001', 'orbit', { 'apex/height': { metres: 3.5, sure: true }, words: ['up', null, -1.5e-7] }),
    row(k, k, 'client', { 'goals/spring': 'two clean pull-ups' }),
    row(k, first.session, 'session', {
      [`sets/${noted}/velocity/mean`]: { value: 0.62, unit: 'm/s' },
      [`sets/${plank}/form`]: 'wobbly',
      'arrival/thirst': 2,
    }),
    // as the 301st set of a session begins one
    row(k, `${first.session}-2`, 'session', {
      of: first.session,
      'sets/late0001/exercise': 'lib-leg-press',
      'sets/late0001/kind': 'back-off',
      'sets/late0001/load': { value: 140, unit: 'kg' },
      'sets/late0001/reps': 12,
      'sets/late0001/at': at,
    }),
    row(m, restrictions(log, m)[0]?.id ?? '', 'orbit', { words: 'of another kind' }),
  ];
}

/** The acts that are undone first, a draft and a rest that is not as planned. */
async function lastActs(here: Phone, { runsK, runsM }: Made): Promise<void> {
  const set = await logged(here, runsK, 'lib-back-squat', { load: '105', reps: '3' });
  await did(here, sets.touchUp(here.log, runsK, set, { effort: { value: 1, as: 'left' } }));
  await did(here, must(sets.noteSet(here.log, runsK, set, 'Slow off the floor.')));
  const strayed = await logged(here, runsK, 'lib-push-up', { reps: '13' });
  await did(here, sets.moveSet(here.log, runsK, strayed, runsM, here.world));
  await did(here, plans.skip(here.log, runsK, [{ type: 'exercise', id: 'lib-farmer-carry' }], 'too long'));
  await did(here, sets.removeSet(here.log, runsK, set));
  const draft = workingEntry('lib-lat-pulldown', { pin: '8', reps: '10' });
  here.log.setDraft(padDraft(runsK), { ...draft } as unknown as Json);
  here.log.setDraft(`rest/${runsK.stream}/${runsK.session}`, { set, seconds: 150 });
  here.log.flush();
  await atRest(here.log);
}
