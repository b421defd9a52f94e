import { plannedSessionId } from '../../src/domain/ids';
import { NO_PLACE } from '../../src/domain/kitFields';
import { addBlock, startClock, stopClock, tickBlock } from '../../src/log/blockActs';
import * as care from '../../src/log/careActs';
import { nameDevice, thisDevice } from '../../src/log/deviceNames';
import { eraseClient } from '../../src/log/eraseActs';
import * as library from '../../src/log/libraryActs';
import { padDraft, type SessionPlace } from '../../src/log/logSet';
import * as plans from '../../src/log/planActs';
import { addToTally, logCells } from '../../src/log/roundActs';
import * as sessions from '../../src/log/sessionActs';
import * as sets from '../../src/log/setActs';
import { choose } from '../../src/log/settingsActs';
import { keepStub } from '../../src/log/stubActs';
import { keepTemplate, startFromTemplate } from '../../src/log/templateActs';
import { session } from '../../src/log/views';
import * as work from '../../src/log/workActs';
import type { Json } from '../../src/merge/row';
import { NO_SET_UP, workingEntry } from '../domain/made';
import { did, logged, of, type Phone } from './goldenPhone';

/* What a trainer does in two days, so that a device keeps something of every kind. All of it is invented. */

export type Made = {
  readonly k: string;
  readonly m: string;
  /** The session of the first day; those that still run. */
  readonly first: SessionPlace;
  readonly runsK: SessionPlace;
  readonly runsM: SessionPlace;
  /** Sets that are met again: the squat with a note, the plank, and a set in M's block. */
  readonly noted: string;
  readonly plank: string;
  readonly pushed: string;
};

const HOUR = 3_600_000;
const NO_BLOCK = { rounds: '', reps: '', rest: '', work: '', off: '', every: '', cap: '' };

/** Sets up the trainer's library, settings, place and clients; returns the two that stay. */
export async function begins(phone: Phone): Promise<{ k: string; m: string; cue: string; drill: string; kit: string }> {
  const { log, world } = phone;
  await did(phone, nameDevice(log, thisDevice(log), 'Phone'));
  await did(phone, choose(log, 'effort', 'rpe'));
  await did(phone, choose(log, 'firstDay', 'sun'));
  await did(phone, choose(log, 'rest/body', 75));
  const drill = await did(
    phone,
    library.addExercise(log, { name: 'Wall drill', holds: 'tries', sides: 'both', pattern: 'skill' }, world),
  );
  const squat = of(log, 'lib-back-squat');
  await did(phone, library.editExercise(log, squat, { name: 'High-bar squat', step: '5', rest: '200', sides: 'both' }));
  const cue = await did(phone, library.addCue(log, 'Push the floor away', world));
  const kit = await did(
    phone,
    work.savePlace(
      log,
      {
        ...NO_PLACE,
        name: 'Studio',
        bands: 'blue, red',
        pins: '15',
        bars: '20 15',
        plates: '25 10 2.5',
        dumbbells: '2-20 by 2, 24',
      },
      world,
    ),
  );
  const k = await did(
    phone,
    library.saveClient(log, { alias: 'Client K', short: '', dayName: 'opening', day: '2026-03-28' }, world),
  );
  await did(phone, library.noteLandingLevel(log, k, 'intermediate'));
  await did(phone, library.agreeOnQuestion(log, k, 'How is the left knee?'));
  await did(phone, library.saveSetUp(log, k, squat, { ...NO_SET_UP, setUp: 'heels on 5 mm', tempo: '3-1-x-0' }));
  const m = await did(phone, library.saveClient(log, { alias: 'Client M', short: 'Em', dayName: '', day: '' }, world));
  await did(phone, library.noteBodyMass(log, m, { mass: '62.5', unit: 'kg', day: '2026-03-02' }, world));
  await did(
    phone,
    care.addRestriction(
      log,
      m,
      { who: 'Physio P.', what: 'no overhead work', from: '2026-03-01', until: '2026-03-31' },
      ['lib-overhead-press', 'lib-push-press'],
      world,
    ),
  );
  await did(phone, work.noteOtherWork(log, m, { work: 'rehearsal', day: '2026-03-02', hours: 3, effort: 6 }, world));
  const wrong = await did(
    phone,
    work.noteOtherWork(log, m, { work: 'travel', day: '2026-03-01', hours: null, effort: null }, world),
  );
  await did(phone, work.removeOtherWork(log, m, wrong));
  await did(phone, keepStub(log, 'Client N', 'Trainer B', world));
  return { k, m, cue, drill, kit };
}

