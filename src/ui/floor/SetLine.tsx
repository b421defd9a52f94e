import type { Exercise } from '../../domain/exercise';
import type { SetRecord } from '../../domain/set';
import { still } from '../parts/still';
import { go } from '../routes';
import { countText, heldText, loadText } from '../sentence';
import { KINDS, observedText, SIDE, unreadSentence } from '../setWords';
import type { Place } from './usePad';

type SetLineProps = {
  readonly place: Place;
  readonly sets: readonly SetRecord[];
  readonly exercise: Exercise | undefined;
  readonly label: string;
  readonly current: boolean;
  /** Whether everything the line shows is in the store; `failed` where the last try to put it there failed. */
  readonly saved: boolean;
  readonly failed: boolean;
  readonly cues: readonly { readonly id: string; readonly words: string }[];
};

/**
 * One line of the record: a set, or a warm-up ramp as one. `data-saved` stands on it once everything it shows is in the store, and
 * never before.
 */
export const SetLine = still(DrawnLine, sameLine);

function DrawnLine({ place, sets, exercise, label, current, saved, failed, cues }: SetLineProps) {
  const [first] = sets;
  if (!first) return null;
  const wordsOf = (id: string) => cues.find((cue) => cue.id === id)?.words;
  const unread = unreadSentence(sets.flatMap((set) => set.unread));
  const ramp = sets.length > 1;
  return (
    <li
      class={`set-line${current ? ' set-line-current' : ''}`}
      data-set={sets.map((set) => set.id).join(' ')}
      {...(saved ? { 'data-saved': '' } : {})}
    >
      <button
        type="button"
        class="set-line-button"
        onClick={() => go({ page: 'session', ...place, sheet: { name: 'set', set: first.id } })}
      >
        <span class="set-line-label">{label}</span>
        <span class="set-line-held">
          {ramp
            ? sets.map((set) => `${loadText(set, exercise) || countText(set)}`).join(' · ')
            : heldText(first, exercise)}
          {first.side ? ` ${SIDE[first.side]}` : ''}
        </span>
        <span class="set-line-observed">
          {first.kind && first.kind !== 'working' ? <b>{KINDS[first.kind]} </b> : null}
          {first.kind === 'warm-up' && observedText(first, () => undefined) === 'not noted'
            ? ''
            : observedText(first, wordsOf)}
          {failed ? <strong class="not-saved-word"> NOT SAVED</strong> : null}
        </span>
        {unread ? <span class="set-line-unread">{unread}</span> : null}
      </button>
    </li>
  );
}

function sameLine(a: SetLineProps, b: SetLineProps): boolean {
  const { sets, place, ...plain } = a;
  return (
    sets.length === b.sets.length &&
    sets.every((set, index) => set === b.sets[index]) &&
    place.session === b.place.session &&
    (Object.keys(plain) as (keyof typeof plain)[]).every((name) => a[name] === b[name])
  );
}

/** Returns sets as lines: warm-ups that follow each other are one ramp, every other set is a line of its own. */
export function linesOf(sets: readonly SetRecord[]): readonly (readonly SetRecord[])[] {
  const lines: SetRecord[][] = [];
  for (const set of sets) {
    const last = lines.at(-1);
    const together =
      set.kind === 'warm-up' &&
      set.parts.length === 0 &&
      last?.[0]?.kind === 'warm-up' &&
      last[0].at?.at === set.at?.at;
    if (together) last?.push(set);
    else lines.push([set]);
  }
  return lines;
}

/** Returns the number of a set among those of its exercise that count (no warm-ups), each side by itself. */
export function setNumber(sets: readonly SetRecord[], set: SetRecord): number {
  const counted = sets.filter((one) => one.kind !== 'warm-up' && one.side === set.side);
  return counted.findIndex((one) => one.id === set.id) + 1;
}
