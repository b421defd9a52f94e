import { useEffect, useState } from 'preact/hooks';
import { instantAt } from '../../domain/day';
import { useApp } from '../app';
import { countOf, dayLong, timeOfDay } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { useWork, WorkBar } from '../parts/useWork';
import type { Look, OpenedFile } from '../sealing';
import { fileFaultSentence, lookLines, refusedLines, signatureSentence } from '../sealWords';
import { saveFaultSentence } from '../storeWords';
import { SecretForm } from './SecretForm';

type Props = {
  readonly opened: OpenedFile;
  readonly leave: () => void;
  /** Called once all of it is in the log. */
  readonly finish: (done: Done) => void;
};

/** What was taken in, how many values now stand beside others, and whether the last act that can be taken back is this one. */
export type Done = { readonly said: string; readonly beside: number; readonly canUndo: boolean };

/** An opened file: whose it is, what taking it in would do, and the one tap that does. */
export function TakeIn({ opened, leave, finish }: Props) {
  const { world } = useApp();
  const [joined, setJoined] = useState(opened.whose !== 'keys');
  const made = opened.at === undefined ? undefined : instantAt(opened.at, world.zone());
  return (
    <section class="card seal-opened" aria-label="the file">
      <h2>{TITLES[opened.whose === 'plain' ? 'plain' : opened.what]}</h2>
      {made && opened.at !== undefined ? (
        <p>
          Made {dayLong(made.day)}, {timeOfDay(opened.at, world.zone())}
          {opened.from ? (
            <>
              , by <b dir="auto">{opened.from}</b>
            </>
          ) : null}
          .
        </p>
      ) : null}
      {opened.clients.length > 0 ? <Clients opened={opened} /> : null}
      {opened.consent ? (
        <p>
          Agreed with the client: <q dir="auto">{opened.consent}</q>
        </p>
      ) : null}
      {joined ? (
        <Looked opened={opened} leave={leave} finish={finish} />
      ) : (
        <Join opened={opened} done={() => setJoined(true)} />
      )}
    </section>
  );
}

const TITLES = {
  vault: 'A backup of everything',
  clients: 'Some clients',
  handover: 'A client handed over',
  plain: 'A plain file',
} as const;

const MOST_NAMED = 12;

function Clients({ opened }: { opened: OpenedFile }) {
  const names = opened.clients.slice(0, MOST_NAMED);
  const more = opened.clients.length - names.length;
  const withheld = new Set(opened.clients.flatMap((client) => client.withheld));
  return (
    <>
      <p>
        {names.map(({ stream, name }, index) => (
          <span key={stream}>
            {index > 0 ? ', ' : ''}
            <bdi>{name || 'a client without a name'}</bdi>
          </span>
        ))}
        {more > 0 ? ` and ${more} more` : ''}
      </p>
      {withheld.size > 0 ? (
        <p class="hint">Left out as private: {[...withheld].map((topic) => TOPICS[topic] ?? topic).join(', ')}.</p>
      ) : null}
    </>
  );
}

const TOPICS: Readonly<Record<string, string>> = {
  notes: 'notes',
  pain: 'pain, and what was done about it',
  arrival: 'how they came in',
};

/** A backup of keys that are not on this device: with its code this one becomes one of the trainer’s devices. */
function Join({ opened, done }: { opened: OpenedFile; done: () => void }) {
  return (
    <>
      <p>Is it yours? Then its recovery code, or your passphrase, makes this device one of your devices.</p>
      <SecretForm
        act="It is mine"
        attempt={opened.join}
        done={done}
        beside={(busy) => (
          <button type="button" class="button" disabled={busy} onClick={done}>
            Go on without
          </button>
        )}
      />
      <p class="hint">Without it the records come in all the same; this device then keeps keys of its own.</p>
    </>
  );
}

