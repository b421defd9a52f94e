import { describe, expect, test } from 'vitest';
import { setUpFor } from '../../src/domain/exercise';
import { NO_PLACE } from '../../src/domain/kitFields';
import { painLevel } from '../../src/domain/pain';
import { setUpTexts } from '../../src/domain/setUp';
import { NO_SET_UP } from '../domain/made';
import { turns } from './fakes/life';
import { log, onDisk, onFloor, PULL, SQUAT, sessionOnDisk } from './floor';
import { good, sessionAt } from './gym';
import { REAL } from './room';
import { atOf } from './suite-floor';
import { relaunched } from './suite-writes';

const SAID = { who: 'Dr A.', what: 'no deep bend', from: '2026-03-03', until: '2026-03-10' };

describe('before we start', () => {
  test('each answer is kept by itself, and one more takes "the usual" back', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place } = atOf(floor);
    const arrival = (app = floor.app) => sessionAt(REAL, { ...atOf(floor), log: app.log }).arrival;
    await REAL.tellUsual(on, place, true);
    expect(arrival()).toEqual({ items: {}, usual: true, sore: [] });
    await REAL.tellArrival(on, place, 'sleep', 2);
    await REAL.tellSore(on, place, 'knee', true);
    await REAL.tellSore(on, place, 'hip', true);
    await REAL.tellSore(on, place, 'hip', false);
    await REAL.tellPain(on, place, 3);
    await good(REAL.tellAnswer(on, place, 'How is the voice?', ' rough '));
    const told = {
      items: { sleep: 2 },
      usual: false,
      sore: ['knee'],
      pain: 3,
      answer: { asked: 'How is the voice?', said: 'rough' },
    };
    expect(arrival()).toEqual(told);
    expect(arrival(await relaunched(REAL, floor))).toEqual(told);
  });

  test('what is taken back is not noted again', async () => {
    const at = atOf(await onFloor(REAL));
    await REAL.tellArrival(at.log, at.place, 'sleep', 2);
    await REAL.tellArrival(at.log, at.place, 'sleep', null);
    await REAL.tellPain(at.log, at.place, 3);
    await REAL.tellPain(at.log, at.place, null);
    await good(REAL.tellAnswer(at.log, at.place, 'Voice?', 'rough'));
    await good(REAL.tellAnswer(at.log, at.place, 'Voice?', ' '));
    expect(sessionAt(REAL, at).arrival).toEqual({ items: {}, usual: false, sore: [] });
  });

  test('an answer too long is refused by its field, and nothing is stored', async () => {
    const floor = await onFloor(REAL);
    const stored = await sessionOnDisk(floor.device, floor.place);
    expect(REAL.tellAnswer(floor.app.log, floor.place, 'Voice?', 'x'.repeat(201))).toEqual({
      ok: false,
      error: { type: 'too-long', field: 'answer', most: 200, has: 201 },
    });
    await turns(20);
    expect(await sessionOnDisk(floor.device, floor.place)).toEqual(stored);
  });
});

describe('what stops an exercise', () => {
  test('a stop sign closes it, and a clearance opens it', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const level = () => {
      const { sets, signs } = sessionAt(REAL, at);
      return painLevel(sets, [], signs, REAL.client(at.log, at.place.stream)?.clearances[SQUAT.id]).level;
    };
    log(REAL, floor, '100', '5');
    expect(level()).toBe('none');
    await REAL.noteSign(at.log, at.place, 'joint', SQUAT.id, at.world);
    expect(sessionAt(REAL, at).signs).toMatchObject([{ sign: 'joint', exercise: SQUAT.id, at: at.world.now() }]);
    expect(level()).toBe('stop');
    at.world.pass(60_000);
    await good(REAL.noteClearance(at.log, at.place.stream, SQUAT.id, ' Dr A. ', at.world));
    expect(REAL.client(at.log, at.place.stream)?.clearances).toEqual({
      [SQUAT.id]: { who: 'Dr A.', at: at.world.now(), day: '2026-03-03' },
    });
    expect(level()).toBe('none');
  });

  test.each([
    [' ', { type: 'empty', field: 'clearance' }],
    ['x'.repeat(41), { type: 'too-long', field: 'clearance', most: 40, has: 41 }],
  ])('a clearance by %j is refused by its field', async (who, error) => {
    const at = atOf(await onFloor(REAL));
    expect(REAL.noteClearance(at.log, at.place.stream, SQUAT.id, who, at.world)).toEqual({ ok: false, error });
    expect(REAL.client(at.log, at.place.stream)?.clearances).toEqual({});
  });

  test('a restriction is kept with what it hides, and removed as a whole', async () => {
    const floor = await onFloor(REAL);
    const at = atOf(floor);
    const { id, saved } = good(
      REAL.addRestriction(at.log, at.place.stream, SAID, ['lib-box-jump', SQUAT.id], at.world),
    );
    await saved;
    const read = { id, ...SAID, hides: [SQUAT.id, 'lib-box-jump'] };
    const next = await relaunched(REAL, floor);
    expect(REAL.restrictions(next.log, at.place.stream)).toEqual([read]);
    expect(REAL.restrictions(next.log, 'another')).toEqual([]);
    await REAL.removeRestriction(next.log, at.place.stream, id);
    expect(REAL.restrictions(next.log, at.place.stream)).toEqual([]);
    await next.log.undo()?.saved;
    expect(REAL.restrictions(next.log, at.place.stream)).toEqual([read]);
  });

  test('a bad restriction is refused by its field, and nothing is stored', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place, world } = atOf(floor);
    const bad = { ...SAID, until: '2026-03-02' };
    expect(REAL.addRestriction(on, place.stream, bad, [], world)).toEqual({
      ok: false,
      error: { type: 'ends-before', field: 'until' },
    });
    await turns(20);
    expect((await onDisk(floor.device, 'rows')).filter(({ kind }) => kind === 'restriction')).toEqual([]);
  });
});

