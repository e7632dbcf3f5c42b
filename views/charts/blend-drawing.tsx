import type { BlendKind } from "../../src/chem/blends.ts";
import { tileMark } from "../../src/chem/tile-marks.ts";
import { type ShownValue, tintOf } from "../../src/chem/trial-values.ts";
import { cornerNames } from "../blends/words.ts";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";

export type DrawnPoint = { n: number; at: readonly number[]; value: number | null; stops: boolean };

type BlendDrawingProps = {
  kind: BlendKind;
  points: readonly DrawnPoint[];
  shown: ShownValue;
  /** What a point's tile carries, where that is more than its kind and number. */
  markOf?: ((n: number) => string) | undefined;
};

const width = 640;
const edge = 48;
const inner = width - 2 * edge;

/**
 * The points where they lie: on a line, in a triangle or a square, tinted by a value. Tint alone
 * tells nothing: where there is room the value is written at each point, and the table has them all.
 */
export const BlendDrawing = ({
  kind,
  points,
  shown,
  markOf = (n) => tileMark(kind, n),
}: BlendDrawingProps) => {
  const placed = placesOf(kind, points);
  const values = points.flatMap(({ value }) => value ?? []);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const height = Math.max(...placed.map(({ y }) => y)) + 44;
  const writes = closest(placed) >= 36;
  const markAt = (value: number) => markOf(points.find((point) => point.value === value)?.n ?? 1);
  return (
    <figure class="trial-drawing">
      <Wide label="The points, drawn">
        <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="img">
          <title>{shown.says}</title>
          <desc>{points.map(({ n, value }) => `${markOf(n)}: ${written(value)}`).join("; ")}</desc>
          {placed.map(({ x, y, point: { n, value, stops } }) => (
            <>
              {stops ? (
                <rect class="trial-stop" x={x - 13} y={y - 13} width={26} height={26} />
              ) : null}
              <circle
                class={`trial-dot ${value === null ? "" : `tint-${tintOf(value, least, most)}`}`}
                cx={x}
                cy={y}
                r={9}
              />
              {writes ? (
                <>
                  <text class="trial-mark" x={x} y={y - 17} text-anchor="middle">
                    {markOf(n)}
                  </text>
                  <text class="trial-value" x={x} y={y + 26} text-anchor="middle">
                    {written(value)}
                  </text>
                </>
              ) : null}
            </>
          ))}
          {cornersOf(kind, placed).map(({ name, x, y }) => (
            <text class="trial-corner" x={x} y={y} text-anchor="middle">
              {name}
            </text>
          ))}
        </svg>
      </Wide>
      <figcaption>
        {values.length === 0 ? (
          <p>{shown.says} has no value at any point.</p>
        ) : most - least < 1e-9 ? (
          <p>
            {shown.says} is {written(most)} at every point.
          </p>
        ) : (
          <p>
            {shown.says}
            {shown.unit ? `, ${shown.unit}` : ""}: least {written(least)} at {markAt(least)}, an
            open dot; most {written(most)} at {markAt(most)}, a full one.
          </p>
        )}
        <p>
          A square round a point: the screen stops it.
          {writes ? "" : " The points lie too close to be written at; the table has each value."}
        </p>
      </figcaption>
    </figure>
  );
};

const written = (value: number | null): string =>
  value === null ? "none" : plainNumber(value, Math.abs(value) >= 10 ? 1 : 2);

type Placed = { x: number; y: number; point: DrawnPoint };

function placesOf(kind: BlendKind, points: readonly DrawnPoint[]): Placed[] {
  const last = Math.max(1, points.length - 1);
  return points.map((point, index) => ({ ...placeOf(kind, point.at, index / last), point }));
}

const top = 60;

/** @param along how far along a ladder, from 0 to 1. */
function placeOf(kind: BlendKind, at: readonly number[], along: number) {
  const [a = 0, b = 0, c = 0, d = 0] = at;
  switch (kind) {
    case "ladder":
      return { x: edge + inner * along, y: top };
    case "line":
      return { x: edge + inner * b, y: top };
    case "triaxial":
      return { x: edge + inner * (a / 2 + c), y: top + inner * 0.86 * (1 - a) };
    case "grid":
      return { x: edge + inner * (b + d), y: top + inner * 0.8 * (c + d) };
  }
}

function closest(placed: readonly Placed[]): number {
  const [first, ...others] = placed;
  if (!first) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (const [at, one] of placed.entries())
    for (const other of placed.slice(at + 1))
      least = Math.min(least, Math.hypot(one.x - other.x, one.y - other.y));
  return others.length === 0 ? inner : least;
}

/** A corner's letter beside the point that is that corner alone. */
function cornersOf(kind: BlendKind, placed: readonly Placed[]) {
  if (kind === "ladder") return [];
  return cornerNames.flatMap((name, at) => {
    const own = placed.find(({ point }) => point.at[at] === 1);
    if (!own) return [];
    const isLeft = own.x < width / 2 - 1;
    const isRight = own.x > width / 2 + 1;
    return [
      {
        name,
        x: own.x + (isLeft ? -28 : isRight ? 28 : 0),
        y: own.y + (isLeft || isRight ? 5 : -34),
      },
    ];
  });
}
