import { useApp } from '../app';
import { TrendOf } from '../charts/Trend';
import { Sheet } from '../parts/Sheet';
import { TREND } from '../trendWords';

type TrendSheetProps = {
  readonly place: { readonly stream: string; readonly session: string };
  readonly exercise: string;
  readonly close: () => void;
};

/** Every session of one exercise of a client's, over the session it is looked at from. */
export function TrendSheet({ place, exercise, close }: TrendSheetProps) {
  const { log, views } = useApp();
  return (
    <Sheet title={views.exercise(log, exercise)?.name ?? TREND.missing} onClose={close}>
      <TrendOf stream={place.stream} exercise={exercise} session={place.session} />
    </Sheet>
  );
}
