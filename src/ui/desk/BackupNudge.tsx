import { useEffect, useLayoutEffect, useState } from 'preact/hooks';
import { daysBetween, instantAt } from '../../domain/day';
import { useApp, useRedraw, useWatch } from '../app';
import { backupDue, codeDue } from '../installWords';
import { go } from '../routes';
import { ASK_DAYS, isCodeDue } from './codeNote';

const BEGAN = 'backup-nudge-from';
const LATER = 'backup-nudge-later';

/** A card on Today: it is a week since the last backup and something is nowhere else, or the recovery code is to be typed back. */
export function BackupNudge({ drawn }: { drawn: () => void }) {
  const { log, notes, world } = useApp();
  useWatch(['status']);
  const redraw = useRedraw();
  const [rows, setRows] = useState<number>();
  const { lastBackup } = log.status();
  const today = instantAt(world.now(), world.zone()).day;
  const daysSince = (at: number): number => daysBetween(instantAt(at, world.zone()).day, today);
  const began = notes.get(BEGAN);
  useEffect(() => {
    if (lastBackup === null && began === undefined) notes.set(BEGAN, String(world.now()));
  }, [lastBackup, began, notes, world]);
  const days = daysSince(lastBackup ?? Number(began ?? world.now()));
  const due = days >= ASK_DAYS;
  useEffect(() => {
    // undefined where the browser keeps no second copy to count: then the days alone tell
    if (due) void log.onlyHere().then((count) => setRows(count ?? -1));
  }, [due, log, lastBackup]);
  const isLater = notes.get(LATER) === today;
  const said = isLater
    ? undefined
    : due && rows !== undefined && rows !== 0
      ? backupDue(lastBackup === null ? null : days, Math.max(0, rows))
      : isCodeDue(notes, world)
        ? codeDue
        : undefined;
  useLayoutEffect(() => {
    if (said !== undefined) drawn();
  }, [said, drawn]);
  if (said === undefined) return null;
  return (
    <section class="card" aria-label="backup">
      <p>{said}</p>
      <div class="chips">
        <button type="button" class="button" onClick={() => go({ page: said === codeDue ? 'keys' : 'backup' })}>
          {said === codeDue ? 'Keys' : 'Backup'}
        </button>
        <button
          type="button"
          class="button button-plain"
          onClick={() => {
            notes.set(LATER, today);
            redraw();
          }}
        >
          Tomorrow
        </button>
      </div>
    </section>
  );
}
