import { useApp, useWatch } from '../app';
import { undoneSentence, undoText } from '../words';
import { say } from './say';

/** Takes the last act back, where it is one of those named (and about what is named): what is done on a page can be undone on it. */
export function UndoLast({ of, about = {} }: { of: ReadonlySet<string>; about?: Readonly<Record<string, string>> }) {
  const { log, views } = useApp();
  useWatch(['undo', 'status']);
  const { phase, seat } = log.status();
  const last = phase === 'open' && seat === 'writer' ? log.lastAct() : undefined;
  if (!last || !of.has(last.act.type)) return null;
  if (Object.entries(about).some(([fact, value]) => last.act[fact] !== value)) return null;
  const { stream } = last.act;
  const whose = typeof stream === 'string' ? (views.client(log, stream)?.short ?? '') : '';
  return (
    <button
      type="button"
      class="button button-plain"
      onClick={() => {
        const undone = log.undo();
        if (undone) say(undoneSentence(undone.changedSince));
      }}
    >
      {undoText(last.act, whose)}
    </button>
  );
}
