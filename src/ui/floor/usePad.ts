import type { Entry, Field, Fields } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { type PadDraft, prefill } from '../../domain/prefill';
import type { SessionRecord } from '../../domain/session';
import { SET_KINDS, type SetRecord } from '../../domain/set';
import type { Json } from '../../merge/row';
import { useApp, useWatch } from '../app';

export type Place = { readonly stream: string; readonly session: string };

/** Everything the pad of one session shows, read anew at every change of what it is made of. */
export type Pad = {
  readonly place: Place;
  readonly session: SessionRecord;
  readonly exercise: Exercise | undefined;
  /** Sets of the exercise in hand: today's, and those of the last time. */
  readonly today: readonly SetRecord[];
  readonly lastTime: readonly SetRecord[];
  readonly entry: Entry | undefined;
  /** Changes the draft: what is typed lives there, and survives a kill. */
  readonly change: (patch: Partial<PadDraft>) => void;
  /** Takes another exercise in hand. */
  readonly choose: (exercise: string) => void;
};

/** Returns the pad of a session, or undefined where there is no such session in memory. */
export function usePad(place: Place): Pad | undefined {
  const { log, views, acts } = useApp();
  const key = acts.padDraft(place);
  const { stream, session: id } = place;
  useWatch([
    `${stream}/${id}`,
    'kind:session',
    'kind:exercise',
    `${stream}/${stream}`,
    `draft:${key}`,
    `series:${stream}`,
  ]);
  const session = views.session(log, stream, id);
  if (!session) return undefined;
  const stored = readDraft(log.draft(key));
  const inHand = stored?.exercise ?? session.sets.at(-1)?.exercise ?? session.exercises[0];
  const exercise = inHand === undefined ? undefined : views.exercise(log, inHand);
  const today = session.sets.filter((set) => set.exercise === inHand);
  const lastTime = (inHand !== undefined && log.lastTimes(stream, inHand, id)?.[0]?.sets) || [];
  const draft: PadDraft | undefined = exercise && { ...stored, exercise: exercise.id };
  const setUp = (exercise && views.client(log, stream)?.setUps[exercise.id]) ?? '';
  const unit = session.sets.findLast((set) => set.load)?.load?.unit ?? 'kg';
  const entry = exercise && draft && prefill(exercise, draft, { today, lastTime }, setUp, unit);
  return {
    place,
    session,
    exercise,
    today,
    lastTime,
    entry,
    change: (patch) => log.setDraft(key, { ...stored, exercise: inHand ?? '', ...patch } as unknown as Json),
    choose: (next) => log.setDraft(key, { exercise: next }),
  };
}

const FIELDS: readonly Field[] = ['load', 'reps', 'band', 'pin', 'seconds'];

/** Returns the draft that was stored, as far as this version can read it. */
function readDraft(stored: Json | undefined): PadDraft | undefined {
  if (stored === null || typeof stored !== 'object' || !('exercise' in stored)) return undefined;
  const draft = stored as Readonly<Record<string, Json>>;
  if (typeof draft['exercise'] !== 'string' || draft['exercise'] === '') return undefined;
  const read: Record<string, unknown> = { exercise: draft['exercise'] };
  const texts = readTexts(draft);
  Object.assign(read, texts);
  if (SET_KINDS.some((kind) => kind === draft['kind'])) read['kind'] = draft['kind'];
  if (draft['side'] === 'left' || draft['side'] === 'right') read['side'] = draft['side'];
  if (draft['unit'] === 'kg' || draft['unit'] === 'lb') read['unit'] = draft['unit'];
  if (['alone', 'added', 'assist', 'band'].some((way) => way === draft['body'])) read['body'] = draft['body'];
  if (Array.isArray(draft['parts'])) {
    const parts = draft['parts'] as readonly Json[];
    read['parts'] = parts.map((part) => ({
      ...NO_TEXTS,
      ...readTexts((part ?? {}) as Readonly<Record<string, Json>>),
    }));
  }
  return read as PadDraft;
}

const NO_TEXTS: Fields = { load: '', reps: '', band: '', pin: '', seconds: '' };

function readTexts(from: Readonly<Record<string, Json>>): Partial<Fields> {
  return Object.fromEntries(
    FIELDS.flatMap((field) => {
      const text = from[field];
      return typeof text === 'string' ? [[field, text]] : [];
    }),
  );
}
