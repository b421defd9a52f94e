import { daysBetween, instantAt } from '../../domain/day';
import { useApp, useWatch } from '../app';
import { countOf } from '../format';
import { useTicking } from '../parts/useTicking';
import { go } from '../routes';
import { backupText } from '../words';

/** How long a write may be under way before the pill speaks of it. */
const BLINK_MS = 800;

/** Says truthfully where the records are. A tap opens Backup. */
export function Pill() {
  const { log, world, demo } = useApp();
  useWatch(['status']);
  const text = useTicking(() => {
    const status = log.status();
    if (status.phase === 'opening') return 'opening the log…';
    if (status.phase === 'cannot-open') return 'NOT SAVING: the log did not open';
    if (status.phase === 'yielded') return 'NOT SAVING: reload';
    if (status.saveFault && status.unsaved > 0) return `NOT SAVED: ${countOf(status.unsaved, 'record')}`;
    if (status.unsavedSince !== null && world.now() - status.unsavedSince > BLINK_MS) return 'saving…';
    // nobody needs a backup of what is invented
    if (demo.shown) return 'saved on this phone';
    const day = (at: number) => instantAt(at, world.zone()).day;
    const backup =
      status.lastBackup === null ? null : Math.max(0, daysBetween(day(status.lastBackup), day(world.now())));
    return `saved on this phone · ${backupText(backup)}`;
  });
  return (
    <button
      type="button"
      class={`pill${text.startsWith('NOT') ? ' pill-look' : ''}`}
      onClick={() => go({ page: 'backup' })}
    >
      {text}
    </button>
  );
}
