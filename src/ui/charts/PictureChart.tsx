import type { Drawn } from './pictureLayout';
import { Point, place } from './TrendChart';

type PictureChartProps = {
  readonly drawn: Drawn;
  /** What a reader is told instead of the picture. */
  readonly label: string;
  /** The point whose numbers stand under it. */
  readonly picked: string;
  readonly isRows: boolean;
};

/** The chart of an answer: bars, dots with their ranges, or lines, over days or in rows. */
export function PictureChart({ drawn, label, picked, isRows }: PictureChartProps) {
  const { width, height, plot, dense } = drawn;
  const radius = dense ? 2 : 4.5;
  const at = drawn.stops.find(({ key }) => key === picked);
  return (
    <svg
      class={`trend-chart picture${dense ? ' trend-dense' : ''}`}
      role="img"
      aria-label={label}
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
    >
      {drawn.range ? <rect class="picture-range" {...drawn.range} /> : null}
      {drawn.grid.map((one) => (
        <line key={`${one.x1} ${one.y1}`} class="trend-grid" {...one} />
      ))}
      {drawn.texts.map((one) => (
        <text key={`${one.x} ${one.y} ${one.text}`} {...place(one)}>
          {one.text}
        </text>
      ))}
      {drawn.level ? <line class="picture-level" {...drawn.level} /> : null}
      {at && isRows ? <rect class="picture-row" x={0} y={at.y - 26} width={width} height={44} rx={8} /> : null}
      {drawn.names.map((one) => (
        <text key={`${one.y}`} class="picture-name" {...place(one)}>
          {one.text}
        </text>
      ))}
      {at && !isRows ? <line class="trend-picked" x1={at.x} x2={at.x} y1={plot.top} y2={plot.bottom} /> : null}
      {drawn.bars.map(({ key, least, second, ...box }) => (
        <rect
          key={`${key} ${box.x} ${box.y}`}
          class={`picture-bar${second ? ' picture-bar-second' : ''}${least ? ' picture-least' : ''}${key === picked ? ' picture-bar-picked' : ''}`}
          {...box}
        />
      ))}
      {drawn.paths.map(({ as, path }) => (
        <g key={as} class={`trend-line trend-${as}`}>
          {path === '' ? null : <path class="trend-path" d={path} />}
        </g>
      ))}
      {drawn.whiskers.map(({ as, key, path }) => (
        <g key={`${key} ${as}`} class={`trend-line trend-${as}`}>
          <path class="picture-whisker" d={path} />
        </g>
      ))}
      {drawn.dots.map((dot) => (
        <g key={`${dot.key} ${dot.as}`} class={`trend-line trend-${dot.as}`}>
          <Point dot={dot} shape={dot.as} radius={dot.key === picked && !isRows ? radius + 2 : radius} />
        </g>
      ))}
    </svg>
  );
}
