import { useMemo, useState } from 'preact/hooks';
import type { Answers } from '../../analysis/answers';
import { instantAt } from '../../domain/day';
import { useApp, useWatch } from '../app';
import { WINDOWS, type Window, windowFrom } from '../charts/picture';
import { notNotedText, OTHERS, workingText } from '../otherWords';
import { Chip, ChipRow } from '../parts/Chip';
import { usePrinting } from '../parts/usePrinting';
import { useTicking } from '../parts/useTicking';
import { OtherTopic } from './OtherTopic';
import { tellingOf } from './telling';
import { topicsOf } from './topics';
import { useAnswers } from './useAnswers';
import '../charts/answers.css';
import '../charts/trend.css';
import '../charts/picture.css';

/** What the methods beside the trends say of a client, a topic at a time: a number and a sentence, the rest behind "how sure". */
export function OtherAnswers({ stream }: { stream: string }) {
  const { world } = useApp();
  // left open past midnight, the card is of the new day
  const today = useTicking(() => instantAt(world.now(), world.zone()).day);
  const { answers, told, state } = useAnswers(stream, today);
  return (
    <section class="card others" aria-label="other answers">
      <h2>{OTHERS.title}</h2>
      {answers ? (
        <Topics answers={answers} />
      ) : (
        <p class="hint" role="status">
          {state === 'failed' ? OTHERS.failed : workingText(told)}
        </p>
      )}
    </section>
  );
}

function Topics({ answers }: { answers: Answers }) {
  const app = useApp();
  useWatch(['kind:exercise', 'kind:cue', 'kind:settings']);
  const [window, setWindow] = useState<Window>('12');
  const isPrinting = usePrinting();
  const { log, views } = app;
  const settings = views.settings(log);
  const telling = tellingOf(app, answers.asOf);
  // a window slices what is there: it is put into words once
  const { told, notNoted } = useMemo(() => topicsOf(answers, telling), [answers, settings, views.cues(log)]);
  const from = windowFrom(window, answers.asOf);
  if (told.length === 0) return <p class="hint">{OTHERS.none}</p>;
  return (
    <>
      <div class="other-window">
        <p class="hint" aria-hidden="true">
          {OTHERS.window}
        </p>
        <ChipRow label={OTHERS.window}>
          {WINDOWS.map((one) => (
            <Chip key={one} chosen={window === one} onTap={() => setWindow(one)}>
              {OTHERS.windows[one]}
            </Chip>
          ))}
        </ChipRow>
      </div>
      <ul class="other-topics">
        {told.map((one) => (
          <OtherTopic key={one.topic} one={one} telling={telling} from={from} isPrinting={isPrinting} />
        ))}
      </ul>
      {notNoted.length > 0 ? <p class="hint">{notNotedText(notNoted)}</p> : null}
      <p class="hint">{OTHERS.own}</p>
    </>
  );
}
