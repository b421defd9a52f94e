import type { Result } from '../../src/domain/result';
import type { Row } from '../../src/merge/row';
import { createSealing } from '../../src/sealing';
import type { LookChoice, OpenedFile, Sealed, Sealing, SealOrder } from '../../src/ui/sealing';
import { createDevice, type Device } from '../log/fakes/device';
import { launched, log, newClient, newSession } from '../log/floor';
import { REAL } from '../log/room';

/** A device of somebody, with what its screens ask of keys and sealed files. */
export type Place = Awaited<ReturnType<typeof place>>;

/** Launches the app on a device (a new one, where none is given). */
export async function place(seed: number, device: Device = createDevice(seed)) {
  const app = await launched(REAL, device);
  const sealing = app.run(() => createSealing(app.log, device.world, '9'));
  // every act belongs to this launch, as a tap would
  const verbs = Object.entries(sealing).map(([verb, fn]: [string, (...given: never[]) => unknown]) => [
    verb,
    (...given: never[]) => app.run(() => fn(...given)),
  ]);
  return { device, app, log: app.log, sealing: Object.fromEntries(verbs) as Sealing };
}

/** A client with one session that holds a set. */
export async function trained(at: Place, alias: string, load = '100') {
  const stream = await newClient(REAL, at, alias);
  const session = await newSession(REAL, at, stream);
  const { saved } = log(REAL, { ...at, place: session }, load, '5');
  await saved;
  return session;
}

/** Returns what is in a result; throws its fault. */
export function got<T>(result: Result<T, { type: string }>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}

export const sealed = async (at: Place, order: SealOrder = { what: 'vault' }): Promise<Sealed> =>
  got(await at.sealing.seal(order));

const PLAIN: LookChoice = { asNew: [], theirLibrary: false };

/** Opens a file, and takes all of it in. */
export async function takenIn(at: Place, { file, words }: Pick<Sealed, 'file' | 'words'>, choice = PLAIN) {
  const opened = got(await at.sealing.open(file, words));
  return takeIn(at, opened, choice);
}

export async function takeIn(at: Place, opened: OpenedFile, choice = PLAIN) {
  const look = got(await at.app.run(() => opened.look(choice)));
  got(await at.app.run(() => look.commit()));
  return { opened, look };
}

/** Every row in the log as text, sorted: what two devices must agree on. */
export async function everything(at: Place): Promise<readonly Row[]> {
  const { scanRows } = await import('../../src/log/scan');
  const rows: Row[] = [];
  await at.app.run(() => scanRows(at.log, (some) => void rows.push(...some)));
  return rows.sort((a, b) => (`${a.stream}/${a.id}` < `${b.stream}/${b.id}` ? -1 : 1));
}