/** A client who trains once and is erased, draft and all. */
export async function erases(phone: Phone): Promise<void> {
  const { log, world } = phone;
  const x = await did(phone, library.saveClient(log, { alias: 'Client X', short: '', dayName: '', day: '' }, world));
  const { saved, ...place } = sessions.startSession(log, x, world);
  await did(phone, saved);
  await logged(phone, place, 'lib-back-squat', { load: '61.7', reps: '7' });
  log.setDraft(padDraft(place), { exercise: 'lib-back-squat', load: '61.7' });
  log.flush();
  await did(phone, eraseClient(log, x));
}

/** The whole first session of K, which is ended; M's begins beside it. */
export async function firstDay(
  phone: Phone,
  { k, m, cue, drill, kit }: Awaited<ReturnType<typeof begins>>,
): Promise<Pick<Made, 'first' | 'noted' | 'plank' | 'runsM'>> {
  const { log, world } = phone;
  const { saved, ...first } = sessions.startSession(log, k, world);
  await did(phone, saved);
  const { saved: begun, ...runsM } = sessions.startSession(log, m, world);
  await did(phone, begun);
  await did(phone, work.choosePlace(log, first, kit));
  await did(phone, care.tellArrival(log, first, 'sleep', 4));
  await did(phone, care.tellArrival(log, first, 'energy', 3));
  await did(phone, care.tellSore(log, first, 'lower back', true));
  await did(phone, care.tellPain(log, first, 2));
  await did(phone, care.tellAnswer(log, first, 'How is the left knee?', 'Better'));
  await did(phone, plans.listExercise(log, first, 'lib-back-squat', world, undefined, { sets: 3, reps: '5' }));
  await did(phone, plans.listExercise(log, first, 'lib-pull-up', world));
  const squat = of(log, 'lib-back-squat');
  const steps = [
    ['40', '8'],
    ['70', '5'],
  ].map(([load = '', reps = '']) => workingEntry(squat.id, { kind: 'warm-up', load, reps }));
  await did(phone, sets.logRamp(log, first, steps, workingEntry(squat.id, { load: '100', reps: '5' }), squat, world));
  const noted = await logged(phone, first, squat.id, {
    load: '100',
    reps: '5',
    setUp: { ...NO_SET_UP, setUp: 'heels on 5 mm', tempo: '3-1-x-0', height: '40', pause: '1' },
  });
  await did(phone, sets.touchUp(log, first, noted, { effort: { value: 2, as: 'left' } }));
  await did(phone, sets.touchUp(log, first, noted, { form: 'clean' }));
  await did(phone, sets.touchUp(log, first, noted, { ended: 'made' }));
  await did(phone, sets.touchUp(log, first, noted, { 'faults/lib-knee-in': 'gone' }));
  const read = session(log, k, first.session)?.sets.find(({ id }) => id === noted);
  if (!read) throw new Error('the set is gone');
  await did(phone, sets.answerCue(log, first, read, cue, 'better'));
  const second = await logged(phone, first, squat.id, { load: '102.5', reps: '5' });
  await did(phone, sets.touchUp(log, first, second, { effort: { value: 8.5, as: 'rpe' } }));
  await did(phone, sets.touchUp(log, first, second, { pain: { value: 3, rising: true } }));
  await did(phone, sets.touchUp(log, first, second, { form: 'slipping' }));
  const third = await logged(phone, first, squat.id, { kind: 'test', load: '225', unit: 'lb', reps: '3' });
  await did(phone, sets.touchUp(log, first, third, { effort: { atLeast: 4 } }));
  const drop = { ...workingEntry(squat.id), load: '60', reps: '12' };
  await logged(phone, first, squat.id, { kind: 'drop', load: '80', reps: '8', parts: [drop, { ...drop, load: '40' }] });
  await did(phone, sessions.pauseSession(log, first, world));
  await did(phone, sessions.endPauses(log, first, world));
  const slip = await logged(phone, first, squat.id, { load: '60', reps: '1' });
  await did(phone, sets.removeSet(log, first, slip));
  await logged(phone, first, 'lib-pull-up', { reps: '8' });
  await logged(phone, first, 'lib-pull-up', { body: 'added', load: '5', reps: '4' });
  await logged(phone, first, 'lib-pull-up', { kind: 'assisted', body: 'assist', load: '20', reps: '6' });
  await logged(phone, first, 'lib-pull-up', { body: 'band', band: 'red', reps: '7' });
  await logged(phone, first, 'lib-band-pull-apart', { band: 'blue', reps: '15' });
  await logged(phone, first, 'lib-lat-pulldown', { pin: '7', reps: '10' });
  const plank = await logged(phone, first, 'lib-plank', { seconds: '45' });
  await logged(phone, first, 'lib-farmer-carry', { load: '24', distance: '30' });
  await logged(phone, first, 'lib-hop-and-hold', {
    side: 'left',
    landings: '4',
    direction: 'out',
    marks: [{ good: true }, null, { good: false, quiet: false, held: false }],
  });
  await logged(phone, first, drill, { tries: '10', good: '8', smooth: 4 });
  await logged(phone, first, 'lib-ankle-range', { side: 'right', degrees: '38.5' });
  await logged(phone, first, 'lib-hip-flow', {});
  const strayed = await logged(phone, first, 'lib-one-arm-row', { side: 'left', load: '22', reps: '9' });
  await did(phone, sets.moveSet(log, first, strayed, runsM, world));
  const block = await did(
    phone,
    addBlock(
      log,
      first,
      { ...NO_BLOCK, kind: 'every', rounds: '10', every: '60' },
      [{ exercise: 'lib-kettlebell-swing', plan: { load: '16', reps: '10' } }],
      world,
    ),
  );
  await did(phone, startClock(log, first, block, world));
  await did(phone, stopClock(log, first, block, world));
  await did(phone, care.noteSign(log, first, 'joint', 'lib-depth-jump', world));
  const said = { effort: '7', minutes: '55', attendance: 'done', why: '', note: 'A good day.' } as const;
  await did(phone, sessions.endSession(log, first, said, world));
  await did(phone, care.noteClearance(log, k, 'lib-depth-jump', 'Dr. A.', world));
  await did(phone, keepTemplate(log, first, 'Legs and pull', ['tue', 'fri'], world));
  return { first, noted, plank, runsM };
}

