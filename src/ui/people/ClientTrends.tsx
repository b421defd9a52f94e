import { type Finding, findingsOf } from '../../analysis/findings';
import { type Day, instantAt } from '../../domain/day';
import { useApp, useWatch } from '../app';
import { toneOf } from '../charts/Answers';
import { ANSWERS, findingText, nextText, sureText, toldOf } from '../findingWords';
import { go } from '../routes';
import '../charts/answers.css';

/** How each of a client's exercises goes and how each target stands, the most pressing first; a tap opens its chart. */
export function ClientTrends({ stream }: { stream: string }) {
  const { log, acts, views, world } = useApp();
  useWatch([`series:${stream}`, 'kind:role', 'kind:exercise', 'status']);
  const today: Day = instantAt(world.now(), world.zone()).day;
  const ends = log.ends(stream);
  const found = ends && findingsOf(ends, acts.targets(log, stream), today);
  const named = grouped(found ?? []).flatMap(([first, ...others]) => {
    const exercise = views.exercise(log, first.exercise);
    return exercise ? [{ exercise, first, own: [first, ...others] }] : [];
  });
  return (
    <section class="card" aria-label="trends">
      <h2>{ANSWERS.trends}</h2>
      {found && named.length === 0 ? <p class="hint">{ANSWERS.noTrends}</p> : null}
      <ul class="client-trends">
        {named.map(({ exercise, first, own }) => (
          <li key={exercise.id} class={`answer answer-${toneOf(first)}`}>
            <div class="client-trend-head">
              <strong dir="auto">{exercise.name}</strong>
              <button
                type="button"
                class="button button-plain"
                aria-label={`${ANSWERS.open}, ${exercise.name}`}
                onClick={() => go({ page: 'trend', stream, exercise: exercise.id })}
              >
                {ANSWERS.open}
              </button>
            </div>
            {own.map((one) => (
              <p key={`${one.type} ${one.side ?? ''}`}>
                {findingText(one, toldOf(exercise, one.end))}{' '}
                {one.next.type === 'keep-on' || one.next.type === 'log-more' ? null : nextText(one)}{' '}
                {one === first && one.next.type !== 'keep-on' ? <span class="hint">{sureText(one)}</span> : null}
              </p>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}

type Group = readonly [Finding, ...Finding[]];

/** Findings by exercise, in the order of the first of each. */
function grouped(found: readonly Finding[]): readonly Group[] {
  const groups = new Map<string, [Finding, ...Finding[]]>();
  for (const one of found) {
    const own = groups.get(one.exercise);
    if (own) own.push(one);
    else groups.set(one.exercise, [one]);
  }
  return [...groups.values()];
}
