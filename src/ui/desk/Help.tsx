import { HELP } from '../helpWords';
import { STORAGE_IN_THREE } from '../installWords';
import { PageHead } from '../parts/PageHead';
import { PAIN_CAUTION } from '../setWords';
import { CAUTION } from '../words';

/** What to do, what the app is not, and where records are kept. */
export function Help() {
  return (
    <main class="page">
      <PageHead title="Help" />
      {HELP.map(({ title, lines }) => (
        <section key={title} class="card" aria-label={title}>
          <h2>{title}</h2>
          {lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </section>
      ))}
      <section class="card" aria-label="storage and backup">
        <h2>Storage and backup</h2>
        {STORAGE_IN_THREE.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </section>
      <section class="card" aria-label="cautions">
        <h2>Cautions</h2>
        <p>{CAUTION}</p>
        <p>{PAIN_CAUTION}</p>
      </section>
    </main>
  );
}