describe('other work and places', () => {
  test('other work is noted on any day, the latest first, and removed', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place, world } = atOf(floor);
    const note = (day: string, hours: number | null, effort: number | null) =>
      REAL.noteOtherWork(on, place.stream, { work: 'rehearsal', day, hours, effort }, world);
    const first = good(note('2026-03-01', 4.5, 0));
    const second = good(note('2026-03-02', null, null));
    await second.saved;
    const next = await relaunched(REAL, floor);
    await next.log.loadResults(place.stream);
    const notedAt = world.now();
    const read = [
      { id: second.id, work: 'rehearsal', day: '2026-03-02', notedAt },
      { id: first.id, work: 'rehearsal', day: '2026-03-01', hours: 4.5, effort: 0, notedAt },
    ];
    expect(REAL.otherWork(next.log, place.stream)).toEqual(read);
    await REAL.removeOtherWork(next.log, place.stream, first.id);
    expect(REAL.otherWork(next.log, place.stream)).toEqual(read.slice(0, 1));
  });

  test('a day of rest is kept beside work of the same day, has no hours and no effort, and is undone and removed like it', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place, world } = atOf(floor);
    const noted = { day: '2026-03-02', hours: 2, effort: 3 };
    const worked = good(REAL.noteOtherWork(on, place.stream, { ...noted, work: 'class' }, world));
    const rest = good(REAL.noteOtherWork(on, place.stream, { ...noted, work: 'rest day' }, world));
    await rest.saved;
    const kept = (await onDisk(floor.device, 'results')).find(({ id }) => id === rest.id);
    expect(Object.keys(kept?.body ?? {}).sort()).toEqual(['at', 'day', 'work']);
    const kinds = () => REAL.otherWork(on, place.stream).map(({ work, hours, effort }) => [work, hours, effort]);
    const own = ['rest day', undefined, undefined];
    expect(kinds()).toHaveLength(2);
    expect(kinds()).toContainEqual(own);
    await REAL.removeOtherWork(on, place.stream, rest.id);
    expect(kinds()).toEqual([['class', 2, 3]]);
    await on.undo()?.saved;
    expect(kinds()).toContainEqual(own);
    await on.undo()?.saved;
    expect(REAL.otherWork(on, place.stream).map(({ id }) => id)).toEqual([worked.id]);
  });

  test('on no day it is refused', async () => {
    const { log: on, place, world } = atOf(await onFloor(REAL));
    const fields = { work: 'class', day: '2026-02-30', hours: 1, effort: 1 } as const;
    expect(REAL.noteOtherWork(on, place.stream, fields, world)).toEqual({
      ok: false,
      error: { type: 'not-a-day', field: 'day', text: '2026-02-30' },
    });
    expect(REAL.otherWork(on, place.stream)).toEqual([]);
  });

  test('a place is kept with its kit, changed, and chosen for a session', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place, world } = atOf(floor);
    const { id, saved } = good(
      REAL.savePlace(on, { ...NO_PLACE, name: 'Basement', bands: 'red, green', pins: '15', plates: '20 10' }, world),
    );
    await saved;
    await REAL.choosePlace(on, place, id);
    const next = await relaunched(REAL, floor);
    expect(REAL.places(next.log)).toEqual([
      {
        id,
        name: 'Basement',
        bands: ['red', 'green'],
        pins: 15,
        unit: 'kg',
        bars: [],
        plates: [20, 10],
        dumbbells: [],
      },
    ]);
    expect(sessionAt(REAL, { ...atOf(floor), log: next.log }).place).toBe(id);
    await good(REAL.savePlace(next.log, { ...NO_PLACE, name: 'Cellar' }, world, id)).saved;
    expect(REAL.places(next.log)).toEqual([
      { id, name: 'Cellar', bands: [], unit: 'kg', bars: [], plates: [], dumbbells: [] },
    ]);
    expect(REAL.savePlace(next.log, NO_PLACE, world, id)).toMatchObject({
      ok: false,
      error: { type: 'empty', field: 'place' },
    });
    await REAL.choosePlace(next.log, place, null);
    expect(sessionAt(REAL, { ...atOf(floor), log: next.log })).not.toHaveProperty('place');
  });
});

