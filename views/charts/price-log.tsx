/** What a kilogram cost at one time. */
export type PricePoint = { at: Date; perKilogram: number; from: "lot" | "list" };

type PriceLogProps = { name: string; currency: string; points: readonly PricePoint[] };

const width = 340;
const left = 44;
const right = 14;
const top = 24;
const tall = 116;
const height = top + tall + 24;

/** What a kilogram of a powder cost over time: filled points were paid. The same stands in a table. */
export const PriceLog = ({ name, currency, points }: PriceLogProps) => {
  const times = points.map(({ at }) => at.getTime());
  const [from, to] = [Math.min(...times), Math.max(...times)];
  const highest = Math.max(...points.map(({ perKilogram }) => perKilogram), 0.01);
  const each = stepOf(highest);
  const ceiling = Math.ceil(highest / each) * each;
  const x = (at: Date) =>
    tidy(left + ((at.getTime() - from) / Math.max(to - from, 1)) * (width - left - right));
  const y = (price: number) => tidy(top + tall - (price / ceiling) * tall);
  const paid = points.filter((point) => point.from === "lot");
  return (
    <svg class="drift" viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="img">
      <title>What {name} cost over time</title>
      <desc>{logWords({ name, currency, points })}</desc>
      <text class="map-tick" x={2} y={top - 10}>
        {currency} a kilogram
      </text>
      {ticks(ceiling, each).map((at) => (
        <>
          <line class="ramp-rule" x1={left} x2={width - right} y1={y(at)} y2={y(at)} />
          <text class="map-tick" x={left - 6} y={y(at) + 4} text-anchor="end">
            {Number(at.toFixed(4))}
          </text>
        </>
      ))}
      <polyline
        class="ramp-line"
        points={paid.map(({ at, perKilogram }) => `${x(at)},${y(perKilogram)}`).join(" ")}
      />
      {points.map(({ at, perKilogram, from: is }) => (
        <circle
          class={is === "lot" ? "drift-point" : "drift-point log-unstirred"}
          cx={x(at)}
          cy={y(perKilogram)}
          r={4}
        />
      ))}
      <line class="map-axis" x1={left} x2={width - right} y1={top + tall} y2={top + tall} />
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

const tidy = (place: number): number => Math.round(place * 100) / 100;

const dayOf = (at: Date): string => at.toISOString().slice(0, 10);

/** The round step that gives five rules at the most. */
function stepOf(highest: number): number {
  const power = 10 ** Math.floor(Math.log10(highest));
  return [0.2, 0.5, 1, 2].map((step) => step * power).find((step) => highest / step <= 5) ?? power;
}

const ticks = (ceiling: number, each: number): number[] =>
  Array.from({ length: Math.round(ceiling / each) + 1 }, (_, place) => place * each);

/** What the drawing shows, for whoever does not see it. */
const logWords = ({ currency, points }: PriceLogProps): string =>
  `${points
    .map(
      ({ at, perKilogram, from }) =>
        `${dayOf(at)}: ${perKilogram.toFixed(2)} ${currency}${from === "lot" ? "" : ", on a list"}`,
    )
    .join("; ")}.`;
