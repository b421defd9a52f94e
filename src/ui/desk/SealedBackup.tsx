import { useEffect, useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp } from '../app';
import { countOf } from '../format';
import { FileOut } from '../parts/FileOut';
import { useWork, WorkBar } from '../parts/useWork';
import { go } from '../routes';
import type { KeysState, Sealed, SealOrder } from '../sealing';
import { doorFaultSentence, sealFaultSentence, WENT_WRONG } from '../sealWords';
import { Words } from './Words';

/** Everything as a sealed file: the backup to make once a week. Its seven words stay the same, and are shown again at any time. */
export function SealedBackup() {
  const { sealing, name, world } = useApp();
  const [keys, setKeys] = useState<KeysState>();
  const [shown, setShown] = useState(false);
  const made = useSealed(() => void look());
  const look = async () => {
    const state = await (await sealing()).keys();
    if (typeof state !== 'string') setKeys(state);
  };
  useEffect(() => void look(), []);
  const words = keys?.words;
  return (
    <section class="card" aria-label="sealed backup">
      <h2>A sealed backup</h2>
      <p>
        Everything in one file that only its seven words open. Put it where the phone cannot take it along: a mail to
        yourself, a drive, the laptop.
      </p>
      {made.sealed ? (
        <SealedFile
          sealed={made.sealed}
          fileName={`${name}-${instantAt(world.now(), world.zone()).day}.age`}
          said="Backup file handed over."
        />
      ) : (
        <>
          <WorkBar work={made.work} what="Sealing the file…" />
          {made.work.busy ? null : (
            <button type="button" class="button button-act" onClick={() => made.seal({ what: 'vault' })}>
              Prepare the sealed file
            </button>
          )}
          {words && !made.work.busy ? (
            shown ? (
              <>
                <Words words={words} />
                <NewWords changed={() => void look()} />
              </>
            ) : (
              <button type="button" class="button button-plain" onClick={() => setShown(true)}>
                Show the seven words
              </button>
            )
          ) : null}
        </>
      )}
      {made.fault ? (
        <p class="fault" role="alert">
          {made.fault}
        </p>
      ) : null}
      {keys?.locked ? (
        <button type="button" class="button" onClick={() => go({ page: 'keys' })}>
          Open the new keys
        </button>
      ) : null}
    </section>
  );
}

/** New words, where somebody else may have read the old ones. Files that were made before keep theirs. */
function NewWords({ changed }: { changed: () => void }) {
  const { sealing } = useApp();
  const [sure, setSure] = useState(false);
  const [fault, setFault] = useState<string>();
  const draw = async (): Promise<void> => {
    const drawn = await (await sealing()).newWords();
    setFault(drawn.ok ? undefined : doorFaultSentence(drawn.error));
    setSure(false);
    changed();
  };
  return (
    <>
      {sure ? <p>Backups from now on have new words. Those made before keep the old ones: keep both papers.</p> : null}
      <button type="button" class="button button-plain" onClick={sure ? () => void draw() : () => setSure(true)}>
        {sure ? 'Draw new words' : 'New words…'}
      </button>
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
    </>
  );
}

/** Returns what it takes to seal a file on a screen, and what came of it. `after` runs once it is sealed. */
export function useSealed(after: () => void = () => undefined) {
  const { sealing } = useApp();
  const work = useWork();
  const [sealed, setSealed] = useState<Sealed>();
  const [fault, setFault] = useState<string>();
  const seal = async (order: SealOrder): Promise<void> => {
    setFault(undefined);
    const made = await work.run(async (watch) => (await sealing()).seal(order, watch)).catch(() => undefined);
    if (!made?.ok) return setFault(made ? sealFaultSentence(made.error) : WENT_WRONG);
    setSealed(made.value);
    after();
  };
  return { work, sealed, fault, seal: (order: SealOrder) => void seal(order), again: () => setSealed(undefined) };
}

type SealedFileProps = {
  readonly sealed: Sealed;
  readonly fileName: string;
  readonly said: string;
  readonly after?: () => void;
};

/** A file that was sealed: its words, what is in it, and the tap that hands it over. */
export function SealedFile({ sealed, fileName, said, after }: SealedFileProps) {
  const { rows, file, words, unreadable, leftOut } = sealed;
  return (
    <>
      <p>
        <strong>Write the seven words down, on paper.</strong> Without them nobody opens the file, you neither.
      </p>
      <Words words={words} />
      <p class="hint">
        {countOf(rows, 'record')}, {Math.ceil(file.size / 1024)} kB.
        {leftOut > 0 ? ` ${countOf(leftOut, 'private value')} left out.` : ''}
      </p>
      {unreadable > 0 ? (
        <p class="fault">
          {countOf(unreadable, 'record')} cannot be read by this version and {unreadable === 1 ? 'is' : 'are'} not in
          it: the plain file below carries {unreadable === 1 ? 'it' : 'them'} as{' '}
          {unreadable === 1 ? 'it is' : 'they are'}.
        </p>
      ) : null}
      <FileOut
        blob={file}
        fileName={fileName}
        said={said}
        done={async () => {
          await sealed.handedOver();
          after?.();
        }}
      />
    </>
  );
}
