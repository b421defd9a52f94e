import { type Finding, findingsOf, isHeadsUp } from '../../analysis/findings';
import { type Day, instantAt } from '../../domain/day';
import type { Exercise } from '../../domain/exercise';
import { ANSWERS } from '../answerWords';
import { useApp, useWatch } from '../app';
import { toldOf } from '../barWords';
import { keyOf, toneOf } from '../charts/Answers';
import { hitsOf } from '../charts/hits';
import { findingText, hitText, nextText, sureText, unjudgedText } from '../findingWords';
import { go } from '../routes';
import '../charts/answers.css';

/** Whether each target is on time, and how each exercise goes, the most pressing first; a tap opens its chart. */
export function ClientTrends({ stream }: { stream: string }) {
  const app = useApp();
  const { log, acts, views, world } = app;
  useWatch([`series:${stream}`, 'kind:role', 'kind:result', 'kind:exercise', 'status']);
  const ends = log.ends(stream);
  if (!ends) return null;
  const today = instantAt(world.now(), world.zone()).day;
  const targets = acts.targets(log, stream);
  const hits = hitsOf(app, stream, targets, today);
  if (!hits) return null;
  const found = findingsOf(ends, targets, today, hits);
  const groups = grouped(found).flatMap((own): Group[] => {
    const exercise = views.exercise(log, own[0].exercise);
    return exercise ? [{ exercise, own }] : [];
  });
  const aimed = groups.flatMap(({ exercise, own }) => own.filter(isOfTarget).map((one) => ({ exercise, one })));
  const goes = groups.map(({ exercise, own }) => ({ exercise, own: own.filter((one) => !isOfTarget(one)) }));
  const unjudged = targets.flatMap((target) => {
    const exercise = views.exercise(log, target.exercise);
    const isJudged = found.some((one) => 'target' in one && one.target.id === target.id);
    return exercise && !isJudged ? [{ target, exercise }] : [];
  });
  // what the engine does not judge has a chart all the same
  const plain = (log.usedExercises(stream) ?? []).flatMap((used) =>
    ends.some(({ exercise }) => exercise === used.exercise) ? [] : (views.exercise(log, used.exercise) ?? []),
  );
  const pressing = goes.filter(({ own }) => own.some(isHeadsUp));
  const others = goes.filter(({ own }) => !own.some(isHeadsUp));
  return (
    <section class="card" aria-label="trends">
      <h2>{ANSWERS.onTime}</h2>
      {targets.length === 0 ? (
        <p class="hint">{ANSWERS.noTarget}</p>
      ) : (
        <ul class="client-trends">
          {aimed.map(({ exercise, one }) => (
            <Line key={`${exercise.id} ${keyOf(one)}`} {...{ stream, exercise, today }} own={[one]} />
          ))}
          {unjudged.map(({ target, exercise }) => (
            <li key={target.id} class="answer">
              <TrendHead stream={stream} exercise={exercise} />
              <p class="hint">{unjudgedText(target, ends, exercise.perHand, today)}</p>
            </li>
          ))}
        </ul>
      )}
      <h2>{ANSWERS.trends}</h2>
      {goes.length === 0 ? <p class="hint">{ANSWERS.noTrends}</p> : null}
      <ul class="client-trends">
        {pressing.map(({ exercise, own }) => (
          <Line key={exercise.id} {...{ stream, exercise, own, today }} />
        ))}
      </ul>
      {others.length > 0 ? (
        <details class="answers-sure" open={pressing.length === 0}>
          <summary>{ANSWERS.others(others.length, pressing.length > 0)}</summary>
          <ul class="client-trends">
            {others.map(({ exercise, own }) => (
              <Line key={exercise.id} {...{ stream, exercise, own, today }} />
            ))}
          </ul>
        </details>
      ) : null}
      {plain.length > 0 ? (
        <details class="answers-sure">
          <summary>{ANSWERS.plain(plain.length)}</summary>
          <ul class="client-trends">
            {plain.map((exercise) => (
              <li key={exercise.id} class="answer">
                <TrendHead stream={stream} exercise={exercise} />
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

const isOfTarget = (one: Finding): boolean => 'target' in one;

type LineProps = {
  readonly stream: string;
  readonly exercise: Exercise;
  readonly own: readonly Finding[];
  readonly today: Day;
};

function Line({ stream, exercise, own, today }: LineProps) {
  const [first] = own;
  if (!first) return null;
  return (
    <li class={`answer answer-${toneOf(first)}`}>
      <TrendHead stream={stream} exercise={exercise} />
      {own.map((one) => (
        <p key={keyOf(one)}>
          {findingText(one, toldOf(exercise, one.end), today)}{' '}
          {one.next.type === 'keep-on' || one.next.type === 'log-more' ? null : nextText(one, today)} {hitText(one)}{' '}
          {isHeadsUp(one) ? <span class="hint">{sureText(one)}</span> : null}
        </p>
      ))}
    </li>
  );
}

/** The name of an exercise, and the way to its chart. */
function TrendHead({ stream, exercise }: Pick<LineProps, 'stream' | 'exercise'>) {
  return (
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
  );
}

type Group = { readonly exercise: Exercise; readonly own: readonly [Finding, ...Finding[]] };

/** Findings by exercise, in the order of the first of each. */
function grouped(found: readonly Finding[]): readonly Group['own'][] {
  const groups = new Map<string, [Finding, ...Finding[]]>();
  for (const one of found) {
    const own = groups.get(one.exercise);
    if (own) own.push(one);
    else groups.set(one.exercise, [one]);
  }
  return [...groups.values()];
}
