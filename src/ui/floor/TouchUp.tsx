import { type Effort, type Mark, MOST_MARKS, type SetRecord } from '../../domain/set';
import type { EffortScale } from '../../domain/settings';
import type { Json } from '../../merge/row';
import { useApp, useWatch } from '../app';
import { cueWords } from '../cueWords';
import { Chip, ChipRow } from '../parts/Chip';
import { go } from '../routes';
import { ANSWER, ENDED, effortText, FORM, SIDE } from '../setWords';
import { Dots } from './Dots';
import type { Place } from './usePad';

/** The chips of each scale; RPE below 6 says little of how many are left, and can still be typed. */
const SCALES: Readonly<Record<EffortScale, readonly Effort[]>> = {
  left: [
    { value: 0, as: 'left' },
    { value: 1, as: 'left' },
    { value: 2, as: 'left' },
    { value: 3, as: 'left' },
    { atLeast: 4 },
  ],
  rpe: [
    { value: 10, as: 'rpe' },
    { value: 9, as: 'rpe' },
    { value: 8, as: 'rpe' },
    { value: 7, as: 'rpe' },
    { value: 6, as: 'rpe' },
  ],
};

/** What was observed of the last set, each one tap: chosen once more a word becomes its half or is not noted again. */
export function TouchUp({ place, set }: { place: Place; set: SetRecord }) {
  const { log, acts } = useApp();
  const title = `Last set${set.side ? `, ${SIDE[set.side]}` : ''}, while you rest`;
  const note = (values: Readonly<Record<string, Json>>) => acts.touchUp(log, place, set.id, values);
  return (
    <section class="touch-up" aria-label={title}>
      <p class="hint">{title}</p>
      <GoodRow place={place} set={set} />
      <EffortRow effort={set.effort} onEffort={(effort) => note({ effort })} />
      <ChipRow label="form and end">
        {(['clean', 'slipping'] as const).map((form) => (
          <Chip key={form} chosen={set.form === form} onTap={() => note({ form: set.form === form ? null : form })}>
            {FORM[form]}
          </Chip>
        ))}
        {(['missed', 'stopped'] as const).map((ended) => (
          <Chip
            key={ended}
            chosen={set.ended === ended}
            onTap={() => note({ ended: set.ended === ended ? null : ended })}
          >
            {ENDED[ended]}
          </Chip>
        ))}
        <Chip
          onTap={() => go({ page: 'session', ...place, sheet: { name: 'set', set: set.id } })}
          label="more about this set"
        >
          more
        </Chip>
      </ChipRow>
      <CueRow place={place} set={set} />
    </section>
  );
}

/** Of landings, a dot each; of tries, and of more landings than have a dot, how many were good; and how smooth it was. */
export function GoodRow({ place, set }: { place: Place; set: SetRecord }) {
  const { log, acts } = useApp();
  const total = set.landings ?? set.tries;
  if (total === undefined) return null;
  const note = (values: Readonly<Record<string, Json>>) => acts.touchUp(log, place, set.id, values);
  if (set.landings !== undefined && total <= MOST_MARKS) {
    const marks = Array.from({ length: total }, (_, at) => set.marks.find((mark) => mark.n === at + 1) ?? null);
    return (
      <Dots
        count={total}
        marks={marks.map((mark) => (mark ? plainMark(mark) : null))}
        onMark={(n, mark) => note({ [`marks/${n}`]: mark as Json })}
      />
    );
  }
  const least = Math.max(0, total - 4);
  const offered = Array.from({ length: total - least + 1 }, (_, at) => total - at);
  return (
    <>
      <ChipRow label={`good of ${total}`}>
        {offered.map((good) => (
          <Chip key={good} chosen={set.good === good} onTap={() => note({ good: set.good === good ? null : good })}>
            {good} good
          </Chip>
        ))}
      </ChipRow>
      {set.tries === undefined ? null : (
        <ChipRow label="smoothness, 1 rough to 5 smooth">
          {([1, 2, 3, 4, 5] as const).map((smooth) => (
            <Chip
              key={smooth}
              chosen={set.smooth === smooth}
              onTap={() => note({ smooth: set.smooth === smooth ? null : smooth })}
              label={`smoothness ${smooth}${smooth === 1 ? ' rough' : smooth === 5 ? ' smooth' : ''}`}
            >
              {smooth === 1 ? '1 rough' : smooth === 5 ? '5 smooth' : smooth}
            </Chip>
          ))}
        </ChipRow>
      )}
    </>
  );
}

