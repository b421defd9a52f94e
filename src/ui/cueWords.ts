import { SHIPPED_CUES, type ShippedCue } from '../domain/cues';
import type { Cue } from '../log/views';
import type { App } from './app';

/** A cue as it can be given: one that ships with the app, or one in the trainer's own words. */
export type AnyCue = Cue & Partial<Omit<ShippedCue, 'id' | 'words'>>;

const known = new WeakMap<readonly Cue[], readonly AnyCue[]>();

/** Returns every cue: those added here, then the shipped ones, in the words laid over them where there are any. */
export function cuesOf({ log, views }: Pick<App, 'log' | 'views'>): readonly AnyCue[] {
  const own = views.cues(log);
  const made = known.get(own);
  if (made) return made;
  const shipped = SHIPPED_CUES.map((cue) => ({ ...cue, ...own.find((one) => one.id === cue.id) }));
  const all = [...own.filter((one) => !SHIPPED_CUES.some(({ id }) => id === one.id)), ...shipped];
  known.set(own, all);
  return all;
}

/** Returns what a cue says; undefined where no library tells of it. */
export const cueWords = (app: Pick<App, 'log' | 'views'>, id: string | undefined): string | undefined =>
  cuesOf(app).find((cue) => cue.id === id)?.words;
