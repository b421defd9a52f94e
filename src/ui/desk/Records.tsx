import type { ComponentChildren } from 'preact';
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { Beside } from '../../log/beside';
import type { Finds, Found, Records as Gathered } from '../../log/recordActs';
import type { Removed, RemovedAndWritten } from '../../log/removed';
import { useApp, useWatch } from '../app';
import { number } from '../format';
import { PageHead } from '../parts/PageHead';
import { say } from '../parts/say';
import { UndoLast } from '../parts/UndoLast';
import { deviceWords, RECORDS, stampWords, whereWords } from '../recordWords';
import { BesideChoice } from './BesideChoice';
import { Mendings } from './Mendings';
import { Stubs } from './Stubs';
import { Where } from './Where';
import { gather, namesIn } from './waiting';

/** What someone has to look at: values written on two devices, removals that met edits, what needs mending, what can be brought back. */
export function Records() {
  const { log } = useApp();
  useWatch(['status', 'kind:client', 'kind:settings']);
  const { found, failed, again } = useGathered();
  const { phase, seat } = log.status();
  const canWrite = phase === 'open' && seat === 'writer';
  return (
    <main class="page">
      <PageHead title="Records" />
      <p class="hint">{RECORDS.intro}</p>
      {phase === 'open' && seat === 'follower' ? (
        <p class="fault" role="alert">
          {RECORDS.follower}
        </p>
      ) : null}
      {failed ? (
        <section class="card">
          <p class="fault" role="alert">
            {RECORDS.unread}
          </p>
          <button type="button" class="button" onClick={again}>
            Try again
          </button>
        </section>
      ) : null}
      <UndoLast of={HERE} />
      {found ? <Sections found={found} canWrite={canWrite} /> : null}
      <Stubs canWrite={canWrite} />
    </main>
  );
}

/** What was gathered last, and again after every act and whatever another tab wrote. A gathering that was overtaken is dropped. */
function useGathered() {
  const app = useApp();
  const { log } = app;
  const [found, setFound] = useState<Gathered>();
  const [failed, setFailed] = useState(false);
  const turn = useRef(0);
  const look = useCallback(async () => {
    turn.current += 1;
    const own = turn.current;
    await log.ready;
    const gathered = await gather(app);
    if (own !== turn.current) return;
    setFailed(!gathered);
    if (gathered) setFound(gathered);
  }, [app, log]);
  useEffect(() => {
    void look();
    return log.watch(['undo', 'kind:session', 'kind:client', 'kind:exercise', 'kind:erased'], () => void look());
  }, [log, look]);
  return { found, failed, again: () => void look() };
}

/** What was settled has its own list: another of the values can be chosen there. */
const HERE = new Set(['bring-back', 'remove-again', 'remove-stub']);

function Sections({ found, canWrite }: { found: Gathered; canWrite: boolean }) {
  const { beside, settled, both, mending, removed } = found;
  return (
    <>
      {beside.count + both.count + mending.count === 0 ? <p>{RECORDS.nothing}</p> : null}
      <Besides title={RECORDS.beside} hint={RECORDS.besideHint} found={beside} canWrite={canWrite} as="open" />
      {both.count > 0 ? <Both found={both.list} of={both.count} canWrite={canWrite} /> : null}
      <Mendings found={mending} />
      <Besides title={RECORDS.settled} hint={RECORDS.settledHint} found={settled} canWrite={canWrite} as="settled" />
      <Gone found={removed.list} of={removed.count} canWrite={canWrite} />
    </>
  );
}

type BesidesProps = {
  readonly title: string;
  readonly hint: string;
  readonly found: Finds<Beside>;
  readonly canWrite: boolean;
  readonly as: 'open' | 'settled';
};

