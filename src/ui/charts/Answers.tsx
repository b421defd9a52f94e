import type { Finding } from '../../analysis/findings';
import type { SideSeries } from '../../analysis/series';
import type { Day } from '../../domain/day';
import {
  ANSWERS,
  coverageLines,
  findingText,
  levelText,
  nextText,
  sureText,
  type Told,
  targetChanceText,
} from '../findingWords';
import './answers.css';

type AnswersProps = {
  readonly series: readonly SideSeries[];
  readonly findings: readonly Finding[];
  readonly told: Told;
  readonly today: Day;
};

/** What is said of an exercise: how it goes, where it stands, whether its target is on time; and behind "how sure" what that rests on. */
export function Answers({ series, findings, told, today }: AnswersProps) {
  if (series.length === 0) return null;
  const levels = series.flatMap((one) => levelText(one, told) ?? []);
  const chances = series.flatMap((one) => targetChanceText(one, today) ?? []);
  return (
    <section class="answers" aria-label="what it says">
      {findings.map((one) => (
        <p key={`${one.type} ${one.side ?? ''}`} class={`answer answer-${toneOf(one)}`}>
          <strong>{findingText(one, told)}</strong> {one.next.type === 'keep-on' ? null : nextText(one)}
        </p>
      ))}
      {[...levels, ...chances].map((line) => (
        <p key={line}>{line}</p>
      ))}
      <details class="answers-sure">
        <summary>{ANSWERS.sure}</summary>
        {sureLines(series, findings, told).map((line) => (
          <p key={line} class="hint">
            {line}
          </p>
        ))}
      </details>
    </section>
  );
}

const sureLines = (series: readonly SideSeries[], findings: readonly Finding[], told: Told): readonly string[] => [
  ...new Set([
    ...findings.flatMap((one) => {
      const sure = sureText(one);
      return sure === '' ? [] : [`${findingText(one, told)} ${sure}`];
    }),
    ...series.flatMap((one) => coverageLines(one, told)),
    ...(series.some(({ points }) => points.some(({ band }) => band)) ? [ANSWERS.range] : []),
    ...(series.some(({ needed }) => needed.length > 0) ? [ANSWERS.straight] : []),
    ANSWERS.estimate,
  ]),
];

/** Never told by colour alone: the sentence says it too. */
export function toneOf({ type }: Finding): 'look' | 'good' | 'plain' {
  if (type === 'stalled' || type === 'behind' || type === 'maybe-stalled') return 'look';
  return type === 'picking-up' || type === 'ahead' || type === 'reached' || type === 'growing' ? 'good' : 'plain';
}
