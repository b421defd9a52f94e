import type { Exercise } from '../../domain/exercise';
import { type LibraryPart, libraryParts } from '../../domain/recent';
import type { App } from '../app';
import { search } from '../parts/search';
import { closedFor } from './closed';
import type { Pad } from './usePad';

/** What of the library can be chosen in a session now, and what is closed to the client. */
export type Choice = { readonly parts: readonly LibraryPart[]; readonly closed: readonly Exercise[] };

/** Returns the library as this client's session offers it: today's, the latest, the usual, then the rest by pattern. */
export function choiceFor(app: App, pad: Pad): Choice {
  const { log, views, world } = app;
  const all = views.exercises(log);
  const closed = all.filter((one) => closedFor(app, pad.place, pad.session, one.id));
  const open = all.filter((one) => !closed.includes(one));
  const used = log.usedExercises(pad.place.stream) ?? [];
  return { parts: libraryParts(open, new Set(pad.session.exercises), used, world.now()), closed };
}

/** Returns the exercises that have the name typed, or nearly so; those lately done first where they are equally near. */
export const findExercises = ({ parts }: Pick<Choice, 'parts'>, typed: string): readonly Exercise[] =>
  byName(
    parts.flatMap((part) => part.exercises),
    typed,
  );

/** Returns the names of the closed exercises that what was typed would have found. */
export const closedNames = ({ closed }: Pick<Choice, 'closed'>, typed: string): readonly string[] =>
  byName(closed, typed).map((one) => one.name);

const byName = (among: readonly Exercise[], typed: string): readonly Exercise[] =>
  search(among, typed, (one) => one.name);
