import { useApp } from '../app';
import { TrendOf } from '../charts/Trend';
import { NoClient } from '../parts/NoClient';
import { PageHead } from '../parts/PageHead';
import { TREND } from '../trendWords';

/** One exercise of a client's at the desk: every session, and what is said of it. */
export function TrendPage({ stream, exercise }: { stream: string; exercise: string }) {
  const { log, views } = useApp();
  const client = views.client(log, stream);
  if (!client) return <NoClient />;
  return (
    <main class="page">
      <PageHead title={views.exercise(log, exercise)?.name ?? TREND.missing} />
      <p class="hint" dir="auto">
        {client.alias}
      </p>
      <section class="card" aria-label="trend">
        <TrendOf stream={stream} exercise={exercise} />
      </section>
    </main>
  );
}
