import { compareCones, isCone } from "../../src/chem/cones.ts";
import { ConeHeat } from "../parts/cone-heat.tsx";

export type ConeRange = { low: string; high: string };

type ConeRulerProps = {
  claimed: ConeRange | undefined;
  tested: readonly string[];
  cones: readonly string[];
  large?: boolean | undefined;
};

/** What a ruler shows, in words: "Cone 5 to 6 claimed, tested at 6". */
export const sayCones = (claimed: ConeRange | undefined, tested: readonly string[]): string => {
  const claim = claimed ? `Cone ${range(claimed)} claimed` : "No cone claimed";
  return tested.length > 0
    ? `${claim}, tested at ${list(inOrder(tested))}`
    : `${claim}, none tested`;
};

const inOrder = (cones: readonly string[]): string[] => cones.filter(isCone).sort(compareCones);

const range = ({ low, high }: ConeRange): string => (low === high ? low : `${low} to ${high}`);

const list = (cones: readonly string[]): string =>
  cones.length < 2 ? cones.join("") : `${cones.slice(0, -1).join(", ")} and ${cones.at(-1)}`;

/**
 * A ruler of cones, coolest on the left: an outline for the cones the recipe claims, a solid mark
 * for each that was tested by a tile. The words beside it say the same.
 *
 * @param cones every cone on the ruler, in firing order. A cone outside it is said, not drawn.
 * @param large for a page of its own: named cones, drawn around those in use, and how hot they are.
 */
export const ConeRuler = ({ claimed, tested, cones, large }: ConeRulerProps) => {
  const words = sayCones(claimed, tested);
  const inUse = [...(claimed ? [claimed.low, claimed.high] : []), ...tested];
  const shown = large ? stretchOf(cones, inUse) : cones;
  return (
    <span class={large ? "ruler ruler-large" : "ruler"}>
      <Drawing claimed={claimed} tested={tested} cones={shown} words={words} large={large} />
      <span class="ruler-words">{words}</span>
      {large ? <ConeHeat cones={inUse} /> : null}
    </span>
  );
};

/** The part of a ruler around the cones in use, three either side; all of it where none is. */
export const stretchOf = (
  cones: readonly string[],
  inUse: readonly string[],
): readonly string[] => {
  const places = inUse.map((cone) => cones.indexOf(cone)).filter((place) => place >= 0);
  if (places.length === 0) return cones;
  return cones.slice(Math.max(Math.min(...places) - 3, 0), Math.max(...places) + 4);
};

const small = { width: 150, height: 22, pad: 8, mark: 5, widest: 4 };
const big = { width: 340, height: 58, pad: 14, mark: 9, widest: 7 };

type DrawingProps = ConeRulerProps & { words: string };

const Drawing = ({ claimed, tested, cones, words, large }: DrawingProps) => {
  const size = large ? big : small;
  const step = (size.width - 2 * size.pad) / Math.max(cones.length - 1, 1);
  const at = (cone: string): number => tidy(size.pad + cones.indexOf(cone) * step);
  const middle = size.mark + 6;
  const half = tidy(Math.min(size.widest, step * 0.36));
  const onRuler = (cone: string): boolean => cones.includes(cone);
  const marks = tested.filter(onRuler);
  const outline = claimed && onRuler(claimed.low) && onRuler(claimed.high) ? claimed : undefined;

  return (
    <svg
      class="ruler-drawing"
      viewBox={`0 0 ${size.width} ${size.height}`}
      width={size.width}
      height={size.height}
      role="img"
    >
      <title>Cone ruler</title>
      <desc>{words}</desc>
      <path class="ruler-line" d={lineWith(cones.map(at), { ...size, middle })} />
      {outline ? (
        <rect
          class="ruler-claimed"
          x={tidy(at(outline.low) - half - 3)}
          y={middle - size.mark - 3}
          width={tidy(at(outline.high) - at(outline.low) + 2 * half + 6)}
          height={2 * size.mark + 6}
        />
      ) : null}
      {marks.map((cone) => (
        <rect
          class="ruler-tested"
          x={tidy(at(cone) - half)}
          y={middle - size.mark}
          width={2 * half}
          height={2 * size.mark}
        />
      ))}
      {large ? <Labels cones={cones} tested={marks} at={at} /> : null}
    </svg>
  );
};

/** The line and a tick for each place as one path: a list draws many rulers. */
const lineWith = (
  places: readonly number[],
  { pad, width, middle }: { pad: number; width: number; middle: number },
): string =>
  `M${pad} ${middle}H${width - pad}${places.map((place) => `M${place} ${middle - 3}v6`).join("")}`;

const tidy = (place: number): number => Math.round(place * 100) / 100;

type LabelsProps = {
  cones: readonly string[];
  tested: readonly string[];
  at: (cone: string) => number;
};

const Labels = ({ cones, tested, at }: LabelsProps) => (
  <>
    {apart([...tested, ...cones], at).map((cone) => (
      <text
        class={tested.includes(cone) ? "ruler-label ruler-label-tested" : "ruler-label"}
        x={at(cone)}
        y={50}
        text-anchor="middle"
      >
        {cone}
      </text>
    ))}
  </>
);

/** The cones that can carry a label without crowding an earlier one's. */
const apart = (cones: readonly string[], at: (cone: string) => number): string[] => {
  const kept: string[] = [];
  for (const cone of cones) {
    const room = (other: string): number => 4 * (cone.length + other.length) + 6;
    if (kept.every((other) => Math.abs(at(other) - at(cone)) >= room(other))) kept.push(cone);
  }
  return kept;
};
