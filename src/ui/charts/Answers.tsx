import type { Finding } from '../../analysis/findings';
import type { SideSeries } from '../../analysis/series';
import type { Day } from '../../domain/day';
import { ANSWERS } from '../answerWords';
import type { Told } from '../barWords';
import { coverageLines, findingText, levelText, nextText, sureText, targetChanceText } from '../findingWords';
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
  const chances = series.flatMap((one) => targetChanceText(one, told, today) ?? []);
  return (
    <section class="answers" aria-label="what it says">
      {findings.map((one) => (
        <p key={keyOf(one)} class={`answer answer-${toneOf(one)}`}>
          <strong>{findingText(one, told, today)}</strong> {one.next.type === 'keep-on' ? null : nextText(one, today)}
        </p>
      ))}
      {[...levels, ...chances].map((line) => (
        <p key={line}>{line}</p>
      ))}
      <details class="answers-sure">
        <summary>{ANSWERS.sure}</summary>
        {sureLines(series, findings, told, today).map((line) => (
          <p key={line} class="hint">
            {line}
          </p>
        ))}
      </details>
    </section>
  );
}

const sureLines = (
  series: readonly SideSeries[],
  findings: readonly Finding[],
  told: Told,
  today: Day,
): readonly string[] => [
  ...new Set([
    ...findings.flatMap((one) => {
      const sure = sureText(one);
      return sure === '' ? [] : [`${findingText(one, told, today)} ${sure}`];
    }),
    ...series.flatMap((one) => coverageLines(one, told)),
    ...(series.some(({ points }) => points.some(({ band }) => band)) ? [ANSWERS.range] : []),
    ...(series.some(({ needed }) => needed.length > 0) ? [ANSWERS.straight] : []),
    ANSWERS.estimate,
  ]),
];

/** Two targets of one exercise are two findings of one type. */
export const keyOf = (one: Finding): string => `${one.type} ${one.side ?? ''} ${'target' in one ? one.target.id : ''}`;

const LOOK: readonly Finding['type'][] = ['stalled', 'behind', 'maybe-stalled', 'falling', 'unlikely'];

/** Never told by colour alone: the sentence says it too. */
export function toneOf({ type }: Finding): 'look' | 'good' | 'plain' {
  if (LOOK.includes(type)) return 'look';
  return type === 'picking-up' || type === 'ahead' || type === 'reached' || type === 'growing' ? 'good' : 'plain';
}