function Besides({ title, hint, found, canWrite, as }: BesidesProps) {
  if (found.count === 0) return null;
  return (
    <section class="card" aria-label={title}>
      <h2>{title}</h2>
      <p class="hint">{hint}</p>
      <ul class="records-list" inert={!canWrite}>
        {found.list.map((one) => (
          <li key={`${keyOf(one)}/${one.path}`}>
            <BesideChoice found={one} as={as} whole />
          </li>
        ))}
      </ul>
      <More shown={found.list.length} of={found.count} />
    </section>
  );
}

type ListProps<T> = { readonly found: readonly Found<T>[]; readonly of: number; readonly canWrite: boolean };

function Both({ found, of, canWrite }: ListProps<RemovedAndWritten>) {
  const { log, acts, world } = useApp();
  return (
    <FoundList
      title={RECORDS.both}
      hint={RECORDS.bothHint}
      found={found}
      of={of}
      said={(one) => (
        <>
          Removed on <Who stamp={one.by} />, {stampWords(one.by, world.zone())}; edited on <Who stamp={one.written} />,{' '}
          {stampWords(one.written, world.zone())}.
        </>
      )}
      acts={[
        { name: 'Keep it', run: (one) => void acts.bringBackFound(log, one), done: 'Kept.' },
        {
          name: 'Remove it again',
          run: (one) => void acts.removeAgain(log, one),
          done: 'Removed again. Undo brings it back.',
        },
      ]}
      canWrite={canWrite}
    />
  );
}

function Gone({ found, of, canWrite }: ListProps<Removed>) {
  const { log, acts, world } = useApp();
  return (
    <FoundList
      title={RECORDS.removed}
      hint={of === 0 ? RECORDS.noneRemoved : undefined}
      found={found}
      of={of}
      said={(one) => (
        <>
          Removed on <Who stamp={one.by} />, {stampWords(one.by, world.zone())}.
        </>
      )}
      acts={[
        {
          name: 'Bring it back',
          run: (one) => void acts.bringBackFound(log, one),
          done: 'Brought back. Undo removes it again.',
        },
      ]}
      canWrite={canWrite}
    />
  );
}

type FoundListProps<T extends Removed> = ListProps<T> & {
  readonly title: string;
  readonly hint: string | undefined;
  readonly said: (one: Found<T>) => ComponentChildren;
  /** What can be done with one: its button, and what is said then. */
  readonly acts: readonly { readonly name: string; readonly run: (one: Found<T>) => void; readonly done: string }[];
};

/** Things that were removed, where they are, and a button for each thing that can be done with one. */
function FoundList<T extends Removed>({ title, hint, found, of, said, acts, canWrite }: FoundListProps<T>) {
  const app = useApp();
  return (
    <section class="card" aria-label={title}>
      <h2>{title}</h2>
      {hint === undefined ? null : <p class="hint">{hint}</p>}
      <ul class="records-list">
        {found.map((one) => {
          const where = whereWords(namesIn(app), one.row, one.thing);
          return (
            <li key={`${keyOf(one)}/${one.thing}`}>
              <p>
                <Where text={where} />
              </p>
              <p class="hint">{said(one)}</p>
              <div class="chips">
                {acts.map(({ name, run, done }) => (
                  <button
                    key={name}
                    type="button"
                    class="button"
                    aria-label={`${name}: ${where}`}
                    disabled={!canWrite}
                    onClick={() => {
                      run(one);
                      say(done);
                    }}
                  >
                    {name}
                  </button>
                ))}
              </div>
            </li>
          );
        })}
      </ul>
      <More shown={found.length} of={of} />
    </section>
  );
}

function Who({ stamp }: { stamp: Removed['by'] }) {
  const { log, acts } = useApp();
  return <>{deviceWords(acts.deviceOf(stamp.writer), acts.deviceNames(log), acts.thisDevice(log))}</>;
}

/** A list is never cut off without a word. */
function More({ shown, of }: { shown: number; of: number }) {
  return of > shown ? <p class="hint">And {number(of - shown)} more, shown once these are settled.</p> : null;
}

const keyOf = ({ row }: { row: { stream: string; id: string } }): string => `${row.stream}/${row.id}`;
