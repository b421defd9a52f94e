import type { Unread } from '../../domain/set';
import type { Mending } from '../../log/mending';
import type { Finds, Found } from '../../log/recordActs';
import { useApp } from '../app';
import { leftOutWords, pathWords, RECORDS, rowWords, whereWords } from '../recordWords';
import { go, type Route } from '../routes';
import { unreadSentence } from '../setWords';
import { Where } from './Where';
import { namesIn } from './waiting';

type Line = { readonly one: Found<Mending>; readonly fault: Unread | undefined };

/** [M9] What is at odds or cannot be read, and the way to where it is mended by an ordinary edit. */
export function Mendings({ found }: { found: Finds<Mending> }) {
  const app = useApp();
  const names = namesIn(app);
  if (found.count === 0) return null;
  const lines = found.list.flatMap((one): readonly Line[] =>
    one.faults.length > 0 ? one.faults.map((fault) => ({ one, fault })) : [{ one, fault: undefined }],
  );
  return (
    <section class="card" aria-label={RECORDS.mending}>
      <h2>{RECORDS.mending}</h2>
      <p class="hint">{leftOutWords(lines.length)}</p>
      <ul class="records-list">
        {lines.map(({ one, fault }) => {
          const where = fault ? whereWords(names, one.row, fault.path) : rowWords(names, one.row);
          const to = placeOf(one, fault);
          return (
            <li key={`${one.row.stream}/${one.row.id}/${fault?.path}/${fault?.type}`}>
              <p>
                <Where text={where} />
              </p>
              <p class="fault">{saidOf(fault)}</p>
              {to ? (
                <button type="button" class="button" aria-label={`Open it: ${where}`} onClick={() => go(to)}>
                  Open it
                </button>
              ) : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function saidOf(fault: Unread | undefined): string {
  if (!fault) return 'needs mending: its name cannot be read by this version';
  const said = unreadSentence([fault]) ?? '';
  return fault.type === 'from-a-newer-app' ? `${pathWords('session', fault.path)}: ${said}` : said;
}

/** Where it is mended: the set's sheet, or the session. */
function placeOf({ name, row }: Found<Mending>, fault: Unread | undefined): Route | undefined {
  if (name.kind === 'client') return { page: 'client', stream: row.stream };
  if (name.kind !== 'session') return undefined;
  const set = /^sets\/([^/]+)/.exec(fault?.path ?? '')?.[1];
  const place = { page: 'session', stream: row.stream, session: row.id } as const;
  return set === undefined ? place : { ...place, sheet: { name: 'set', set } };
}
