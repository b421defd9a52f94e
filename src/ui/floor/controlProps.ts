import type { Entry } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import type { Place } from '../../domain/kit';
import type { PadDraft } from '../../domain/prefill';
import type { SetRecord } from '../../domain/set';
import type { Selection } from './Sentence';

/** What the control rows of the pad, and of a set's sheet, work on. */
export type ControlProps = {
  readonly entry: Entry;
  readonly exercise: Exercise;
  readonly selection: Selection;
  readonly today: readonly SetRecord[];
  readonly lastTime: readonly SetRecord[];
  readonly onChange: (patch: Partial<PadDraft>) => void;
  readonly onSelect: (selection: Selection) => void;
  /** Nothing heavier than this is offered, kg: pain stopped it there, and no clearance is noted. */
  readonly heaviest?: number | undefined;
  /** Whether landings of the next set can be judged here already; in a rest the place is the last set's. */
  readonly dots?: boolean;
  /** Bands and the highest pin of the place one is at. */
  readonly kit?: Place | undefined;
};
