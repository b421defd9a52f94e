import { useEffect, useState } from 'preact/hooks';
import { MOST_ALIAS } from '../../domain/client';
import { instantAt } from '../../domain/day';
import { PRIVATE_TOPICS, type PrivateTopic } from '../../domain/private';
import { useApp, useWatch } from '../app';
import { DEMO } from '../demoWords';
import { SealedFile, useSealed } from '../desk/SealedBackup';
import { Chip, ChipRow } from '../parts/Chip';
import { NoClient } from '../parts/NoClient';
import { PageHead } from '../parts/PageHead';
import { TextField } from '../parts/TextField';
import { WorkBar } from '../parts/useWork';
import { EraseClient } from './EraseClient';
import '../desk/seal.css';

const TOPIC = {
  notes: 'private notes',
  pain: 'pain',
  arrival: 'how they came in',
} as const satisfies Record<PrivateTopic, string>;

const MOST = { to: MOST_ALIAS, sender: MOST_ALIAS, consent: 500 } as const;

/** One client's record for another trainer: what goes along is ticked, and that the client agreed is written down. */
export function HandOver({ stream }: { stream: string }) {
  const { log, views, demo } = useApp();
  useWatch(['status', 'kind:client', 'kind:session']);
  const client = views.client(log, stream);
  const isRunning = views.sessionsInMemory(log).some((one) => one.stream === stream && !one.session.end);
  if (!client) return <NoClient />;
  if (demo.shown)
    return (
      <main class="page">
        <PageHead title="Hand over" />
        <p>{DEMO.noFiles}</p>
      </main>
    );
  if (isRunning)
    return (
      <main class="page">
        <PageHead title={`Hand over ${client.alias}`} />
        <p>A session of this client is running. End it first: it would run on there.</p>
      </main>
    );
  return <HandOverClient stream={stream} alias={client.alias} />;
}

function HandOverClient({ stream, alias }: { stream: string; alias: string }) {
  const { name, world, sealing } = useApp();
  const made = useSealed();
  const [fields, setFields] = useState({ to: '', sender: '', consent: '' });
  const [ticked, setTicked] = useState<ReadonlySet<PrivateTopic>>(new Set());
  const [faults, setFaults] = useState<Partial<Record<keyof typeof MOST, string>>>({});
  const [handedTo, setHandedTo] = useState<string>();
  useEffect(() => {
    // handed over before, on another day perhaps: the stub can still be kept
    void sealing()
      .then((own) => own.keys())
      .then((keys) => {
        const before =
          typeof keys !== 'string' &&
          keys.sealed.some((one) => one.what === 'handover' && one.streams.includes(stream));
        if (before) setHandedTo((to) => to ?? '');
      })
      .catch(() => undefined);
  }, [sealing, stream]);
  const put = (field: keyof typeof MOST) => (text: string) => setFields({ ...fields, [field]: text });
  const toggle = (topic: PrivateTopic): void => {
    const next = new Set(ticked);
    if (!next.delete(topic)) next.add(topic);
    setTicked(next);
  };
  const seal = (): void => {
    const found = faultsIn(fields);
    setFaults(found);
    if (Object.keys(found).length > 0) return;
    made.seal({
      what: 'handover',
      stream,
      sender: fields.sender.trim(),
      consent: fields.consent.trim(),
      with: ticked,
    });
  };
  return (
    <main class="page">
      <PageHead title={`Hand over ${alias}`} />
      <p class="hint">
        For a trainer who takes over: one file with this client’s record and the exercises and cues it names. They open
        it under Bring a file in; what they log can come back to you the same way.
      </p>
      <section class="card" aria-label="hand over">
        {made.sealed ? (
          <>
            <SealedFile
              sealed={made.sealed}
              fileName={`${name}-hand-over-${instantAt(world.now(), world.zone()).day}.age`}
              said="File handed over."
              after={() => setHandedTo(fields.to.trim())}
            />
            {made.sealed.mark ? (
              <p class="hint">
                This device’s mark is <b>{made.sealed.mark}</b>: they see it too, and you can compare.
              </p>
            ) : null}
            <p>Tell the words by telephone or on paper: never in the message that carries the file.</p>
            <button type="button" class="button button-plain" onClick={made.again}>
              Change what goes along
            </button>
          </>
        ) : (
          <form
            class="seal-form"
            onSubmit={(event) => {
              event.preventDefault();
              seal();
            }}
          >
            <h2>What goes along</h2>
            <p>
              Sessions, sets, results, templates and restrictions always do: whoever trains them has to know what must
              not be done. The rest is private, and goes only where it is ticked.
            </p>
            <ChipRow label="private things that go along" of="many">
              {PRIVATE_TOPICS.map((topic) => (
                <Chip key={topic} chosen={ticked.has(topic)} onTap={() => toggle(topic)}>
                  {TOPIC[topic]}
                </Chip>
              ))}
            </ChipRow>
            <TextField
              label="What was agreed with the client, and when"
              value={fields.consent}
              onText={put('consent')}
              lines="many"
              fault={faults.consent}
              hint="It stands in the file. Handing on what you know of somebody needs their consent; local rules apply."
            />
            <TextField
              label="To whom"
              value={fields.to}
              onText={put('to')}
              fault={faults.to}
              hint="Stays on this device."
            />
            <TextField
              label="From whom"
              value={fields.sender}
              onText={put('sender')}
              fault={faults.sender}
              hint="They see it."
            />
            <WorkBar work={made.work} what="Sealing the file…" />
            <button type="submit" class="button button-act" disabled={made.work.busy}>
              Prepare the sealed file
            </button>
          </form>
        )}
        {made.fault ? (
          <p class="fault" role="alert">
            {made.fault}
          </p>
        ) : null}
      </section>
      {handedTo !== undefined ? (
        <EraseClient stream={stream} alias={alias} handedTo={handedTo || fields.to.trim().slice(0, MOST.to)} />
      ) : null}
    </main>
  );
}

function faultsIn(fields: Record<keyof typeof MOST, string>): Partial<Record<keyof typeof MOST, string>> {
  const tooLong = Object.entries(MOST).flatMap(([field, most]) => {
    const has = fields[field as keyof typeof MOST].trim().length;
    return has > most ? [[field, `At most ${most} characters; here are ${has}.`]] : [];
  });
  const empty = fields.consent.trim() === '' ? { consent: 'Say what was agreed with the client.' } : {};
  return { ...empty, ...Object.fromEntries(tooLong) };
}
