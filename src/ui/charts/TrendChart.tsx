import type { Chart, Dot, Line, Shape } from './layout';
import type { OverlayShapes } from './overlay';

type TrendChartProps = {
  readonly chart: Chart;
  /** What a reader is told instead of the picture. */
  readonly label: string;
  /** The session whose numbers stand under the chart. */
  readonly picked: string;
};

/** The chart as a picture; what it shows of one session stands in words under it. */
export function TrendChart({ chart, label, picked }: TrendChartProps) {
  const { width, height, plot, stops } = chart;
  const radius = chart.dense ? 2 : 4.5;
  const at = stops.find((stop) => stop.session === picked);
  return (
    <svg
      class={`trend-chart${chart.dense ? ' trend-dense' : ''}${chart.overlay ? ' trend-with-band' : ''}`}
      role="img"
      aria-label={label}
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
    >
      <text {...place(chart.caption)}>{chart.caption.text}</text>
      {chart.values.map((value) => (
        <g key={value.text}>
          <line
            class={value.zero ? 'trend-zero' : 'trend-grid'}
            x1={plot.left}
            x2={plot.right}
            y1={value.y}
            y2={value.y}
          />
          <text {...place(value)} dy="0.32em">
            {value.text}
          </text>
        </g>
      ))}
      {chart.days.map((day) => (
        <text key={`${day.x} ${day.text}`} {...place(day)}>
          {day.text}
        </text>
      ))}
      {chart.overlay ? <Laid overlay={chart.overlay} /> : null}
      {at ? <line class="trend-picked" x1={at.x} x2={at.x} y1={plot.top} y2={plot.bottom} /> : null}
      {chart.marks.map((mark) => (
        <g key={mark.session} class="trend-mark">
          <path d={`M${mark.head},${mark.y + 4}L${mark.at},${mark.foot - radius - 3}`} />
          <text {...place(mark)}>{mark.text}</text>
        </g>
      ))}
      {[...chart.lines].reverse().map((line) => (
        <SideLine key={line.side ?? 'both'} line={line} radius={radius} picked={picked} />
      ))}
    </svg>
  );
}

/** Returns where a text stands, as its attributes. */
export const place = ({ x, y, anchor }: { x: number; y: number; anchor: 'start' | 'middle' | 'end' }) => ({
  x,
  y,
  'text-anchor': anchor,
});

/** What could be done with its band, the forecast, what each day needs, and the goal. */
function Laid({ overlay: { sides, needed, goal } }: { overlay: OverlayShapes }) {
  return (
    <g>
      {sides.map(({ side, band, line, fan, ahead }) => (
        <g key={side ?? 'both'} class={`trend-could trend-could-${side ?? 'both'}`}>
          <path class="trend-band" d={band} />
          <path class="trend-fan" d={fan} />
          <path class="trend-level" d={line} />
          <path class="trend-ahead" d={ahead} />
        </g>
      ))}
      {needed === '' ? null : <path class="trend-needed" d={needed} />}
      {goal ? (
        <path
          class="trend-goal"
          d={`M${goal.x - 6},${goal.y}L${goal.x + 6},${goal.y}M${goal.x},${goal.y - 6}L${goal.x},${goal.y + 6}`}
        />
      ) : null}
    </g>
  );
}

function SideLine({ line, radius, picked }: { line: Line; radius: number; picked: string }) {
  const { end } = line;
  return (
    <g class={`trend-line trend-${line.shape}`}>
      {line.gaps === '' ? null : <path class="trend-gap" d={line.gaps} />}
      {line.path === '' ? null : <path class="trend-path" d={line.path} />}
      {line.dots.map((dot) => (
        <g key={dot.session}>
          {dot.pain ? <circle class="trend-pain" cx={dot.x} cy={dot.y} r={radius + 4} /> : null}
          <Point dot={dot} shape={line.shape} radius={dot.session === picked ? radius + 2 : radius} />
        </g>
      ))}
      {end ? (
        <>
          <Point dot={{ x: end.x + 5, y: end.y }} shape={line.shape} radius={4.5} />
          <text x={end.x + 16} y={end.y} dy="0.32em">
            {end.text}
          </text>
        </>
      ) : null}
    </g>
  );
}

/** One point: a disc, an open square or an open diamond. */
export function Point({ dot: { x, y }, shape, radius }: { dot: Pick<Dot, 'x' | 'y'>; shape: Shape; radius: number }) {
  if (shape === 'disc') return <circle class="trend-point" cx={x} cy={y} r={radius} />;
  // open, and larger: where both sides are alike, the disc is seen inside
  if (shape === 'square') {
    const half = radius < 3 ? radius + 1 : radius + 1.5;
    return <rect class="trend-point" x={x - half} y={y - half} width={2 * half} height={2 * half} />;
  }
  const far = radius + 4;
  return <path class="trend-point" d={`M${x},${y - far}L${x + far},${y}L${x},${y + far}L${x - far},${y}Z`} />;
}
