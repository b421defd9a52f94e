import type { PrivateTopic } from '../domain/private';
import type { Result } from '../domain/result';
import type { ImportReport, Refusal } from '../log/absorb';
import type { Saving } from '../log/log';
import type { SaveFault } from '../log/queue';
import type { ExportFault } from '../merge/exportLines';
import type { BundleFault, RefusedRow, Signature } from '../sync/bundle';
import type { DoorFault } from '../sync/doors';
import type { KeyFault } from '../sync/keys';
import type { PhraseFault } from '../sync/phrase';

/* What the screens ask of this device's keys and of sealed files. Main hands it in; its code is loaded when a screen first asks. */

/** A long computation: `tick` hears of the share done, `signal` calls it off. */
export type Watching = { readonly tick?: (done: number) => void; readonly signal?: AbortSignal };

/** Why nothing could be kept or read here. */
export type KeptFault = SaveFault | { readonly type: 'unread' } | { readonly type: 'damaged-keys' };

/** A file that was sealed here and handed over: where it went to only the trainer knows. */
export type SealedBefore = {
  readonly at: number;
  readonly what: 'vault' | 'clients' | 'handover';
  readonly streams: readonly string[];
};

/** This device's keys, as far as a screen needs to know of them. */
export type KeysState = {
  /** False until the first file is sealed or the first code made. */
  readonly made: boolean;
  /** The seven words that open this device's backup files; null until the first. */
  readonly words: string | null;
  /** When the recovery code was made, and when it was last typed again; null for none. */
  readonly code: { readonly made: number | null; readonly confirmed: number | null } | null;
  readonly hasPassphrase: boolean;
  /** Another of the trainer's devices made newer keys, and none of them was opened here yet. */
  readonly locked: boolean;
  readonly sealed: readonly SealedBefore[];
};

export type SealOrder =
  | { readonly what: 'vault' }
  | { readonly what: 'clients'; readonly streams: readonly string[]; readonly sender: string }
  | {
      readonly what: 'handover';
      readonly stream: string;
      readonly sender: string;
      readonly consent: string;
      /** What of the private things goes along. */
      readonly with: ReadonlySet<PrivateTopic>;
    };
export type SealFault = KeptFault | KeyFault | { readonly type: 'cancelled' };

export type Sealed = {
  readonly file: Blob;
  readonly words: string;
  readonly rows: number;
  /** How the device's signature is known to whoever opens the file; undefined where it bears none. */
  readonly mark: string | undefined;
  /** Values that were left out as private. */
  readonly leftOut: number;
  /** Rows here that this version cannot read: no sealed file holds them. */
  readonly unreadable: number;
  /** Notes that it was handed over; a backup counts from here. */
  readonly handedOver: () => Promise<void>;
};

/** What a file is, by its first bytes. */
export type FileKind = 'sealed' | 'plain' | 'empty' | 'other';

export type OpenFault = PhraseFault | BundleFault;

/**
 * Whose a file says it is. `own`: it names this device's newest key. `keys`: a backup by other keys, whose code or passphrase would make them one's own.
 * `newer-keys`: a file of some clients, by keys of this vault that are not open here. Whether it is true its signature tells, at the end.
 */
export type Whose = 'own' | 'keys' | 'newer-keys' | 'stranger' | 'plain';

export type OpenedFile = {
  readonly whose: Whose;
  readonly what: 'vault' | 'clients' | 'handover';
  /** When it was made, as its device believed; undefined in a plain file. */
  readonly at: number | undefined;
  readonly from: string;
  readonly clients: readonly { readonly stream: string; readonly name: string; readonly withheld: readonly string[] }[];
  readonly consent: string | undefined;
  /** Opens the keys in the file with their recovery code or passphrase. They become this device's when the file is taken in. */
  readonly join: (secret: string, watch?: Watching) => Promise<Result<void, DoorFault | KeptFault>>;
  /** Reads all of it and tells what taking it in would do. Nothing changes before `commit`. */
  readonly look: (choice: LookChoice, watch?: Watching) => Promise<Result<Look, BundleFault | ExportFault | KeptFault>>;
};

export type LookChoice = {
  /** Clients that were erased here and are to come in as new ones. */
  readonly asNew: readonly string[];
  /** Library entries of a stranger that are here already and differ: by default one's own stay as they are. */
  readonly theirLibrary: boolean;
};

export type Look = {
  readonly report: ImportReport;
  readonly signature: Signature | undefined;
  readonly refused: number;
  /** The first hundred. */
  readonly told: readonly (RefusedRow['why'] | Refusal)[];
  /** Library entries that are here already and were left as they are. */
  readonly libraryKept: number;
  /** Taking it in makes this device one of the sender's devices. */
  readonly bringsKeys: boolean;
  /** Merges it into the log: one act with one undo. */
  readonly commit: (tell?: (done: number) => void) => Saving;
};

export type Sealing = {
  readonly keys: () => Promise<KeysState | 'unread' | 'damaged'>;
  /** Makes a new recovery code, to be shown once; every older one is shut. */
  readonly newCode: () => Promise<Result<string, DoorFault | KeptFault>>;
  /** Asks the code back. */
  readonly confirmCode: (typed: string) => Promise<Result<void, DoorFault | KeptFault>>;
  readonly setPassphrase: (passphrase: string, watch?: Watching) => Promise<Result<void, DoorFault | KeptFault>>;
  /** Opens newer keys of another of the trainer's devices. */
  readonly unlock: (secret: string, watch?: Watching) => Promise<Result<void, DoorFault | KeptFault>>;
  /** New keys after a device was lost, under a passphrase; returns the new recovery code. */
  readonly rotate: (passphrase: string, watch?: Watching) => Promise<Result<string, DoorFault | KeptFault>>;
  /** New words for the backup files from now on. */
  readonly newWords: () => Promise<Result<void, DoorFault | KeptFault>>;
  /** Drops the keys of clients that were erased [M10]. */
  readonly forgetErased: () => Promise<void>;
  /** Whether a text is the recovery code or passphrase; throws where the keys cannot be read. */
  readonly isOwner: (secret: string) => Promise<'yes' | 'no' | 'none-made'>;
  readonly hasWayBack: () => Promise<boolean>;
  readonly seal: (order: SealOrder, watch?: Watching) => Promise<Result<Sealed, SealFault>>;
  readonly kindOf: (file: Blob) => Promise<FileKind>;
  readonly open: (file: Blob, words: string, watch?: Watching) => Promise<Result<OpenedFile, OpenFault>>;
};
