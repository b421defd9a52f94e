import { daysBetween } from '../../domain/day';

const WIDTH = 320;
const MOST_TICKS = 60;

/**
 * The week line, our sign: a thin line with a tick a week, today in amber, the end at its end. It only repeats what the words beside
 * it say, so it is hidden from readers.
 */
export function WeekLine({ from, today, end }: { from: string; today: string; end: string }) {
  const days = daysBetween(from, end);
  if (days <= 0) return null;
  const x = (day: number) => 4 + (Math.min(Math.max(day, 0), days) / days) * (WIDTH - 8);
  const now = x(daysBetween(from, today));
  const weeks = Math.floor(days / 7);
  const every = Math.ceil(weeks / MOST_TICKS) || 1;
  const ticks = Array.from({ length: Math.floor(weeks / every) }, (_, index) => (index + 1) * 7 * every).filter(
    (day) => day < days,
  );
  return (
    <svg class="week-line" viewBox={`0 0 ${WIDTH} 24`} preserveAspectRatio="none" aria-hidden="true">
      <line x1="4" x2={WIDTH - 4} y1="12" y2="12" stroke="var(--line)" stroke-width="3" />
      <line x1="4" x2={now} y1="12" y2="12" stroke="var(--ink)" stroke-width="3" />
      {ticks.map((day) => (
        <line key={day} x1={x(day)} x2={x(day)} y1="9" y2="15" stroke="var(--dim)" stroke-width="2" />
      ))}
      <line x1={now} x2={now} y1="3" y2="21" stroke="var(--act)" stroke-width="4" />
      <line x1={WIDTH - 4} x2={WIDTH - 4} y1="3" y2="21" stroke="var(--good)" stroke-width="3" />
    </svg>
  );
}