describe('what is remembered of a client', () => {
  test('a set-up by its parts; what is emptied is forgotten; a bad one is refused', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place } = atOf(floor);
    const setUps = () => REAL.client(on, place.stream)?.setUps;
    const texts = { setUp: 'heels on 2 cm', tempo: '3-1-x-0', height: '45', heightUnit: 'in' as const, pause: '1' };
    await good(REAL.saveSetUp(on, place.stream, SQUAT, texts));
    const held = { setUp: 'heels on 2 cm', tempo: '3-1-x-0', height: { value: 45, unit: 'in' }, pause: 1 };
    expect(setUps()).toEqual({ [SQUAT.id]: held });
    expect(REAL.saveSetUp(on, place.stream, SQUAT, { ...texts, tempo: 'slow' })).toEqual({
      ok: false,
      error: { type: 'not-a-tempo', field: 'tempo', text: 'slow' },
    });
    expect(setUps()).toEqual({ [SQUAT.id]: held });
    await good(REAL.saveSetUp(on, place.stream, SQUAT, { ...NO_SET_UP, pause: '2' }));
    expect(setUps()).toEqual({ [SQUAT.id]: { pause: 2 } });
    await good(REAL.saveSetUp(on, place.stream, SQUAT, NO_SET_UP));
    expect(setUps()).toEqual({});
  });

  test('a usual set-up stands until the client has one; one that is emptied stays empty, and undo brings the usual one back', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place } = atOf(floor);
    const now = () => setUpFor(PULL, REAL.client(on, place.stream)?.setUps[PULL.id]);
    expect(now()).toEqual({ setUp: 'palms away' });
    await good(REAL.saveSetUp(on, place.stream, PULL, { ...NO_SET_UP, setUp: 'rings', pause: '1' }));
    expect(now()).toEqual({ setUp: 'rings', pause: 1 });
    await good(REAL.saveSetUp(on, place.stream, PULL, NO_SET_UP));
    expect(setUpTexts(now())).toEqual(NO_SET_UP);
    on.undo();
    expect(now()).toEqual({ setUp: 'rings', pause: 1 });
    on.undo();
    expect(now()).toEqual({ setUp: 'palms away' });
  });

  test('the level of landings and the agreed question', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place } = atOf(floor);
    await REAL.noteLandingLevel(on, place.stream, 'intermediate');
    await good(REAL.agreeOnQuestion(on, place.stream, ' How is the voice? '));
    expect(REAL.client(on, place.stream)).toMatchObject({ landings: 'intermediate', question: 'How is the voice?' });
    expect(REAL.agreeOnQuestion(on, place.stream, 'x'.repeat(121))).toEqual({
      ok: false,
      error: { type: 'too-long', field: 'question', most: 120, has: 121 },
    });
    await good(REAL.agreeOnQuestion(on, place.stream, ' '));
    await REAL.noteLandingLevel(on, place.stream, null);
    const client = REAL.client(on, place.stream);
    expect([client?.question, client?.landings]).toEqual([undefined, undefined]);
  });

  test('a session that did not happen is noted as such, and a long reason refused', async () => {
    const floor = await onFloor(REAL);
    const { log: on, place, world } = atOf(floor);
    await good(REAL.noteMissedSession(on, place.stream, 'cancelled', ' ill ', world));
    const missed = REAL.sessionsInMemory(on).find(({ session }) => session.attendance === 'cancelled')?.session;
    expect(missed).toMatchObject({ why: 'ill', sets: [], start: { at: world.now() }, end: { at: world.now() } });
    expect(REAL.noteMissedSession(on, place.stream, 'no-show', 'x'.repeat(201), world)).toEqual({
      ok: false,
      error: { type: 'too-long', field: 'why', most: 200, has: 201 },
    });
    expect(REAL.sessionsInMemory(on)).toHaveLength(2);
  });
});
