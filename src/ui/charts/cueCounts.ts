import type { Exposure } from '../../domain/exposure';

/** Sets whose form was noted, and how many of them were clean. */
export type Form = { readonly clean: number; readonly noted: number };

/** What a cue did over several sessions, and how the form was in the sets with it and in those without. */
export type CueTally = {
  readonly cue: string;
  readonly given: number;
  readonly better: number;
  readonly same: number;
  readonly worse: number;
  readonly with: Form;
  readonly without: Form;
};

/** A cue given less often than this tells nothing yet. */
export const FEWEST_USES = 5;

/** Returns the tally of every cue that was given, in no order that means anything (by id). */
export function cueTallies(exposures: readonly Exposure[]): readonly CueTally[] {
  const counts = exposures.flatMap((one) => one.cues);
  const all = formOf(exposures);
  return [...new Set(counts.map(({ cue }) => cue))].sort().map((cue) => {
    const own = counts.filter((count) => count.cue === cue);
    const sum = (name: 'given' | 'better' | 'same' | 'worse'): number => own.reduce((n, count) => n + count[name], 0);
    const form = formOf(own);
    return {
      cue,
      given: sum('given'),
      better: sum('better'),
      same: sum('same'),
      worse: sum('worse'),
      with: form,
      without: { clean: all.clean - form.clean, noted: all.noted - form.noted },
    };
  });
}

const formOf = (counts: readonly Form[]): Form =>
  counts.reduce((sum, one) => ({ clean: sum.clean + one.clean, noted: sum.noted + one.noted }), { clean: 0, noted: 0 });
