export type DriftPoint = { on: Date; deltaE: number };

type ColourDriftProps = {
  /** When the first proof tile was fired, which the others are held against. */
  from: Date;
  /** Oldest first. */
  points: readonly DriftPoint[];
  /** The studio's own line; none is drawn where it set none. */
  tolerance: number | null;
};

const size = { width: 340, height: 190, left: 40, right: 14, top: 22, bottom: 40 };
const across = size.width - size.left - size.right;
const up = size.height - size.top - size.bottom;

/** How far a bucket's proof tiles went from the first over time. The same stands in its table. */
export const ColourDrift = ({ from, points, tolerance }: ColourDriftProps) => {
  const last = points.at(-1)?.on ?? from;
  const span = Math.max(last.getTime() - from.getTime(), 1);
  const most = Math.max(2, tolerance ?? 0, ...points.map(({ deltaE }) => deltaE)) * 1.15;
  const each = stepOf(most);
  const x = (on: Date) => tidy(size.left + ((on.getTime() - from.getTime()) / span) * across);
  const y = (deltaE: number) => tidy(size.top + up - (deltaE / most) * up);
  const all = [{ on: from, deltaE: 0 }, ...points];
  return (
    <svg
      class="drift"
      viewBox={`0 0 ${size.width} ${size.height}`}
      width={size.width}
      height={size.height}
      role="img"
    >
      <title>How far the colour went from the first proof tile</title>
      <desc>{driftWords(points, tolerance)}</desc>
      <text class="map-tick" x={2} y={12}>
        ΔE00 from the first proof tile
      </text>
      {ticks(most, each).map((at) => (
        <>
          <line
            class="ramp-rule"
            x1={size.left}
            x2={size.width - size.right}
            y1={y(at)}
            y2={y(at)}
          />
          <text class="map-tick" x={size.left - 6} y={y(at) + 4} text-anchor="end">
            {at}
          </text>
        </>
      ))}
      {tolerance === null ? null : (
        <>
          <line
            class="drift-tolerance"
            x1={size.left}
            x2={size.width - size.right}
            y1={y(tolerance)}
            y2={y(tolerance)}
          />
          <text class="drift-label" x={size.left + 4} y={y(tolerance) - 5}>
            the studio's line, {tolerance}
          </text>
        </>
      )}
      <line class="map-axis" x1={size.left} x2={size.width - size.right} y1={y(0)} y2={y(0)} />
      <polyline
        class="ramp-line"
        points={all.map(({ on, deltaE }) => `${x(on)},${y(deltaE)}`).join(" ")}
      />
      {all.map(({ on, deltaE }) => (
        <circle class="drift-point" cx={x(on)} cy={y(deltaE)} r={4} />
      ))}
      <text class="map-tick" x={size.left} y={size.height - 18}>
        {dayOf(from)}
      </text>
      <text class="map-tick" x={size.width - size.right} y={size.height - 18} text-anchor="end">
        {dayOf(last)}
      </text>
    </svg>
  );
};

const tidy = (place: number): number => Math.round(place * 100) / 100;

const dayOf = (on: Date): string => on.toISOString().slice(0, 10);

const stepOf = (most: number): number =>
  [0.5, 1, 2, 5, 10, 20].find((step) => most / step <= 6) ?? 50;

const ticks = (most: number, each: number): number[] =>
  Array.from({ length: Math.floor(most / each) + 1 }, (_, place) => place * each);

/** What the drawing shows, for whoever does not see it. */
function driftWords(points: readonly DriftPoint[], tolerance: number | null): string {
  const said = points.map(({ on, deltaE }) => `${deltaE.toFixed(2)} on ${dayOf(on)}`);
  const line = tolerance === null ? "" : ` The studio's line is at ${tolerance}.`;
  return `Against the first proof tile: ${said.join(", ")}.${line}`;
}
