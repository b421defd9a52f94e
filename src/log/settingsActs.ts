import type { SettingPath } from '../domain/settings';
import type { Json } from '../merge/row';
import type { Log, Saving } from './log';
import { SETTINGS } from './views';

/** Chooses a setting; `null` goes back to the default. What was logged stays as it was typed. */
export function choose(log: Log, path: SettingPath, value: Json): Saving {
  return log.commit({
    act: { type: 'setting' },
    // the row is read at every start; where none was, this is the first choice
    rows: [{ name: SETTINGS, changes: { [path]: value }, fresh: true }],
  });
}
