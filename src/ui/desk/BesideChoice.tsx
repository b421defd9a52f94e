import type { Beside } from '../../log/beside';
import type { Found } from '../../log/recordActs';
import { useApp } from '../app';
import { say } from '../parts/say';
import { deviceWords, pathWords, RECORDS, stampWords, valueWords, whereWords } from '../recordWords';
import { Where } from './Where';
import { namesIn } from './waiting';
import './records.css';

type BesideChoiceProps = {
  readonly found: Found<Beside>;
  /** Still open, or settled and to be changed after all. */
  readonly as: 'open' | 'settled';
  /** Whether it says whose and of what it is: where that is not plain from the place it stands in. */
  readonly whole?: boolean;
};

/** Values that stand, or stood, beside each other, each with who wrote it and when; a tap on one settles it. */
export function BesideChoice({ found, as, whole = false }: BesideChoiceProps) {
  const app = useApp();
  const { log, acts, world } = app;
  const names = namesIn(app);
  const devices = acts.deviceNames(log);
  const field = pathWords(found.name.kind, found.path);
  return (
    <fieldset class="records-choice">
      <legend>
        {whole ? (
          <>
            <Where text={whereWords(names, found.row, found.path)} />
            {' · '}
          </>
        ) : null}
        <b>{field}</b>
      </legend>
      {[found.shown, ...found.others].map(({ value, stamp }, at) => (
        <button
          key={`${stamp.l}/${stamp.writer}`}
          type="button"
          class="button records-value"
          {...(as === 'settled' ? { 'aria-pressed': at === 0 } : {})}
          onClick={() => {
            void acts.settleFound(log, found, value);
            say(RECORDS.said);
          }}
        >
          <b dir="auto">{valueWords(names, found.path, value)}</b>
          <span class="hint">
            {deviceWords(acts.deviceOf(stamp.writer), devices, acts.thisDevice(log))}, {stampWords(stamp, world.zone())}
            {at > 0 ? '' : as === 'open' ? ' · shown now' : ' · chosen'}
          </span>
        </button>
      ))}
    </fieldset>
  );
}