/** A mark as it is stored: its place is in its path. */
const plainMark = ({ good, quiet, knee, held }: Mark): Mark => ({
  good,
  ...(quiet === false ? { quiet } : {}),
  ...(knee === false ? { knee } : {}),
  ...(held === false ? { held } : {}),
});

/** Effort in the scale that was chosen; a second tap on a chosen chip is the half, a third takes it back. */
export function EffortRow({
  effort,
  onEffort,
}: {
  effort: Effort | undefined;
  onEffort: (effort: Effort | null) => void;
}) {
  const { log, views } = useApp();
  useWatch(['kind:settings']);
  return (
    <ChipRow label="effort" of="even">
      {SCALES[views.settings(log).effort].map((chip) => {
        const standing = standingOf(chip, effort);
        const half = halfOf(chip);
        return (
          <Chip
            key={effortText(chip)}
            chosen={standing !== 'not'}
            onTap={() => onEffort(standing === 'not' ? chip : standing === 'whole' ? half : null)}
          >
            {standing === 'half' && half ? effortText(half) : 'atLeast' in chip ? '4+ left' : effortText(chip)}
          </Chip>
        );
      })}
    </ChipRow>
  );
}

/** The half above a chip; at either end of what can be told there is none. */
function halfOf(chip: Effort): Effort | null {
  if ('atLeast' in chip || (chip.as === 'rpe' && chip.value === 10)) return null;
  return { value: chip.value + 0.5, as: chip.as };
}

function standingOf(chip: Effort, effort: Effort | undefined): 'not' | 'whole' | 'half' {
  if (!effort) return 'not';
  if ('atLeast' in chip || 'atLeast' in effort) return 'atLeast' in chip && 'atLeast' in effort ? 'whole' : 'not';
  if (effort.as !== chip.as) return 'not';
  return effort.value === chip.value ? 'whole' : effort.value === chip.value + 0.5 ? 'half' : 'not';
}

/** The cue in hand for this client and exercise, and what it did: it belongs to this set once one of these is tapped. */
export function CueRow({ place, set }: { place: Place; set: SetRecord }) {
  const app = useApp();
  const { log, acts, views } = app;
  useWatch(['kind:cue', `${place.stream}/${place.session}`]);
  const use = set.cues.at(-1);
  const lastGiven = (views.session(log, place.stream, place.session)?.sets ?? [])
    .filter((one) => one.exercise === set.exercise)
    .flatMap((one) => one.cues)
    .at(-1);
  const lastTime =
    (set.exercise !== undefined && log.lastTimes(place.stream, set.exercise, place.session)?.[0]?.sets) || [];
  const cue = use?.cue ?? lastGiven?.cue ?? lastTime.flatMap((one) => one.cues).at(-1)?.cue;
  const words = cueWords(app, cue);
  const openCues = () => go({ page: 'session', ...place, sheet: { name: 'cue', set: set.id } });
  if (cue === undefined || words === undefined) {
    return (
      <ChipRow label="cue">
        <Chip onTap={openCues}>+ cue</Chip>
      </ChipRow>
    );
  }
  return (
    <ChipRow label="cue">
      <Chip wide onTap={openCues} label={`cue: ${words}; choose another`}>
        <span class="cue-words" dir="auto">
          “{words}”
        </span>
      </Chip>
      <div class="chips cue-answers">
        {(['better', 'same', 'worse'] as const).map((answer) => (
          <Chip
            key={answer}
            chosen={use?.answer === answer}
            onTap={() => void acts.answerCue(log, place, set, cue, use?.answer === answer ? null : answer)}
          >
            {ANSWER[answer]}
          </Chip>
        ))}
      </div>
    </ChipRow>
  );
}
