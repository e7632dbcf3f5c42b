type Point = { size: number; reached: number; bound: number; proven: boolean };

type ShelfCurveProps = {
  points: readonly Point[];
  /** The size that was asked for. */
  chosen: number;
  /** How many recipes there are to reach. */
  recipes: number;
};

const size = { width: 360, height: 220, left: 36, right: 12, top: 12, bottom: 40 };
const inner = {
  width: size.width - size.left - size.right,
  height: size.height - size.top - size.bottom,
};

/** How many recipes a shelf reaches with each more material, drawn and as a table. */
export const ShelfCurve = ({ points, chosen, recipes }: ShelfCurveProps) => (
  <figure class="shelf-curve">
    <figcaption>Recipes reached by the best shelf of each size</figcaption>
    <Drawing points={points} chosen={chosen} recipes={recipes} />
    <table class="lines">
      <caption class="hidden-words">Recipes reached by the best shelf of each size</caption>
      <thead>
        <tr>
          <th scope="col" class="number">
            Materials
          </th>
          <th scope="col" class="number">
            Recipes
          </th>
          <th scope="col">Proven</th>
        </tr>
      </thead>
      <tbody>
        {points.map(({ size: many, reached, bound, proven }) => (
          <tr>
            <th scope="row" class="number">
              {many}
            </th>
            <td class="number">{reached}</td>
            <td>{proven ? "yes" : bound > reached ? `no, up to ${bound}` : "as many as can be"}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </figure>
);

const Drawing = ({ points, chosen, recipes }: ShelfCurveProps) => {
  const last = points.at(-1)?.size ?? 1;
  const x = (many: number) => size.left + (many / last) * inner.width;
  const y = (reached: number) =>
    size.top + inner.height - (reached / Math.max(1, recipes)) * inner.height;
  const path = points.map(({ size: many, reached }) => `L${x(many)} ${y(reached)}`).join("");
  return (
    <svg
      class="map"
      viewBox={`0 0 ${size.width} ${size.height}`}
      width={size.width}
      height={size.height}
      role="img"
      aria-label="Recipes reached against the number of materials"
    >
      <desc>
        {points
          .map(({ size: many, reached }) => `${many} materials: ${reached} recipes`)
          .join("; ")}
        .
      </desc>
      <path
        class="map-axis"
        d={`M${size.left} ${size.top}V${size.top + inner.height}H${size.left + inner.width}`}
      />
      <path class="curve-line" d={`M${x(0)} ${y(0)}${path}`} />
      {points.map(({ size: many, reached }) => (
        <>
          <circle
            class={many === chosen ? "map-dot" : "curve-dot"}
            cx={x(many)}
            cy={y(reached)}
            r={many === chosen ? 5 : 4}
          />
          <text class="map-tick" x={x(many)} y={size.top + inner.height + 16} text-anchor="middle">
            {many}
          </text>
        </>
      ))}
      {[0, recipes].map((count) => (
        <text class="map-tick" x={size.left - 8} y={y(count) + 4} text-anchor="end">
          {count}
        </text>
      ))}
      <text
        class="map-tick"
        x={size.left + inner.width / 2}
        y={size.height - 6}
        text-anchor="middle"
      >
        materials
      </text>
    </svg>
  );
};
