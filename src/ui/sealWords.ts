import { never } from '../domain/result';
import type { ExportFault } from '../merge/exportLines';
import type { BundleFault, Signature } from '../sync/bundle';
import type { DoorFault } from '../sync/doors';
import type { PhraseFault } from '../sync/phrase';
import { number } from './format';
import type { KeptFault, Look, SealFault } from './sealing';
import { saveFaultSentence } from './storeWords';

/* Sealed files, their words, and what happened to them, as sentences: what it is, and what helps. */

type FileFault = PhraseFault | BundleFault | ExportFault | KeptFault;

const NOTHING_CHANGED = 'Nothing was changed.';
const GIB = 1024 ** 3;

/** Returns why a file could not be opened or taken in. */
export function fileFaultSentence(fault: FileFault): string {
  switch (fault.type) {
    case 'phrase-words':
      return `The words are seven; here ${fault.has === 1 ? 'is 1' : `are ${number(fault.has)}`}.`;
    case 'phrase-word':
      return `Word ${fault.n}, “${fault.word.slice(0, 30)}”, is none of the words that are used.${fault.nearest ? ` Is it “${fault.nearest}”?` : ''}`;
    case 'wrong-phrase':
      return 'These are not the words of this file. The backups of each device have that device’s own words, and each file that is handed over has its own.';
    case 'not-an-age-file':
    case 'not-a-bundle':
    case 'not-an-export':
    case 'not-gzip':
      return `This is no file of this app. ${NOTHING_CHANGED}`;
    case 'not-by-phrase':
      return 'This file is sealed for a key and not by words: this app cannot open it.';
    case 'work-too-high':
      return 'Opening this file would take more memory than a phone has. This app does not make such files.';
    case 'newer-format':
      return `This file was made by a newer version of the app. Update here, then open it again. ${NOTHING_CHANGED}`;
    case 'truncated':
      return `The file ends too early: it was cut off on its way. Fetch it once more. ${NOTHING_CHANGED}`;
    case 'damaged':
    case 'bad-line':
    case 'wrong-count':
      return `The file is damaged: it is not as it was made. Fetch it once more. ${NOTHING_CHANGED}`;
    case 'bad-signature':
      return `The file is not as its sender made it: its signature is wrong. Ask for it once more. ${NOTHING_CHANGED}`;
    case 'too-large':
      return `${tooLarge(fault)} This app does not make such files. ${NOTHING_CHANGED}`;
    case 'invented':
      return 'This file is the demo’s. What is invented never mixes with real records.';
    case 'cancelled':
      return `Called off. ${NOTHING_CHANGED}`;
    default:
      return keptFaultSentence(fault);
  }
}

function tooLarge({ what, most }: Extract<BundleFault, { type: 'too-large' }>): string {
  switch (what) {
    case 'rows':
      return `It holds more than ${number(most)} records.`;
    case 'ratio':
    case 'unpacked':
      return 'It unpacks to far more than it says.';
    case 'line':
      return 'One record in it is larger than any can be.';
    case 'file':
      return `The file is larger than ${(most / GIB).toFixed(1)} GB.`;
    default:
      return never(what);
  }
}

/** Returns why this device’s keys could not be read or kept. */
export function keptFaultSentence(fault: KeptFault): string {
  switch (fault.type) {
    case 'unread':
      return 'The browser’s storage did not answer. Reload, and try again; nothing is lost.';
    case 'damaged-keys':
      return 'The keys that were kept on this device cannot be read. Open a backup file here and type its recovery code: that puts them back.';
    default:
      return `Not saved: ${saveFaultSentence(fault)}.`;
  }
}

/** Returns why no file was sealed. */
export function sealFaultSentence(fault: SealFault): string {
  switch (fault.type) {
    case 'cancelled':
      return 'Called off. No file was made.';
    case 'locked':
      return 'Another of your devices made new keys. Open them here first: Keys, below.';
    case 'erased':
      return 'This client was erased.';
    case 'no-key':
      return 'There is no key for this client. Reload, and try again.';
    default:
      return keptFaultSentence(fault);
  }
}

