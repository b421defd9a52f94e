import { expect } from 'vitest';
import { beginImport } from '../../src/log/absorb';
import { scanRows } from '../../src/log/scan';
import type { Row } from '../../src/merge/row';
import { createDevice } from './fakes/device';
import { launched, log, onFloor } from './floor';
import { REAL } from './room';

/** Two phones that hold the same session of one set, on different launches of different devices. */
export async function two() {
  const floor = await onFloor(REAL, 3);
  const { set, saved } = log(REAL, floor, '100', '5');
  await saved;
  const device = createDevice(4);
  const other = { device, app: await launched(REAL, device), place: floor.place };
  await carried(floor, other);
  return { floor, other, set };
}

export type On = Awaited<ReturnType<typeof onFloor>>;

/** Carries all rows of one phone to another. */
export async function carried(from: On, to: On): Promise<void> {
  const rows: Row[] = [];
  expect(await from.app.run(() => scanRows(from.app.log, (some) => void rows.push(...some)))).toBe(true);
  const prepared = to.app.run(() => beginImport(to.app.log));
  await to.app.run(() => prepared.take(rows));
  expect(await to.app.run(() => prepared.commit())).toMatchObject({ ok: true });
}

/** The row of the session that a phone has in hand. */
export const sessionOf = ({ app, place }: On): Row => app.log.get(`${place.stream}/${place.session}`)!;