function Looked({ opened, leave, finish }: Props) {
  const { log, views, sealing } = useApp();
  const work = useWork();
  const [look, setLook] = useState<Look>();
  const [fault, setFault] = useState<string>();
  const [asNew, setAsNew] = useState<readonly string[]>([]);
  const [theirLibrary, setTheirLibrary] = useState(false);
  const [writing, setWriting] = useState(false);
  useEffect(() => {
    setLook(undefined);
    setFault(undefined);
    void work
      .run(async (watch) => {
        await log.ready;
        return opened.look({ asNew, theirLibrary }, watch);
      })
      .then(
        (result) => (result.ok ? setLook(result.value) : setFault(fileFaultSentence(result.error))),
        () => setFault(WENT_WRONG),
      );
  }, [asNew, theirLibrary]);
  const nameOf = (stream: string) => opened.clients.find((one) => one.stream === stream)?.name || 'a client';
  const commit = async (ready: Look): Promise<void> => {
    setWriting(true);
    const before = log.lastAct()?.n;
    const saved = await work.run((watch) => ready.commit(watch.tick));
    setWriting(false);
    if (!saved.ok)
      return setFault(
        `Not all of it is saved: ${saveFaultSentence(saved.error)}. Open the file again to bring in the rest.`,
      );
    const { new: fresh, changed, erases, keptBeside } = ready.report;
    if (erases.length > 0)
      await sealing().then(
        (own) => own.forgetErased(),
        () => undefined,
      );
    finish({
      said: `Taken in: ${countOf(fresh, 'new record')}, ${changed} changed.`,
      beside: keptBeside,
      canUndo: log.lastAct()?.n !== before,
    });
  };
  if (work.busy) return <WorkBar work={work} what={writing ? 'Writing…' : 'Looking through it…'} fixed={writing} />;
  if (fault)
    return (
      <>
        <p class="fault" role="alert">
          {fault}
        </p>
        <button type="button" class="button" onClick={leave}>
          Another file
        </button>
      </>
    );
  if (!look) return null;
  const { report } = look;
  const { seat, phase } = log.status();
  const count = report.new + report.changed;
  const known = opened.clients.flatMap(({ stream }) => views.client(log, stream)?.alias ?? []);
  const erases = report.erases.map((stream) => views.client(log, stream)?.alias ?? 'a client');
  return (
    <>
      <p class="hint">{signatureSentence(look.signature)}</p>
      {opened.whose === 'newer-keys' ? (
        <p>Another of your devices made new keys. Bring a backup of everything in from there first, with its code.</p>
      ) : null}
      {known.length > 0 && opened.whose !== 'own' ? (
        <p>
          It would write into the record of <b dir="auto">{known.join(', ')}</b>, whom you have.
        </p>
      ) : null}
      <h3>What taking it in would do</h3>
      <ul class="seal-look">
        {lookLines(look).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {look.told.length > 0 ? (
        <ul class="hint">
          {refusedLines(look.told).map((line) => (
            <li key={line}>– {line}</li>
          ))}
        </ul>
      ) : null}
      {report.erased.length > 0 || asNew.length > 0 ? (
        <Erased
          names={(report.erased.length > 0 ? report.erased : asNew).map(nameOf)}
          isNew={asNew.length > 0}
          toggle={() => setAsNew(asNew.length > 0 ? [] : report.erased)}
        />
      ) : null}
      {look.libraryKept > 0 || theirLibrary ? (
        <ChipRow label="the library">
          <Chip chosen={!theirLibrary} onTap={() => setTheirLibrary(false)}>
            keep my library as it is
          </Chip>
          <Chip chosen={theirLibrary} onTap={() => setTheirLibrary(true)}>
            take theirs beside mine
          </Chip>
        </ChipRow>
      ) : null}
      {erases.length > 0 ? (
        <p class="fault" role="alert">
          It erases for good, as was done on the other device: {erases.join(', ')}. That has no undo.
        </p>
      ) : null}
      {look.bringsKeys ? (
        <p class="hint">
          This device becomes one of the sender’s devices. Keys it had of its own are put away: their code opens nothing
          any more.
        </p>
      ) : null}
      {report.canUndo ? null : (
        <p class="hint">So many records have no undo. Save a backup first, if anything is here already.</p>
      )}
      <div class="chips chips-wrap">
        {count === 0 && !look.bringsKeys ? (
          <p>
            <strong>Nothing to take in: all of it is here already.</strong>
          </p>
        ) : (
          <button
            type="button"
            class="button button-act"
            disabled={phase !== 'open' || seat !== 'writer'}
            onClick={() => void commit(look)}
          >
            {erases.length > 0 ? 'Take it in, and erase' : count === 0 ? 'Take the keys' : 'Take it in'}
          </button>
        )}
        <button type="button" class="button" onClick={leave}>
          {count === 0 && !look.bringsKeys ? 'Another file' : 'Leave it'}
        </button>
      </div>
    </>
  );
}

const WENT_WRONG =
  'The file could not be read to its end: it was moved, or this device ran out of memory. Nothing was changed.';

function Erased({ names, isNew, toggle }: { names: readonly string[]; isNew: boolean; toggle: () => void }) {
  return (
    <>
      <p>
        Erased here before: <b dir="auto">{names.join(', ')}</b>.{' '}
        {isNew ? 'The records come in as a new client.' : 'They stay out.'}
      </p>
      <button type="button" class="button" onClick={toggle}>
        {isNew ? 'Leave them out' : 'Take them in as a new client'}
      </button>
    </>
  );
}