/** Returns why a code or a passphrase opened nothing. */
export function doorFaultSentence(fault: DoorFault | KeptFault): string {
  switch (fault.type) {
    case 'code-length':
      return `The code has ${fault.needs} characters; here are ${number(fault.has)}.`;
    case 'code-character':
      return `“${fault.character}” is in no code: they hold the digits, and letters but I, L, O and U.`;
    case 'code-mistyped':
      return 'A character is wrong, or two changed places: compare it once more.';
    case 'wrong-code':
      return 'This is not the newest recovery code of these keys.';
    case 'wrong-passphrase':
      return 'This is not the passphrase.';
    case 'wrong-device-key':
    case 'locked':
      return 'Another of your devices made new keys. The recovery code shown there opens them here.';
    case 'empty-passphrase':
      return 'Type a passphrase.';
    case 'no-door':
      return fault.door === 'passphrase'
        ? 'This is no recovery code (28 characters), and no passphrase was set.'
        : 'When this was made, there was no recovery code yet. Make a new backup on the other device, and bring that one in.';
    case 'unknown-stretch':
    case 'weak-stretch':
    case 'heavy-stretch':
      return 'The keys ask for something that this app refuses to do. They were not made by it.';
    case 'cancelled':
      return 'Called off.';
    case 'erased':
    case 'no-key':
      return 'There is no key for this client.';
    default:
      return keptFaultSentence(fault);
  }
}

/** What is said where something long fails in a way that nobody foresaw. */
export const WENT_WRONG = 'It did not work: this device may be out of memory. Nothing was changed. Try again.';

/** Returns who vouches for a file. */
export function signatureSentence(signature: Signature | undefined): string {
  switch (signature?.by) {
    case 'own-vault':
      return 'One of your own devices made it, and it is as it was made.';
    case 'another-vault':
      return 'It was made by somebody else’s device, or by yours before it had these keys. Nobody can check here who it was.';
    case 'device':
      return signature.checked
        ? `It is as its sender’s device made it. That device’s mark is ${signature.key.slice(0, 8)}: compare it with them.`
        : 'It is signed, and this browser cannot check signatures.';
    case 'nobody':
      return 'Nobody signed it: the words alone say where it comes from.';
    case undefined:
      return 'A plain file is signed by nobody: take it in only if you know where it comes from.';
  }
}

/** Returns what taking a file in would do, a line each. */
export function lookLines({ report, refused, libraryKept }: Look): readonly string[] {
  const { changed, same, keptBeside } = report;
  const counted = (count: number, text: string): string[] => (count > 0 ? [text] : []);
  return [
    `${number(report.new)} new`,
    `${number(changed)} changed`,
    ...counted(same, `${number(same)} already here, as they are`),
    `${number(keptBeside)} kept beside: ${keptBeside === 1 ? 'a value' : 'values'} written here and there apart; you settle ${keptBeside === 1 ? 'it' : 'them'} under Records`,
    ...counted(
      libraryKept,
      libraryKept === 1
        ? '1 entry of the library left as you have it'
        : `${number(libraryKept)} entries of the library left as you have them`,
    ),
    `${number(refused)} refused`,
  ];
}

/** Returns that values stand beside each other after a file was taken in. */
export const besideSentence = (count: number): string =>
  count === 1
    ? 'One value was written here and there apart. Both are kept; choose between them under Records. An undo takes neither away.'
    : `${number(count)} values were written here and there apart. All are kept; choose between them under Records. An undo takes none away.`;

const REFUSED: Readonly<Record<string, string>> = {
  'undeclared-stream': 'of a client that the file does not name',
  'not-of-a-stranger': 'settings and erasures of somebody else',
  'kind-differs': 'another kind of record stands here under that name: kept aside',
  erased: 'of a client that was erased here',
  'unreadable-here': 'what stands here under that name was written by a newer version, and stays',
};

/** Returns why records were refused, each reason once, with how many of those told it is. */
export function refusedLines(told: Look['told']): readonly string[] {
  const counts = new Map<string, number>();
  for (const { type } of told) {
    const why = Object.hasOwn(REFUSED, type) ? REFUSED[type] : undefined;
    const words = why ?? 'not well formed';
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return [...counts].map(([words, count]) => `${number(count)} ${words}`);
}
