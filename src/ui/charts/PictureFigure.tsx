import { useState } from 'preact/hooks';
import { PICTURE } from '../otherWords';
import { dayTickText, valueText } from '../trendWords';
import { PictureChart } from './PictureChart';
import { isDrawn, type Picture } from './picture';
import { drawnOf, nearestPoint } from './pictureLayout';
import { IN_TIME, StepFigure } from './StepFigure';
import { useWidth } from './useWidth';

const HEIGHT = 200;

/** A picture with the numbers of one point under it: the one it opens with, else the last (in rows the first), until another is tapped or stepped to. */
export function PictureFigure({ picture, label }: { picture: Picture; label: string }) {
  const { ref, width } = useWidth();
  const [asked, ask] = useState<string>();
  const isRows = picture.as === 'rows';
  const stops = picture.points.filter(isDrawn);
  const found = stops.findIndex(({ key }) => key === (asked ?? picture.opens));
  const at = found >= 0 ? found : isRows ? 0 : stops.length - 1;
  const picked = stops[at];
  const drawn = drawnOf(
    picture,
    { width, height: HEIGHT },
    { value: (value) => valueText(value, picture), day: dayTickText },
  );
  if (!drawn || !picked) return null;
  return (
    <StepFigure
      frame={ref}
      how={PICTURE.how[picture.as]}
      at={at}
      count={stops.length}
      step={(to) => ask(stops[to]?.key)}
      tap={(x, y) => ask(nearestPoint(drawn, picture.as, x, y))}
      isDown={isRows}
      chart={<PictureChart drawn={drawn} label={label} picked={picked.key} isRows={isRows} />}
      said={picked.said.map((line) => <p key={line}>{line}</p>)}
      buttons={isRows ? PICTURE.rows : picture.as === 'weeks' ? PICTURE.weeks : IN_TIME}
      notes={picture.notes}
    />
  );
}
