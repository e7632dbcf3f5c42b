import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import {
  boundaries,
  type MapPoint,
  mapAxes,
  type StullPlace,
  series1912,
  stullPlace,
} from "../../src/chem/stull.ts";
import { plainNumber, Quantity } from "../parts/quantity.tsx";

type SilicaAluminaProps = { chemistry: Chemistry; cone: Cone | undefined };

/**
 * The glaze on the map of silica and alumina: its dot with its ±, and lines of equal ratio. The
 * fields of 1912 are named only for a glaze of that series.
 */
export const SilicaAlumina = ({ chemistry, cone }: SilicaAluminaProps) => {
  const place = stullPlace(chemistry, cone);
  return (
    <section class="silica-alumina">
      <h3>Silica and alumina</h3>
      {place.kind === "no-place" ? <p>{place.says}</p> : <Figure place={place} />}
    </section>
  );
};

type Placed = Extract<StullPlace, { kind: "place" }>;

const size = { width: 360, height: 300, left: 44, bottom: 40, top: 12, right: 48 };
const inner = {
  width: size.width - size.left - size.right,
  height: size.height - size.top - size.bottom,
};

const x = (alumina: number): number => {
  const { from, to } = mapAxes.Al2O3;
  return size.left + ((alumina - from) / (to - from)) * inner.width;
};
const y = (silica: number): number => {
  const { from, to } = mapAxes.SiO2;
  return size.top + inner.height - ((silica - from) / (to - from)) * inner.height;
};
const at = ({ Al2O3, SiO2 }: MapPoint) => ({ x: x(Al2O3), y: y(SiO2) });

const Figure = ({ place }: { place: Placed }) => (
  <figure>
    <Drawing place={place} />
    <figcaption>
      <p>
        Al₂O₃ <Quantity {...place.point.Al2O3} digits={3} />, SiO₂{" "}
        <Quantity {...place.point.SiO2} digits={3} />, ratio{" "}
        <Quantity
          value={place.ratio?.value ?? null}
          plusMinus={place.ratio?.plusMinus ?? 0}
          digits={2}
          reason="no alumina"
        />
        .{place.onTheMap ? "" : " It lies off the drawn part of the map."}
      </p>
      <p>
        {capital(place.says)}.{place.applies ? "" : ` ${place.why.join(" ")}`}
      </p>
      <p class="finding-source">Our own drawing. {series1912.source}.</p>
    </figcaption>
  </figure>
);

const Drawing = ({ place }: { place: Placed }) => (
  <svg
    class="map"
    viewBox={`0 0 ${size.width} ${size.height}`}
    width={size.width}
    height={size.height}
    role="img"
    aria-label="Silica over alumina in the unity formula"
  >
    <desc>
      {`The glaze at Al2O3 ${plainNumber(place.point.Al2O3.value, 3)} and SiO2 ${plainNumber(place.point.SiO2.value, 3)}, with lines of equal ratio at ${place.lines.map(({ ratio }) => ratio).join(", ")}.`}
    </desc>
    <path
      class="map-axis"
      d={`M${size.left} ${size.top}V${size.top + inner.height}H${size.left + inner.width}`}
    />
    {ticks(mapAxes.Al2O3.from, mapAxes.Al2O3.to, 0.2).map((value) => (
      <text class="map-tick" x={x(value)} y={size.top + inner.height + 16} text-anchor="middle">
        {plainNumber(value, 1)}
      </text>
    ))}
    {ticks(mapAxes.SiO2.from, mapAxes.SiO2.to, 2).map((value) => (
      <text class="map-tick" x={size.left - 8} y={y(value) + 4} text-anchor="end">
        {plainNumber(value, 0)}
      </text>
    ))}
    <text class="map-tick" x={size.left + inner.width / 2} y={size.height - 4} text-anchor="middle">
      Al₂O₃
    </text>
    <text class="map-tick" x={4} y={size.top + 4}>
      SiO₂
    </text>
    {place.lines.map((line) => {
      const [from, to] = [at(line.from), at(line.to)];
      return (
        <>
          <line class="map-ratio" x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
          <text class="map-tick" x={to.x + 4} y={to.y + 4}>
            {`${line.ratio} : 1`}
          </text>
        </>
      );
    })}
    {place.applies
      ? boundaries.map((boundary) => <FieldName ratio={boundary.ratio} name={boundary.below} />)
      : null}
    {place.onTheMap ? <Dot place={place} /> : null}
  </svg>
);

/** A field's name below the line that ends it. */
const FieldName = ({ ratio, name }: { ratio: number; name: string }) => (
  <text class="map-field" x={x(0.72)} y={y(0.72 * ratio) + 18} text-anchor="middle">
    {name}
  </text>
);

const Dot = ({ place }: { place: Placed }) => {
  const { Al2O3, SiO2 } = place.point;
  const centre = at({ Al2O3: Al2O3.value, SiO2: SiO2.value });
  return (
    <>
      <ellipse
        class="map-doubt"
        cx={centre.x}
        cy={centre.y}
        rx={Math.max(x(Al2O3.value + Al2O3.plusMinus) - centre.x, 1)}
        ry={Math.max(centre.y - y(SiO2.value + SiO2.plusMinus), 1)}
      />
      <circle class="map-dot" cx={centre.x} cy={centre.y} r={4} />
    </>
  );
};

const ticks = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.floor((to - from) / step + 1e-9) + 1 }, (_, n) => from + n * step);

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
