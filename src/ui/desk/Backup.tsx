import { useEffect, useState } from 'preact/hooks';
import { daysBetween, instantAt } from '../../domain/day';
import type { Export } from '../../log/export';
import { useApp, useWatch } from '../app';
import { DEMO } from '../demoWords';
import { countOf } from '../format';
import { onlyHere, STORAGE_IN_THREE, WHAT_IS_A_RECORD } from '../installWords';
import { DemoOffer } from '../parts/DemoOffer';
import { FileOut } from '../parts/FileOut';
import { PageHead } from '../parts/PageHead';
import { RECORDS } from '../recordWords';
import { go } from '../routes';
import { openFaultSentence } from '../storeWords';
import { backupText } from '../words';
import { InstallHint } from './InstallHint';
import { SealedBackup } from './SealedBackup';
import { SealSome } from './SealSome';
import './seal.css';
import { LockCard } from './LockCard';
import { VersionCard } from './VersionCard';

const PERSISTED = {
  kept: 'The browser has promised to keep them when space runs out.',
  'may-be-cleared': 'The browser may clear them when space runs out: install the app, and save a backup file often.',
  unknown: 'The browser does not say whether it keeps them when space runs out: save a backup file often.',
} as const;

/** What is on this phone and nowhere else, and everything as a file. Works when the log will not open. */
export function Backup() {
  const { log, world, demo } = useApp();
  useWatch(['status']);
  const status = log.status();
  const day = (at: number) => instantAt(at, world.zone()).day;
  const days = status.lastBackup === null ? null : Math.max(0, daysBetween(day(status.lastBackup), day(world.now())));
  return (
    <main class="page">
      <PageHead title="Backup" />
      {status.phase === 'cannot-open' || status.phase === 'yielded' ? (
        <p class="fault" role="alert">
          {openFaultSentence(status.openFault)}
        </p>
      ) : null}
      <section class="card">
        <h2>Where the records are</h2>
        {demo.shown ? (
          <p>
            <strong>{DEMO.noBackup}</strong>
          </p>
        ) : (
          <>
            {STORAGE_IN_THREE.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
            <p>
              <strong>{sentenceCase(backupText(days))}.</strong>
            </p>
            <OnlyHere />
            <p class="hint">{PERSISTED[status.persisted]}</p>
          </>
        )}
        <p class="hint">They are not encrypted: the phone’s own lock and encryption protect them.</p>
        {status.broughtBack > 0 ? (
          <p>At this start {countOf(status.broughtBack, 'record')} came back from the second copy.</p>
        ) : null}
        {status.unreadable > 0 ? (
          <p class="fault">
            {countOf(status.unreadable, 'record')} cannot be read by this version; a file carries them as they are.
          </p>
        ) : null}
      </section>
      {demo.shown ? null : (
        <>
          <SealedBackup />
          <section class="card" aria-label="files in">
            <h2>A file comes in</h2>
            <p class="hint">
              A backup of yours, on a new phone or the laptop; a client that another trainer hands you.
            </p>
            <button type="button" class="button" onClick={() => go({ page: 'bring-in' })}>
              Bring a file in
            </button>
          </section>
          <section class="card" aria-label="keys">
            <h2>Keys</h2>
            <p class="hint">The recovery code, a passphrase, and what to do when a phone is lost.</p>
            <button type="button" class="button" onClick={() => go({ page: 'keys' })}>
              Keys, and a lost phone
            </button>
          </section>
          <SealSome />
        </>
      )}
      <SaveFile />
      <section class="card" aria-label="records">
        <h2>Records</h2>
        <p class="hint">{RECORDS.intro}</p>
        <button type="button" class="button" onClick={() => go({ page: 'records' })}>
          To settle, to mend, to bring back
        </button>
      </section>
      {demo.shown ? null : <LockCard />}
      <DemoOffer />
      {demo.shown ? null : <InstallHint toBackup={false} />}
      <VersionCard />
    </main>
  );
}

/** What a lost device would take along. */
function OnlyHere() {
  const { log } = useApp();
  useWatch(['status']);
  const [rows, setRows] = useState<number>();
  const { lastBackup } = log.status();
  useEffect(() => void log.ready.then(log.onlyHere).then(setRows), [log, lastBackup]);
  if (!rows) return null;
  return (
    <>
      <p>{sentenceCase(onlyHere(rows))}.</p>
      <p class="hint">{WHAT_IS_A_RECORD}</p>
    </>
  );
}

const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Two taps: prepare, then save or share. A share that comes too long after its tap is dropped by some browsers. */
function SaveFile() {
  const { log, world, acts, name } = useApp();
  const [made, setMade] = useState<Export>();
  const [preparing, setPreparing] = useState(false);
  const [failed, setFailed] = useState(false);
  const fileName = `${name}-${instantAt(world.now(), world.zone()).day}.jsonl`;
  const prepare = async () => {
    setPreparing(true);
    setFailed(false);
    try {
      setMade(await acts.exportLog(name, log.all(), world.now()));
    } catch {
      setFailed(true);
    } finally {
      setPreparing(false);
    }
  };
  return (
    <section class="card">
      <h2>Everything as a plain file</h2>
      <p class="hint">One line a record, readable text (JSON Lines), not sealed. Keep it where only you can read it.</p>
      {made ? (
        <>
          <p>
            {countOf(made.rows, 'record')}, {Math.ceil(made.blob.size / 1024)} kB.
            {made.unreadable > 0
              ? ` ${countOf(made.unreadable, 'record')} this version cannot read are in it as they are.`
              : ''}
          </p>
          {made.databaseRead ? null : (
            <p class="fault" role="alert">
              The browser’s storage did not answer: this file holds only what was on the screen and in the second copy.
            </p>
          )}
          <FileOut
            blob={made.blob}
            fileName={fileName}
            said="Backup file handed over."
            done={async () => {
              if (made.databaseRead) await log.backedUp(world.now(), made.held);
            }}
          />
        </>
      ) : (
        <button type="button" class="button button-act" disabled={preparing} onClick={prepare}>
          {preparing ? 'Preparing…' : 'Prepare the file'}
        </button>
      )}
      {failed ? (
        <p class="fault" role="alert">
          The file could not be made. Try again; nothing is lost.
        </p>
      ) : null}
    </section>
  );
}
