import type { ComponentType } from 'preact';
import { type App, AppProvider, useApp, useWatch } from './app';
import { Today } from './floor/Today';
import { Boundary } from './parts/Boundary';
import { DemoMark } from './parts/DemoMark';
import { later } from './parts/later';
import { said } from './parts/say';
import { Veil } from './parts/Veil';
import { go, type PlainPage, route } from './routes';
import { openFaultSentence } from './storeWords';

const HandOver = later(() => import('./people/HandOver').then((file) => file.HandOver));
const ClientPage = later(() => import('./people/ClientPage').then((file) => file.ClientPage));
const TrendPage = later(() => import('./people/TrendPage').then((file) => file.TrendPage));
const ClientView = later(() => import('./floor/ClientView').then((file) => file.ClientView));
const Library = later(() => import('./desk/Library').then((file) => file.Library));
const Session = later(() => import('./floor/Session').then((file) => file.Session));
const DayPage = later(() => import('./floor/DayPage').then((file) => file.DayPage));

/** The pages that need to know nothing, with what each is called where it fails. */
const PLAIN: Readonly<Record<PlainPage, readonly [what: string, page: ComponentType<object>]>> = {
  backup: ['Backup', later(() => import('./desk/Backup').then((file) => file.Backup))],
  'bring-in': ['Taking a file in', later(() => import('./desk/BringIn').then((file) => file.BringIn))],
  keys: ['Keys', later(() => import('./desk/Keys').then((file) => file.Keys))],
  records: ['Records', later(() => import('./desk/Records').then((file) => file.Records))],
  settings: ['Settings', later(() => import('./desk/Settings').then((file) => file.Settings))],
  help: ['Help', later(() => import('./desk/Help').then((file) => file.Help))],
  week: ['The week', later(() => import('./desk/StudioWeek').then((file) => file.StudioWeek))],
};

/** The app: one route at a time inside boundaries, and the one live region. */
export function Root({ app }: { app: App }) {
  return (
    <AppProvider value={app}>
      <Veil>
        {app.demo.shown ? <DemoMark remove={app.demo.remove} /> : null}
        <Boundary what="The app">
          <Screen />
        </Boundary>
        <div class="unseen" role="status" aria-live="polite">
          {said.value}
        </div>
      </Veil>
    </AppProvider>
  );
}

function Screen() {
  const { log } = useApp();
  useWatch(['status']);
  const at = route.value;
  const { phase } = log.status();
  if (phase === 'cannot-open' && at.page !== 'backup') return <CannotOpen />;
  switch (at.page) {
    case 'today':
      return (
        <Boundary key="today" what="Today">
          <Wiped />
          <Today />
        </Boundary>
      );
    case 'session': {
      const place = { stream: at.stream, session: at.session };
      return (
        <Boundary key="session" what="The session">
          <Session key={at.session} place={place} sheet={at.sheet} />
        </Boundary>
      );
    }
    case 'client':
      return (
        <Boundary key="client" what="The client’s page">
          <ClientPage stream={at.stream} />
        </Boundary>
      );
    case 'day':
      return (
        <Boundary key="day" what="The client’s day">
          <DayPage stream={at.stream} />
        </Boundary>
      );
    case 'view':
      return (
        <Boundary key="view" what="The client’s view">
          <ClientView place={{ stream: at.stream, session: at.session }} />
        </Boundary>
      );
    case 'trend':
      return (
        <Boundary key="trend" what="The trend">
          <TrendPage stream={at.stream} exercise={at.exercise} />
        </Boundary>
      );
    case 'hand-over':
      return (
        <Boundary key={at.stream} what="Handing over">
          <HandOver stream={at.stream} />
        </Boundary>
      );
    case 'library':
      return (
        <Boundary key="library" what="The library">
          <Library tab={at.part} />
        </Boundary>
      );
    case 'unknown':
      return (
        <main class="page">
          <h1>There is no page at this address.</h1>
          <button type="button" class="button" onClick={() => go({ page: 'today' })}>
            Today
          </button>
        </main>
      );
    default: {
      const [what, Page] = PLAIN[at.page];
      return (
        <Boundary key={at.page} what={what}>
          <Page />
        </Boundary>
      );
    }
  }
}

function CannotOpen() {
  const { log } = useApp();
  return (
    <main class="page">
      <h1>The log did not open</h1>
      <p class="fault" role="alert">
        {openFaultSentence(log.status().openFault)}
      </p>
      <button type="button" class="button button-act" onClick={() => location.reload()}>
        Reload
      </button>
      <button type="button" class="button" onClick={() => go({ page: 'backup' })}>
        Save what can be read as a file
      </button>
    </main>
  );
}

/** A browser can lose a database without an error: it is said, with what came back, and never passed over. */
function Wiped() {
  const { log } = useApp();
  const { wiped, broughtBack } = log.status();
  if (!wiped && broughtBack === 0) return null;
  return (
    <section class="card wiped" role="alert">
      <p>
        <strong>
          {wiped
            ? 'This browser’s storage was found empty, and it had held records.'
            : 'Some records were missing from the store.'}
        </strong>{' '}
        {broughtBack > 0
          ? `${broughtBack} came back from the second copy. Save a backup file, and look whether anything is missing.`
          : 'Nothing could be brought back here. If you have a backup file, bring it in: Backup, Bring a file in.'}
      </p>
      <button type="button" class="button" onClick={() => go({ page: 'backup' })}>
        Backup
      </button>
    </section>
  );
}
