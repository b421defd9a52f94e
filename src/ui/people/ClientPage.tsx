import { useEffect, useState } from 'preact/hooks';
import type { ClientFields } from '../../domain/client';
import { instantAt } from '../../domain/day';
import type { LoadUnit } from '../../domain/units';
import { useApp, useWatch } from '../app';
import { faultSentence } from '../faultWords';
import { dayShort, number } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { DaysToGo } from '../parts/DaysToGo';
import { NoClient } from '../parts/NoClient';
import { PageHead } from '../parts/PageHead';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { back, go } from '../routes';
import { CarePart } from './CarePart';
import { ClientTrends } from './ClientTrends';
import { EraseClient } from './EraseClient';
import { OtherAnswers } from './OtherAnswers';
import { Restrictions } from './Restrictions';

/** One client: a new one in a few taps, or what is known of one. */
export function ClientPage({ stream }: { stream: string | null }) {
  const { log, acts, views, world } = useApp();
  useWatch(['status', 'kind:client']);
  const client = stream === null ? undefined : views.client(log, stream);
  // one whose name cannot be read is mended here [M9]
  if (stream !== null && !client && !acts.needsName(log, stream)) return <NoClient />;
  const today = instantAt(world.now(), world.zone()).day;
  return (
    <main class={client ? 'page page-desk' : 'page'}>
      <PageHead title={client?.alias ?? (stream === null ? 'A new client' : 'A client without a name')} />
      <DaysToGo client={client} today={today} />
      {client ? (
        <>
          <div class="page-column">
            <ClientTrends stream={client.id} />
          </div>
          <div class="page-column">
            <OtherAnswers stream={client.id} />
          </div>
        </>
      ) : null}
      <div class="page-column">
        <div class="unprinted">
          <ClientForm
            key={stream ?? 'new'}
            stream={stream}
            start={{
              alias: client?.alias ?? '',
              short: client?.short ?? '',
              dayName: client?.date?.name ?? '',
              day: client?.date?.day ?? '',
            }}
          />
        </div>
        {stream === null ? null : (
          <>
            <Restrictions stream={stream} today={today} />
            <CarePart stream={stream} />
            <BodyMass stream={stream} today={today} />
            <div class="unprinted">
              {client ? (
                <section class="card" aria-label="hand over">
                  <button type="button" class="button button-plain" onClick={() => go({ page: 'hand-over', stream })}>
                    Hand over to another trainer…
                  </button>
                </section>
              ) : null}
              <RemoveClient stream={stream} />
              {client ? <EraseClient stream={stream} alias={client.alias} /> : null}
            </div>
          </>
        )}
      </div>
    </main>
  );
}

/** Removing asks once more: undo brings the client back, and no record is deleted. */
function RemoveClient({ stream }: { stream: string }) {
  const { log, acts } = useApp();
  const [sure, setSure] = useState(false);
  return (
    <section class="card" aria-label="remove">
      {sure ? (
        <>
          <p>The client goes from Today; sessions and all records stay on this phone, and undo brings them back.</p>
          <button
            type="button"
            class="button"
            onClick={() => {
              void acts.removeClient(log, stream);
              say('Client removed. Undo brings the client back.');
              back({ page: 'today' });
            }}
          >
            Remove the client
          </button>
        </>
      ) : (
        <button type="button" class="button button-plain" onClick={() => setSure(true)}>
          Remove this client…
        </button>
      )}
    </section>
  );
}

function ClientForm({ stream, start }: { stream: string | null; start: ClientFields }) {
  const { log, acts, world } = useApp();
  const [fields, setFields] = useState(start);
  const [fault, setFault] = useState<{ field: string; said: string }>();
  const at = (field: keyof ClientFields) => (fault?.field === field ? fault.said : undefined);
  const put = (field: keyof ClientFields) => (text: string) => setFields({ ...fields, [field]: text });
  const keep = async () => {
    await log.ready;
    const kept = acts.saveClient(log, fields, world, stream ?? undefined);
    if (!kept.ok) return setFault({ field: kept.error.field, said: faultSentence(kept.error) });
    say(stream === null ? 'Client added.' : 'Client kept.');
    back({ page: 'today' });
  };
  return (
    <form
      class="card"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <TextField label="Name; an alias is enough" value={fields.alias} onText={put('alias')} fault={at('alias')} />
      <TextField
        label="Short name for the tab"
        value={fields.short}
        onText={put('short')}
        fault={at('short')}
        hint="At most 6 characters; left empty, the last word of the name."
      />
      <TextField
        label="A day to work towards, such as opening"
        value={fields.dayName}
        onText={put('dayName')}
        fault={at('dayName')}
        hint="Optional."
      />
      <TextField label="When" value={fields.day} onText={put('day')} type="date" fault={at('day')} />
      <button type="submit" class="button button-act">
        {stream === null ? 'Add this client' : 'Keep these changes'}
      </button>
    </form>
  );
}

function BodyMass({ stream, today }: { stream: string; today: string }) {
  const { log, acts, views, world } = useApp();
  useWatch(['kind:result']);
  const [mass, setMass] = useState('');
  const [unit, setUnit] = useState<LoadUnit>(views.settings(log).load);
  const [day, setDay] = useState(today);
  const [fault, setFault] = useState<{ field: string; said: string }>();
  useEffect(() => {
    void log.ready.then(() => log.loadResults(stream));
  }, [log, stream]);
  const latest = acts.latestBodyMass(log, stream);
  const keep = () => {
    const noted = acts.noteBodyMass(log, stream, { mass, unit, day }, world);
    if (!noted.ok) return setFault({ field: noted.error.field, said: faultSentence(noted.error) });
    setFault(undefined);
    setMass('');
    say('Body mass noted.');
  };
  return (
    <section class="card" aria-label="body mass">
      <h2>Body mass</h2>
      <p class="hint">
        {latest ? `${number(latest.value)} ${latest.unit}, noted for ${dayShort(latest.day)}.` : 'Not noted.'}
      </p>
      <TextField
        label="Body mass"
        value={mass}
        onText={setMass}
        mode="decimal"
        fault={fault?.field === 'mass' ? fault.said : undefined}
      />
      <ChipRow label="unit">
        {(['kg', 'lb'] as const).map((one) => (
          <Chip key={one} chosen={unit === one} onTap={() => setUnit(one)}>
            {one}
          </Chip>
        ))}
      </ChipRow>
      <TextField
        label="Day"
        value={day}
        onText={setDay}
        type="date"
        fault={fault?.field === 'day' ? fault.said : undefined}
      />
      <button type="button" class="button" onClick={keep}>
        Note body mass
      </button>
    </section>
  );
}
