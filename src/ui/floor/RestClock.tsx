import { useApp, useWatch } from '../app';
import { duration } from '../format';
import { say } from '../parts/say';
import { useTicking } from '../parts/useTicking';
import { savedAgo, undoneSentence, undoText } from '../words';
import type { Pad } from './usePad';
import { changeRest, restKey, useRest } from './useRest';

/** The rest that is left, from the last set's own time, with what is saved and the way to take it back. */
export function RestClock({ pad }: { pad: Pad }) {
  const app = useApp();
  const { log, views, world } = app;
  const { place, session } = pad;
  useWatch(['status', 'undo', `${place.stream}/${place.session}`, `draft:${restKey(place)}`]);
  const rest = useRest(place, 'second');
  const last = session.sets.at(-1);
  const ago = useTicking(() => Math.max(0, Math.floor((world.now() - (last?.at?.at ?? world.now())) / 1000)));
  const key = `${place.stream}/${place.session}`;
  const saved = views
    .sessionRows(log, place.stream, place.session)
    .every((row) => log.isSaved(`${row.stream}/${row.id}`));
  const act = log.lastAct();
  const whose = act && typeof act.act['stream'] === 'string' ? (views.client(log, act.act['stream'])?.short ?? '') : '';
  return (
    <div class="rest" data-session={key}>
      {rest.state === 'resting' ? (
        <div class="rest-clock">
          <button
            type="button"
            class="button rest-change"
            onClick={() => changeRest(app, place, -15)}
            aria-label="15 seconds less rest"
          >
            −15
          </button>
          <span class="rest-time" role="timer" aria-label="rest left">
            {duration(rest.left)}
          </span>
          <button
            type="button"
            class="button rest-change"
            onClick={() => changeRest(app, place, 15)}
            aria-label="15 seconds more rest"
          >
            +15
          </button>
        </div>
      ) : null}
      <div class="rest-foot">
        <span class="hint">
          {rest.state === 'resting' ? 'rest left · ' : ''}
          {last ? (saved ? savedAgo(ago) : 'saving…') : ''}
        </span>
        {act ? (
          <button
            type="button"
            class="button button-plain"
            aria-label={undoText(act.act, whose)}
            onClick={() => {
              const undone = log.undo();
              if (undone) say(undoneSentence(undone.changedSince));
            }}
          >
            {undoText(act.act, '')}
            {whose ? (
              <span class="undo-whose">
                {' · '}
                <span dir="auto">{whose}</span>
              </span>
            ) : null}
          </button>
        ) : null}
      </div>
    </div>
  );
}
