import type { Day } from '../../domain/day';
import type { Exposure } from '../../domain/exposure';
import { useApp } from '../app';
import { cuesOf } from '../cueWords';
import { cueLines, cuesSince, TREND } from '../trendWords';
import { cueTallies, FEWEST_USES } from './cueCounts';

type CueTalliesProps = {
  readonly exposures: readonly Exposure[];
  /** The first day that is counted. */
  readonly from: Day | undefined;
  readonly today: Day;
};

/** What each cue did, by its words: facts beside each other, and no ranking. Nothing where none was given. */
export function CueTallies({ exposures, from, today }: CueTalliesProps) {
  const known = new Map(cuesOf(useApp()).map((cue) => [cue.id, cue.words]));
  const tallies = cueTallies(exposures).map((tally) => ({ tally, words: known.get(tally.cue) }));
  if (tallies.length === 0 || from === undefined) return null;
  tallies.sort((a, b) => ((a.words ?? '') < (b.words ?? '') ? -1 : 1));
  return (
    <section class="trend-cues">
      <div class="trend-cues-head">
        <h3>{TREND.cues}</h3>
        <span class="hint">{cuesSince(from, today)}</span>
      </div>
      <ul>
        {tallies.map(({ tally, words }) => (
          <li key={tally.cue}>
            <p class="trend-cue" dir="auto">
              {words === undefined ? TREND.cueMissing : `“${words}”`}
            </p>
            {cueLines(tally).map((line) => (
              <p key={line}>{line}</p>
            ))}
          </li>
        ))}
      </ul>
      {tallies.some(({ tally }) => tally.given >= FEWEST_USES) ? <p class="hint">{TREND.cueCaution}</p> : null}
    </section>
  );
}
