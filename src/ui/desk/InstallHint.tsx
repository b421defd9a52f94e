import { useEffect } from 'preact/hooks';
import { useApp } from '../app';
import { INSTALL_TITLE, installHint, startsEmpty } from '../installWords';
import { askToInstall, installWay } from '../parts/install';
import { go } from '../routes';

type InstallHintProps = {
  /** There where the hint comes unasked. */
  readonly dismiss?: () => void;
  /** Called once it stands on the screen. */
  readonly drawn?: () => void;
  readonly toBackup: boolean;
};

/** How the app is put on this device, and why; nothing where it is. */
export function InstallHint({ dismiss, drawn, toBackup }: InstallHintProps) {
  const { log, views } = useApp();
  const way = installWay();
  const hint = installHint(way);
  useEffect(() => drawn?.(), [drawn, way]);
  if (!hint) return null;
  const startsAnew = way === 'ios' || way === 'mac-safari';
  const clients = views.clients(log).length;
  return (
    <section class="card">
      <h2>{INSTALL_TITLE}</h2>
      <p>{hint.how}</p>
      <p class="hint">{hint.why}</p>
      {startsAnew ? <p class={clients > 0 ? 'fault' : 'hint'}>{startsEmpty(clients)}</p> : null}
      <div class="chips">
        {way === 'button' ? (
          <button type="button" class="button" onClick={askToInstall}>
            Install
          </button>
        ) : null}
        {startsAnew && clients > 0 && toBackup ? (
          <button type="button" class="button" onClick={() => go({ page: 'backup' })}>
            Backup
          </button>
        ) : null}
        {dismiss ? (
          <button type="button" class="button button-plain" onClick={dismiss}>
            Not now
          </button>
        ) : null}
      </div>
    </section>
  );
}
