import type { Line, Report } from './reports';

/** What the page claimed of one set, and so must be found after the kill. */
export type Claim = {
  readonly place: string;
  readonly set: string;
  /** What it may say: as it was when it showed as saved, or as anything that it showed after. */
  readonly texts: readonly string[];
  /** Words that taps since then may have added. */
  readonly words: readonly string[];
  /** Set where a tap since then moved or removed it. */
  readonly left: 'moved' | 'removed' | undefined;
};

/** Everything that was claimed in one life of the app. */
export type Ledger = {
  readonly take: (report: Report) => void;
  readonly claims: () => readonly Claim[];
  /** Sets that were gone, saved so: they must not come back. */
  readonly gone: () => ReadonlySet<string>;
  /** Whether an undo was under way: then one set may differ. */
  readonly undoing: () => boolean;
  readonly typed: () => { readonly place: string; readonly load: string } | undefined;
  /** What the browser said each time it made the database anew. */
  readonly madeAnew: () => readonly string[];
  readonly stuck: () => readonly string[];
};

/** Returns an empty ledger. */
export function createLedger(): Ledger {
  /** By `place/set`: its texts since it last showed as saved. */
  const saved = new Map<string, { place: string; set: string; texts: string[] }>();
  /** What was announced of a set and is not yet known to be in the store, by the number of the tap. */
  const coming = new Map<string, ({ acts: number; word: string } | { acts: number; left: 'moved' | 'removed' })[]>();
  const gone = new Set<string>();
  const madeAnew: string[] = [];
  const stuck: string[] = [];
  let undoing = false;
  let typed: { place: string; load: string } | undefined;

  function takeLine(place: string, acts: number, line: Line): void {
    const key = `${place}/${line.set}`;
    if (!line.saved) {
      saved.get(key)?.texts.push(line.text);
      return;
    }
    saved.set(key, { place, set: line.set, texts: [line.text] });
    // a line that showed as saved between an announcement and its tap does not tell of it
    coming.set(key, coming.get(key)?.filter((one) => one.acts > acts) ?? []);
    gone.delete(key);
  }

  function announce(key: string, what: { acts: number; word: string } | { acts: number; left: 'moved' | 'removed' }) {
    coming.set(key, [...(coming.get(key) ?? []), what]);
  }

  const leftOf = (key: string) => coming.get(key)?.flatMap((one) => ('left' in one ? [one.left] : []))[0];

  function settle(place: string, acts: number, lines: readonly Line[]): void {
    undoing = false;
    const there = new Set(lines.map((line) => line.set));
    for (const [key, one] of saved) {
      if (one.place !== place || there.has(one.set) || leftOf(key) === 'moved') continue;
      saved.delete(key);
      gone.add(key);
    }
    for (const line of lines) takeLine(place, acts, line);
  }

  return {
    take(report) {
      const { place, acts } = report;
      switch (report.type) {
        case 'line':
          return takeLine(place, acts, report);
        case 'will-touch':
          return announce(`${place}/${report.set}`, { acts, word: report.word });
        case 'will-move':
          return announce(`${place}/${report.set}`, { acts, left: 'moved' });
        case 'will-remove':
          return announce(`${place}/${report.set}`, { acts, left: 'removed' });
        case 'will-log':
          return;
        case 'will-undo':
          undoing = true;
          return;
        case 'settled':
          return settle(place, acts, report.lines);
        case 'typed':
          typed = { place, load: report.load };
          return;
        case 'typed-is-over':
          typed = undefined;
          return;
        case 'made-anew':
          madeAnew.push(report.why);
          return;
        case 'stuck':
          stuck.push(report.why);
      }
    },
    claims: () =>
      [...saved].map(([key, one]) => ({
        ...one,
        words: coming.get(key)?.flatMap((what) => ('word' in what ? [what.word] : [])) ?? [],
        left: leftOf(key),
      })),
    gone: () => gone,
    undoing: () => undoing,
    typed: () => typed,
    madeAnew: () => madeAnew,
    stuck: () => stuck,
  };
}
