import * as fc from 'fast-check';
import type { Json, Row, Stamp } from '../../src/merge/row';
import { must } from './law';
import type { MergeRoom } from './room';
import { isAbove } from './rows';

/*
 * Devices that live: they write, remove, restore and merge in any order, with clocks that cross, launches that burn stamps, old copies
 * that arrive late, and a phone set back to a backup. Beside each row goes what its device truly knows: the deeds, and for each deed
 * what its author knew. That book is kept without stamps and without `seen`, so it can judge both.
 */

export type Deed = {
  readonly path: string;
  readonly value: Json;
  readonly stamp: Stamp;
  /** All that the author knew when it was done. */
  readonly knew: ReadonlySet<Deed>;
};
export type Copy = { readonly row: Row; readonly knows: ReadonlySet<Deed> };
export type Device = Copy & { readonly writer: string; readonly attempted: number; readonly copies: readonly Copy[] };
export type Life = { readonly devices: readonly Device[]; readonly given: readonly Stamp[] };

export const TEN_YEARS = 10 * 365.25 * 86_400_000;
const NOW = 1_800_000_000_000;
/** Mostly alike, so that two devices come to the same L; or ten years apart; or no time at all. */
export const CLOCKS = [NOW, NOW, NOW + 1, NOW - TEN_YEARS, NOW + TEN_YEARS, 0, -1, Number.NaN, 1e20] as const;
const VALUES: readonly Json[] = [1, 2, 'x', null, { unit: 'lb', value: 45 }, { value: 45, unit: 'lb' }, [1, [2]]];
const PATHS = ['note', 'sets/a/load', 'sets/a/reps', 'sets/b/reps', 'blocks/k/name', 'newer/x', 'constructor'] as const;
export const THINGS = ['sets/a', 'sets/b', 'blocks/k', ''] as const;

const DEEDS = [
  'write',
  'write',
  'write',
  'merge',
  'merge',
  'late',
  'remove',
  'restore',
  'relaunch',
  'burn',
  'backup',
] as const;

const step = fc.record({
  deed: fc.constantFrom(...DEEDS),
  device: fc.nat(2),
  other: fc.nat(2),
  path: fc.nat(PATHS.length - 1),
  value: fc.nat(VALUES.length - 1),
  clock: fc.constantFrom(...CLOCKS),
});
export type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;

export const steps: fc.Arbitrary<Step[]> = fc.array(step, { maxLength: 24, size: 'max' });

/** Lives through the steps with three devices and returns how they end. */
export function live(room: MergeRoom, lived: readonly Step[]): Life {
  const given: Stamp[] = [];
  const empty = { row: room.emptyRow({ id: 'r1', kind: 'session', stream: 'c1' }), knows: new Set<Deed>() };
  const devices: Device[] = [0, 1, 2].map((n) => ({ ...empty, writer: `d${n}-0`, attempted: 0, copies: [empty] }));
  for (const [index, now] of lived.entries()) {
    const device = devices[now.device]!;
    devices[now.device] = after(room, device, devices[now.other]!, now, index, given);
  }
  return { devices, given };
}

function after(room: MergeRoom, device: Device, other: Device, now: Step, index: number, given: Stamp[]): Device {
  const thing = THINGS[now.path % THINGS.length]!;
  switch (now.deed) {
    case 'write': {
      const second = PATHS[(now.path + now.other + 1) % PATHS.length]!;
      const value = VALUES[now.value]!;
      const changes = { [PATHS[now.path]!]: value, ...(now.other === 0 ? { [second]: value } : {}) };
      return written(room, device, changes, now.clock, given);
    }
    case 'remove':
      return written(room, device, room.removing(device.row, thing), now.clock, given);
    case 'restore':
      return written(room, device, room.restoring(thing), now.clock, given);
    case 'merge':
      return met(room, device, now.value % 2 === 0 ? other : carried(room, other));
    case 'late':
      return met(room, device, other.copies[now.value % other.copies.length]!);
    case 'burn': {
      const stamp = room.nextStamp(device.row, device.writer, now.clock, device.attempted);
      given.push(stamp);
      return { ...device, attempted: stamp.l };
    }
    case 'relaunch':
      return { ...device, writer: `d${now.device}-${index + 1}`, attempted: 0 };
    case 'backup':
      // what it was, and whoever starts the restored app is another writer
      return {
        ...device,
        ...device.copies[now.value % device.copies.length]!,
        writer: `d${now.device}-${index + 1}`,
        attempted: 0,
      };
  }
}

/** Returns the device after one act of its own. */
export function written(
  room: MergeRoom,
  device: Device,
  changes: Readonly<Record<string, Json>>,
  clock: number,
  given: Stamp[] = [],
): Device {
  const stamp = room.nextStamp(device.row, device.writer, clock, device.attempted);
  given.push(stamp);
  const knew = device.knows;
  const deeds = Object.entries(changes).map(([path, value]) => ({ path, value, stamp, knew }));
  return withCopy({
    ...device,
    attempted: stamp.l,
    row: room.writeRow(device.row, changes, stamp),
    knows: new Set([...knew, ...deeds]),
  });
}

/** Returns the device after it merged a copy. */
export function met(room: MergeRoom, device: Device, copy: Copy): Device {
  const merged = room.mergeRows(device.row, copy.row);
  must(merged.ok, 'rows of one identity were not merged');
  return withCopy({ ...device, row: merged.value, knows: new Set([...device.knows, ...copy.knows]) });
}

const withCopy = (device: Device): Device => ({
  ...device,
  copies: [...device.copies, { row: device.row, knows: device.knows }],
});

/** The copy as it comes through a file or a wire. */
function carried(room: MergeRoom, { row, knows }: Copy): Copy {
  const admitted = room.admitRow(JSON.parse(JSON.stringify(row)));
  must(admitted.ok, () => `a lived row was refused: ${JSON.stringify(row)}`);
  return { row: admitted.value, knows };
}

/** Returns the deeds that still stand at a path: known, and no other known deed at the path was done in knowledge of them. */
export function standingDeeds(knows: ReadonlySet<Deed>, path: string): Deed[] {
  const here = [...knows].filter((deed) => deed.path === path);
  return here.filter((deed) => !here.some((later) => later.knew.has(deed)));
}

/** Returns the deed that is shown, of those that stand. */
export function winnerOf(deeds: readonly Deed[]): Deed | undefined {
  return deeds.find((deed) => deeds.every((other) => other === deed || isAbove(deed.stamp, other.stamp)));
}

export const pathsOf = (knows: ReadonlySet<Deed>): Set<string> => new Set([...knows].map((deed) => deed.path));
