import type { SetRecord } from '../../src/domain/set';
import { keyOf } from '../../src/log/keys';
import { type Row, valueAt } from '../../src/merge/row';
import type { Claim, Ledger } from './ledger';
import type { Disk, DiskSession } from './store';

/** What a kill did that it must not. */
export type Fault = {
  readonly type: 'lost' | 'changed' | 'torn' | 'in-two-sessions' | 'came-back' | 'went-back' | 'draft-lost' | 'clock';
  readonly detail: string;
};

type Found = { readonly at: string; readonly set: SetRecord };

/** Returns where the set of a claim lies now: where it was, or, once moved, in the other session; empty where it is nowhere. */
export function find(
  sessions: ReadonlyMap<string, DiskSession>,
  claim: Pick<Claim, 'place' | 'set'>,
): readonly Found[] {
  const at = (place: string, id: string): Found[] => {
    const set = sessions.get(place)?.session?.sets.find((one) => one.id === id);
    return set?.exercise === undefined ? [] : [{ at: `${place}/${id}`, set }];
  };
  const moved = movedTo(sessions.get(claim.place)?.rows ?? [], claim.set);
  return [...at(claim.place, claim.set), ...(moved ? at(`${moved.stream}/${moved.session}`, moved.set) : [])];
}

function movedTo(rows: readonly Row[], set: string): { stream: string; session: string; set: string } | undefined {
  const to = rows
    .map((row) => valueAt(row, `sets/${set}/movedTo`))
    .find((value) => value !== undefined && value !== null);
  return to as { stream: string; session: string; set: string } | undefined;
}

/** Judges what is in the store: that everything claimed is there once and whole. */
export function judgeStore(ledger: Ledger, sessions: ReadonlyMap<string, DiskSession>, disk: Disk): readonly Fault[] {
  const claims = ledger.claims();
  const claimed = new Set(claims.map(({ place, set }) => `${place}/${set}`));
  const faults: Fault[] = [];
  for (const claim of claims) {
    const found = claim.set.split(' ').map((set) => find(sessions, { place: claim.place, set }));
    // once moved, it may have gone on from there: then that is claimed by itself
    const target = claim.left === 'moved' && movedTo(sessions.get(claim.place)?.rows ?? [], claim.set);
    const goesOn = target && hasOwnStory(`${target.stream}/${target.session}/${target.set}`, claimed, ledger.gone());
    if (found.some((places) => places.length === 0) && claim.left !== 'removed' && !goesOn) {
      faults.push({ type: 'lost', detail: `${claim.place}/${claim.set} (${claim.texts[0]})` });
    }
    if (found.some((places) => places.length > 1)) {
      faults.push({ type: 'in-two-sessions', detail: `${claim.place}/${claim.set}` });
    }
  }
  for (const key of ledger.gone()) {
    const slash = key.lastIndexOf('/');
    if (find(sessions, { place: key.slice(0, slash), set: key.slice(slash + 1) }).length > 0) {
      faults.push({ type: 'came-back', detail: key });
    }
  }
  const typed = ledger.typed();
  if (typed) {
    const draft = disk.drafts.get(`pad/${typed.place}`) as { load?: unknown } | undefined;
    if (draft?.load !== typed.load) {
      faults.push({ type: 'draft-lost', detail: `${typed.load} is ${JSON.stringify(draft ?? null)}` });
    }
  }
  return [...faults, ...tornIn(sessions, disk)];
}

const hasOwnStory = (key: string, claimed: ReadonlySet<string>, gone: ReadonlySet<string>): boolean =>
  claimed.has(key) || gone.has(key);

/** No act may be there in part: every set names its exercise, kind and instant, and no set stands in two sessions. */
function tornIn(sessions: ReadonlyMap<string, DiskSession>, disk: Disk): readonly Fault[] {
  const faults: Fault[] = disk.unreadable.map((detail) => ({ type: 'torn', detail }));
  const places = new Map<string, { place: string; set: SetRecord }>();
  for (const [place, { session }] of sessions) {
    for (const set of session?.sets ?? []) {
      const whole =
        set.exercise !== undefined && set.kind !== undefined && set.at !== undefined && set.unread.length === 0;
      if (!whole) faults.push({ type: 'torn', detail: `${place}/${set.id} ${JSON.stringify(set)}` });
      // a move keeps the instant, so a set that is in two sessions has one instant in both
      const instant = `${set.at?.at} ${set.exercise}`;
      const other = places.get(instant);
      if (other !== undefined && other.place !== place) {
        const both = JSON.stringify([
          registersOf(sessions, place, set.id),
          registersOf(sessions, other.place, other.set.id),
        ]);
        faults.push({ type: 'in-two-sessions', detail: `${place}/${set.id}, also in ${other.place}: ${both}` });
      }
      places.set(instant, { place, set });
    }
  }
  return faults;
}

/** What is stored of a set, stamps and all: the evidence. */
function registersOf(sessions: ReadonlyMap<string, DiskSession>, place: string, set: string): unknown {
  const bodies = (sessions.get(place)?.rows ?? []).flatMap((row) => Object.entries(row.body));
  return Object.fromEntries(bodies.filter(([path]) => path.startsWith(`sets/${set}/`)));
}

/** Judges the lines that the opened app shows, by `place/set`, against what they said before the kill. */
export function judgeLines(
  ledger: Ledger,
  sessions: ReadonlyMap<string, DiskSession>,
  lines: ReadonlyMap<string, string>,
): readonly Fault[] {
  const claims = ledger.claims();
  const claimed = new Set(claims.map(({ place, set }) => `${place}/${set}`));
  return claims.flatMap((claim): Fault[] => {
    const own = `${claim.place}/${claim.set}`;
    const at = find(sessions, claim)[0]?.at ?? own;
    if (at !== own && hasOwnStory(at, claimed, ledger.gone())) return [];
    const text = lines.get(at);
    // what is missing has been judged in the store
    if (text === undefined && (claim.left !== undefined || at !== own)) return [];
    if (text === undefined) return [{ type: 'lost', detail: `${own} is not on the screen` }];
    if (claim.texts.includes(text) || claim.words.some((word) => text.includes(word))) return [];
    return [{ type: 'changed', detail: `${own}: “${claim.texts.join('” or “')}” is “${text}”` }];
  });
}

/** Nothing that was on the disk before may be gone from it, or be older than it was. */
export function judgeAgainst(before: Disk, after: Disk): readonly Fault[] {
  const rows = new Map(after.rows.map((row) => [keyOf(row), row]));
  return before.rows.flatMap((row): Fault[] => {
    const now = rows.get(keyOf(row));
    if (!now) return [{ type: 'lost', detail: `row ${keyOf(row)}, ${Object.keys(row.body).length} registers` }];
    const older = Object.entries(row.body).filter(
      ([path, register]) => (now.body[path]?.[0].stamp.l ?? 0) < register[0].stamp.l,
    );
    return older.map(([path]) => ({ type: 'went-back', detail: `${keyOf(row)} ${path}` }));
  });
}
