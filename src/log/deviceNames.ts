import { fail, ok, type Result } from '../domain/result';
import type { Writer } from '../merge/row';
import { keyOf } from './keys';
import type { Log, Saving } from './log';
import { SETTINGS, shownOf } from './views';

/*
 * Devices are told apart by the first part of a writer's name, which stays with the device from launch to launch. What the trainer calls them lies in
 * the settings row, so that every device knows every name.
 */

export const MOST_DEVICE_NAME = 40;
const PATH = /^devices\/([0-9a-z]+)\/name$/;

/** Returns the part of a writer's name that tells the device. */
export const deviceOf = (writer: Writer): string => writer.split('-')[0] ?? writer;

/** Returns the part of this device's writers. */
export const thisDevice = (log: Log): string => log.inside((core) => core.local.get('device') ?? '');

/** Returns what the devices are called, by the part of their writers. */
export function deviceNames(log: Pick<Log, 'get'>): ReadonlyMap<string, string> {
  const row = log.get(keyOf(SETTINGS));
  const names = new Map<string, string>();
  for (const [path, value] of Object.entries(row ? shownOf(row) : {})) {
    const device = PATH.exec(path)?.[1];
    if (device && typeof value === 'string' && value !== '') names.set(device, value);
  }
  return names;
}

export type DeviceNameFault = {
  readonly type: 'too-long';
  readonly field: 'device';
  readonly most: number;
  readonly has: number;
};

/** Names a device; an empty name is none. */
export function nameDevice(log: Log, device: string, text: string): Result<Saving, DeviceNameFault> {
  const name = text.trim();
  if (name.length > MOST_DEVICE_NAME)
    return fail({ type: 'too-long', field: 'device', most: MOST_DEVICE_NAME, has: name.length });
  return ok(
    log.commit({
      act: { type: 'name-device' },
      rows: [{ name: SETTINGS, changes: { [`devices/${device}/name`]: name === '' ? null : name }, fresh: true }],
    }),
  );
}
