import { useEffect, useState } from 'preact/hooks';
import { useApp, useWatch } from '../app';
import { DEMO } from '../demoWords';
import { PageHead } from '../parts/PageHead';
import { TextField } from '../parts/TextField';
import { UndoLast } from '../parts/UndoLast';
import { useWork, WorkBar } from '../parts/useWork';
import { go } from '../routes';
import type { OpenedFile } from '../sealing';
import { besideSentence, fileFaultSentence } from '../sealWords';
import { type Done, TakeIn } from './TakeIn';
import './seal.css';

const HERE = new Set(['import']);

/** A file comes in: chosen or dropped, opened with its words, looked at, and only then taken in. */
export function BringIn() {
  const { log, demo } = useApp();
  useWatch(['status', 'undo']);
  const { phase, seat } = log.status();
  const [file, setFile] = useState<Blob>();
  const [opened, setOpened] = useState<OpenedFile>();
  const [done, setDone] = useState<Done>();
  const [turn, setTurn] = useState(0);
  const begin = (next: Blob | undefined) => {
    setFile(next);
    // nothing that was typed for one file stays for the next
    setTurn(turn + 1);
    setOpened(undefined);
    setDone(undefined);
  };
  if (demo.shown)
    return (
      <main class="page">
        <PageHead title="Bring a file in" />
        <p>{DEMO.noFiles}</p>
      </main>
    );
  return (
    <main
      class="page"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        // text or a link is no file, and what was opened stays
        const dropped = event.dataTransfer?.files[0];
        if (dropped && !opened) begin(dropped);
      }}
    >
      <PageHead title="Bring a file in" />
      {phase === 'open' && seat === 'follower' ? (
        <p class="fault" role="alert">
          Another tab of this app is the one that writes: take the file in there.
        </p>
      ) : null}
      {done ? (
        <section class="card" aria-label="done">
          <p role="status">
            <strong>{done.said}</strong>
          </p>
          {done.beside > 0 ? (
            <>
              <p>{besideSentence(done.beside)}</p>
              <button type="button" class="button" onClick={() => go({ page: 'records' })}>
                Records
              </button>
            </>
          ) : null}
          {done.canUndo ? <UndoLast of={HERE} /> : null}
        </section>
      ) : null}
      {opened && file ? (
        <TakeIn
          key={opened.at}
          opened={opened}
          leave={() => begin(undefined)}
          finish={(result) => {
            begin(undefined);
            setDone(result);
          }}
        />
      ) : (
        <ChooseFile key={turn} file={file} choose={begin} open={setOpened} />
      )}
    </main>
  );
}

type ChooseProps = {
  readonly file: Blob | undefined;
  readonly choose: (file: Blob | undefined) => void;
  readonly open: (opened: OpenedFile) => void;
};

function ChooseFile({ file, choose, open }: ChooseProps) {
  const { sealing } = useApp();
  const work = useWork();
  const [kind, setKind] = useState<'sealed' | undefined>();
  const [words, setWords] = useState('');
  const [fault, setFault] = useState<string>();
  const openWith = async (blob: Blob, typed: string): Promise<void> => {
    setFault(undefined);
    const result = await work.run(async (watch) => (await sealing()).open(blob, typed, watch)).catch(() => undefined);
    if (!result) return setFault(NOT_OURS.unread);
    if (!result.ok) return setFault(fileFaultSentence(result.error));
    open(result.value);
  };
  useEffect(() => {
    if (!file) return;
    let isOther = false;
    void (async () => {
      const found = await (await sealing()).kindOf(file).catch(() => 'unread' as const);
      if (isOther) return;
      if (found === 'sealed') setKind('sealed');
      else if (found === 'plain') await openWith(file, '');
      else setFault(NOT_OURS[found]);
    })();
    return () => {
      isOther = true;
    };
  }, [file]);
  return (
    <section class="card" aria-label="choose a file">
      <p>
        A backup, or a client that somebody hands over. You see what it would change before anything is changed, and one
        undo takes it back.
      </p>
      <label class={`button seal-file${file ? '' : ' button-act'}`}>
        {file ? 'Another file' : 'Choose the file'}
        <input
          type="file"
          onChange={(event) => {
            choose(event.currentTarget.files?.[0]);
            // so that the same file can be chosen once more
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p class="hint seal-drop">On a computer it can be dropped on this page too.</p>
      {kind === 'sealed' && file ? (
        <form
          class="seal-form"
          onSubmit={(event) => {
            event.preventDefault();
            void openWith(file, words);
          }}
        >
          <TextField
            label="Its seven words"
            value={words}
            onText={setWords}
            lines="many"
            exact
            fault={fault}
            hint="Capitals, commas and dashes do not matter."
          />
          <WorkBar work={work} what="Opening the file…" />
          {work.busy ? null : (
            <button type="submit" class="button button-act">
              Open it
            </button>
          )}
        </form>
      ) : fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
    </section>
  );
}

const NOT_OURS = {
  empty: 'This file is empty. Nothing was changed.',
  other: 'This is no file of this app. Nothing was changed.',
  unread: 'The browser could not read this file. Choose it once more.',
} as const;
