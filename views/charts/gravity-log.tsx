import type { Band } from "../../src/chem/bands.ts";

/** One reading in the drawing; null where it was not measured. */
export type LogPoint = {
  at: Date;
  gravity: number | null;
  flow: number | null;
  stirred: boolean;
};

type GravityLogProps = {
  /** Oldest first, one at least. */
  points: readonly LogPoint[];
  gravity: Band | null;
  flow: Band | null;
};

const width = 340;
const left = 44;
const right = 14;
const tall = 116;
const across = width - left - right;

/** How a bucket's gravity and flow went over time, against its target. The same stands in a table. */
export const GravityLog = ({ points, gravity, flow }: GravityLogProps) => {
  const times = points.map(({ at }) => at.getTime());
  const [from, to] = [Math.min(...times), Math.max(...times)];
  const x = (at: Date) => tidy(left + ((at.getTime() - from) / Math.max(to - from, 1)) * across);
  const gravities = placed(points, ({ gravity: value }) => value);
  const flows = placed(points, ({ flow: value }) => value);
  const height = 24 + tall + (flows.length > 0 ? 24 + tall : 0) + 24;
  return (
    <svg class="drift" viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="img">
      <title>How the bucket was over time</title>
      <desc>{logWords({ points, gravity, flow })}</desc>
      <Panel
        top={24}
        name="specific gravity"
        points={gravities}
        band={gravity}
        least={0.05}
        x={x}
      />
      {flows.length > 0 ? (
        <Panel top={48 + tall} name="flow, s" points={flows} band={flow} least={5} x={x} />
      ) : null}
      <text class="map-tick" x={left} y={height - 6}>
        {dayOf(new Date(from))}
      </text>
      {to > from ? (
        <text class="map-tick" x={width - right} y={height - 6} text-anchor="end">
          {dayOf(new Date(to))}
        </text>
      ) : null}
    </svg>
  );
};

type Placed = { at: Date; value: number; stirred: boolean };

const placed = (points: readonly LogPoint[], of: (point: LogPoint) => number | null): Placed[] =>
  points.flatMap((point) => {
    const value = of(point);
    return value === null ? [] : [{ at: point.at, value, stirred: point.stirred }];
  });

type PanelProps = {
  top: number;
  name: string;
  points: readonly Placed[];
  band: Band | null;
  /** The least that the panel is high, in what it draws. */
  least: number;
  x: (at: Date) => number;
};

const Panel = ({ top, name, points, band, least, x }: PanelProps) => {
  const ends = band ? [band.low.toNumber(), band.high.toNumber()] : [];
  const values = [...points.map(({ value }) => value), ...ends];
  const [lowest, highest] = [Math.min(...values), Math.max(...values)];
  const room = Math.max((highest - lowest) * 0.15, least / 4);
  const [floor, ceiling] = [lowest - room, highest + room];
  const y = (value: number) => tidy(top + tall - ((value - floor) / (ceiling - floor)) * tall);
  const each = stepOf(ceiling - floor);
  return (
    <>
      <text class="map-tick" x={2} y={top - 10}>
        {name}
      </text>
      {ticks(floor, ceiling, each).map((at) => (
        <>
          <line class="ramp-rule" x1={left} x2={width - right} y1={y(at)} y2={y(at)} />
          <text class="map-tick" x={left - 6} y={y(at) + 4} text-anchor="end">
            {Number(at.toFixed(3))}
          </text>
        </>
      ))}
      {ends.map((end) => (
        <line class="drift-tolerance" x1={left} x2={width - right} y1={y(end)} y2={y(end)} />
      ))}
      {band ? (
        <text class="drift-label" x={left + 4} y={y(band.high.toNumber()) - 5}>
          target
        </text>
      ) : null}
      <polyline
        class="ramp-line"
        points={points.map(({ at, value }) => `${x(at)},${y(value)}`).join(" ")}
      />
      {points.map(({ at, value, stirred }) => (
        <circle
          class={stirred ? "drift-point" : "drift-point log-unstirred"}
          cx={x(at)}
          cy={y(value)}
          r={4}
        />
      ))}
      <line class="map-axis" x1={left} x2={width - right} y1={top + tall} y2={top + tall} />
    </>
  );
};

const tidy = (place: number): number => Math.round(place * 100) / 100;

const dayOf = (at: Date): string => at.toISOString().slice(0, 10);

const stepOf = (span: number): number =>
  [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50].find((step) => span / step <= 5) ??
  span / 5;

function ticks(floor: number, ceiling: number, each: number): number[] {
  const first = Math.ceil(floor / each);
  const many = Math.floor(ceiling / each) - first + 1;
  return Array.from({ length: Math.max(many, 0) }, (_, place) => (first + place) * each);
}

/** What the drawing shows, for whoever does not see it. */
function logWords({ points, gravity, flow }: GravityLogProps): string {
  const said = points.map((point) => {
    const parts = [
      point.gravity === null ? "" : `gravity ${point.gravity}`,
      point.flow === null ? "" : `flow ${point.flow} s`,
      point.stirred ? "" : "not stirred",
    ];
    return `${dayOf(point.at)}: ${parts.filter(Boolean).join(", ")}`;
  });
  const targets = [
    gravity ? ` Gravity should be ${gravity.low} to ${gravity.high}.` : "",
    flow ? ` Flow should be ${flow.low} to ${flow.high} s.` : "",
  ];
  return `${said.join("; ")}.${targets.join("")}`;
}
