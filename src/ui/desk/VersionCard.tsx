import { useApp, useUpdate, useWatch } from '../app';
import { NOT_KEPT_YET, versionSentence, versionText } from '../installWords';

/** Which version of the app this is, and whether a newer one is here or on the server. */
export function VersionCard() {
  const { update, log, views } = useApp();
  useWatch(['status', 'kind:session']);
  const state = useUpdate();
  const running = views.sessionsInMemory(log).some((one) => !one.session.end);
  const there = update.serverBuild();
  const isKept = Boolean(navigator.serviceWorker?.controller);
  const isNewer = there !== undefined && there !== update.build;
  return (
    <section class="card">
      <h2>The app</h2>
      <p>{versionText(update.build)}</p>
      <p class="hint">
        {state === 'current' && !isNewer && !isKept ? NOT_KEPT_YET : versionSentence(state, isNewer, running)}
      </p>
      {state === 'ready' && !running ? (
        <button type="button" class="button" onClick={update.use}>
          Use the new version
        </button>
      ) : null}
    </section>
  );
}