/** The next day: M goes on in a block, K begins from the template. */
export async function nextDay(
  phone: Phone,
  { k, m, runsM }: Pick<Made, 'k' | 'm' | 'runsM'>,
  template: string,
): Promise<Pick<Made, 'runsK' | 'pushed'>> {
  const { log, world } = phone;
  world.pass(20 * HOUR);
  await did(phone, sessions.noteMissedSession(log, m, 'no-show', 'travel', world));
  const id = await did(
    phone,
    addBlock(
      log,
      runsM,
      { ...NO_BLOCK, kind: 'rounds', rounds: '3', rest: '90' },
      [
        { exercise: 'lib-push-up', plan: { reps: '8' } },
        { exercise: 'lib-calf-raise', plan: { reps: '12' } },
      ],
      world,
    ),
  );
  const block = session(log, m, runsM.session)?.blocks.find((one) => one.id === id);
  const [push, calf] = block?.stations ?? [];
  if (!block || !push || !calf) throw new Error('the block is gone');
  const cell = (station: string, round: number) => ({ block: id, station, round });
  const pushed = await logged(phone, runsM, push.exercise, { reps: '8', in: cell(push.id, 1) });
  await logged(phone, runsM, calf.exercise, { reps: '12', in: cell(calf.id, 1) });
  const round = [push, calf].map((one, n) => ({
    entry: workingEntry(one.exercise, { reps: n === 0 ? '7' : '11', in: cell(one.id, 2) }),
    exercise: of(log, one.exercise),
  }));
  await did(phone, logCells(log, runsM, round, world));
  const by = { key: padDraft(runsM), value: null };
  const station = { type: 'station', block: id, id: calf.id } as const;
  await did(phone, plans.swap(log, runsM, station, 'lib-single-leg-bridge', 'sore calf', world, by));
  const stretch = await did(phone, addBlock(log, runsM, { ...NO_BLOCK, kind: 'mobility' }, [], world));
  const ticked = session(log, m, runsM.session)?.blocks.find((one) => one.id === stretch);
  if (ticked) await did(phone, tickBlock(log, runsM, ticked, world));
  const { saved, ...runsK } = await startFromTemplate(log, k, template, world);
  await did(phone, saved);
  if (runsK.session !== plannedSessionId(k, template, '2026-03-04', 1)) throw new Error('another day than planned');
  await did(phone, care.tellUsual(log, runsK, true));
  await did(phone, plans.skip(log, runsK, [{ type: 'exercise', id: 'lib-plank' }], 'no time'));
  const pull = { type: 'exercise', id: 'lib-pull-up' } as const;
  const pad = { key: padDraft(runsK), value: { exercise: 'lib-lat-pulldown' } as Json };
  await did(phone, plans.swap(log, runsK, pull, 'lib-inverted-row', 'bar taken', world, pad));
  await did(phone, plans.spread(log, runsK, 'lib-push-up', '60', world));
  const handful = { entry: workingEntry('lib-push-up', { reps: '20' }), exercise: of(log, 'lib-push-up') };
  await did(phone, addToTally(log, runsK, handful, world));
  return { runsK, pushed };
}
