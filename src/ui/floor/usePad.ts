import type { Block, GridCell } from '../../domain/block';
import { cellDraft } from '../../domain/cellEntry';
import type { Entry } from '../../domain/entry';
import { type Exercise, setUpFor } from '../../domain/exercise';
import { inHandOf } from '../../domain/inHand';
import { plannedTexts } from '../../domain/plan';
import { type PadDraft, prefill } from '../../domain/prefill';
import type { SessionRecord } from '../../domain/session';
import type { SetRecord, Side } from '../../domain/set';
import { distanceUnitOf } from '../../domain/settings';
import { setUpTexts } from '../../domain/setUp';
import type { Json } from '../../merge/row';
import { type App, useApp, useWatch } from '../app';
import { notHeavier } from './closed';
import { readDraft } from './padDraft';

export type Place = { readonly stream: string; readonly session: string };

/** Everything the pad of one session shows, read anew at every change of what it is made of. */
export type Pad = {
  readonly place: Place;
  readonly session: SessionRecord;
  readonly exercise: Exercise | undefined;
  /** The block in hand, and the cell of it that is. */
  readonly block: Block | undefined;
  readonly cell: GridCell | undefined;
  /** Sets of the exercise in hand: today's, and those of the last time. */
  readonly today: readonly SetRecord[];
  readonly lastTime: readonly SetRecord[];
  readonly entry: Entry | undefined;
  /** Changes the draft: what is typed lives there, and survives a kill. */
  readonly change: (patch: Partial<PadDraft>) => void;
  /** Takes another exercise in hand. */
  readonly choose: (exercise: string) => void;
  /** Takes a cell of a block in hand. */
  readonly chooseCell: (block: Block, cell: GridCell, side: Side | null) => void;
};

/** Returns the pad of a session, or undefined where there is no such session in memory. */
export function usePad(place: Place): Pad | undefined {
  const app = useApp();
  const key = app.acts.padDraft(place);
  const { stream, session: id } = place;
  useWatch([
    `${stream}/${id}`,
    'kind:session',
    'kind:exercise',
    'kind:kit',
    'kind:restriction',
    'kind:settings',
    `${stream}/${stream}`,
    `draft:${key}`,
    `series:${stream}`,
  ]);
  return padOf(app, place);
}

/** Returns the pad of a session as it is now: for the one on the screen, and for another client's beside it. */
export function padOf(app: App, place: Place): Pad | undefined {
  const { log, views, acts } = app;
  const { stream, session: id } = place;
  const session = views.session(log, stream, id);
  if (!session) return undefined;
  const key = acts.padDraft(place);
  const stored = readDraft(log.draft(key));
  const inHand = inHandOf(session, stored, (one) => views.exercise(log, one));
  const cell = inHand.type === 'cell' ? inHand.cell : undefined;
  const exerciseId = 'exercise' in inHand ? inHand.exercise : undefined;
  const exercise = exerciseId === undefined ? undefined : views.exercise(log, exerciseId);
  const own = { place, session, exercise };
  const { today, lastTime } = pastOf(app, place, session, exerciseId);
  const base = inHand.type === 'cell' ? cellDraft(inHand.block, inHand.cell, inHand.side) : undefined;
  const planned = base ?? (today.length === 0 ? plannedTexts(itemPlan(session, exerciseId)) : {});
  const draft: PadDraft | undefined = exercise && { ...planned, ...stored, exercise: exercise.id };
  const entry = exercise && draft && entryOf(app, stream, session, exercise, draft, { today, lastTime });
  const kept = base ? { in: base.in, ...(base.side === undefined ? {} : { side: base.side }) } : {};
  return {
    ...own,
    block: 'block' in inHand ? inHand.block : undefined,
    cell,
    today,
    lastTime,
    // what is typed is the trainer's
    entry: entry && stored?.load === undefined ? notHeavier(app, place, session, entry) : entry,
    change: (patch) => log.setDraft(key, asJson({ ...kept, ...stored, exercise: exerciseId ?? '', ...patch })),
    choose: (next) => log.setDraft(key, { exercise: next }),
    chooseCell: (block, one, side) => log.setDraft(key, asJson(chosenCell(block, one, side))),
  };
}

/** Returns the draft that takes a cell in hand and says nothing more. */
function chosenCell(block: Block, { station, round }: GridCell, side: Side | null): PadDraft {
  return { exercise: station.exercise, side, in: { block: block.id, station: station.id, round } };
}

const asJson = (draft: PadDraft): Json => draft as unknown as Json;

const itemPlan = (session: SessionRecord, exercise: string | undefined) =>
  session.items.find((item) => item.id === exercise)?.plan ?? {};

/** Returns today's sets of an exercise and those of the last time; of what hangs at a place, the last time there goes first. */
export function pastOf(
  { log, views }: App,
  { stream }: Place,
  session: SessionRecord,
  exercise: string | undefined,
): { readonly today: readonly SetRecord[]; readonly lastTime: readonly SetRecord[] } {
  if (exercise === undefined) return { today: [], lastTime: [] };
  const times = log.lastTimes(stream, exercise, session.id) ?? [];
  const holds = views.exercise(log, exercise)?.holds;
  const there = (holds === 'pin' || holds === 'band') && times.find((time) => time.place === session.place);
  return {
    today: session.sets.filter((set) => set.exercise === exercise),
    lastTime: (there || times[0])?.sets ?? [],
  };
}

/** Returns the next set of an exercise, with the client's set-up and the unit that was used last. */
export function entryOf(
  { log, views }: App,
  stream: string,
  session: SessionRecord,
  exercise: Exercise,
  draft: PadDraft,
  past: { readonly today: readonly SetRecord[]; readonly lastTime: readonly SetRecord[] },
): Entry {
  const setUp = setUpFor(exercise, views.client(log, stream)?.setUps[exercise.id]);
  const chosen = views.settings(log);
  const load = session.sets.findLast((set) => set.load)?.load?.unit ?? chosen.load;
  return prefill(exercise, draft, past, setUpTexts(setUp, chosen.length), {
    load,
    distance: distanceUnitOf(chosen),
  });
}
