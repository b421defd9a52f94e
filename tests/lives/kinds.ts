import type { Row } from '../../src/merge/row';
import type { App, Device } from '../log/fakes/device';
import type { Book, Deeds } from './book';
import type { LivesRoom } from './room';
import type { Time } from './timers';

/** A state of a row that the log has shown, or must have come to. */
export type Version = {
  row: Row;
  readonly knows: Deeds;
  acked: boolean;
  /** It comes with an import: until that is told to be saved, memory may not have heard of it. */
  readonly comes?: boolean;
};
export type Held = Map<string, Version[]>;

export type Phone = {
  readonly name: string;
  device: Device;
  app: App;
  held: Held;
  /** Streams that are erased here. */
  readonly marks: Set<string>;
  /** Erased, and not yet told to be in the store: a kill may bring these back. */
  readonly erasing: Map<string, { readonly held: Held; acked: boolean }>;
  /** A newer version of the app: it writes paths and kinds that nobody else knows. */
  readonly isNewer: boolean;
};

/** What all phones of a life share. */
export type Life = {
  readonly room: LivesRoom;
  readonly book: Book;
  readonly time: Time;
  /** Erased clients whose rows came back as another client's: what was written of them may be found. */
  readonly broughtBack: Set<string>;
};
