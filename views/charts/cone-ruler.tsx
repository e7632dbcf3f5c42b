export type ConeRange = { low: string; high: string };

type ConeRulerProps = {
  claimed: ConeRange | undefined;
  tested: readonly string[];
  cones: readonly string[];
  large?: boolean | undefined;
};

/** What a ruler shows, in words: "Cone 5 to 6 claimed, tested at 6." */
export const sayCones = (claimed: ConeRange | undefined, tested: readonly string[]): string => {
  const claim = claimed ? `Cone ${range(claimed)} claimed` : "No cone claimed";
  return tested.length > 0 ? `${claim}, tested at ${list(tested)}` : `${claim}, none tested`;
};

const range = ({ low, high }: ConeRange): string => (low === high ? low : `${low} to ${high}`);

const list = (cones: readonly string[]): string =>
  cones.length < 2 ? cones.join("") : `${cones.slice(0, -1).join(", ")} and ${cones.at(-1)}`;

const small = { width: 150, height: 22, pad: 6, mark: 5 };
const big = { width: 340, height: 64, pad: 14, mark: 8 };

/**
 * A ruler of cones, coolest on the left: an outline for the cones the recipe claims, a solid mark
 * for each that was tested by a tile. The words beside it say the same.
 *
 * @param cones every cone on the ruler, in firing order. A cone outside it is said, not drawn.
 */
export const ConeRuler = ({ claimed, tested, cones, large }: ConeRulerProps) => {
  const words = sayCones(claimed, tested);
  return (
    <span class={large ? "ruler ruler-large" : "ruler"}>
      <Drawing claimed={claimed} tested={tested} cones={cones} words={words} large={large} />
      <span class="ruler-words">{words}</span>
    </span>
  );
};

const Drawing = ({ claimed, tested, cones, words, large }: ConeRulerProps & { words: string }) => {
  const size = large ? big : small;
  const step = (size.width - 2 * size.pad) / Math.max(cones.length - 1, 1);
  const at = (cone: string): number => size.pad + cones.indexOf(cone) * step;
  const onRuler = (cone: string): boolean => cones.includes(cone);
  const middle = size.height / 2;
  const shown = tested.filter(onRuler);
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
      <line class="ruler-line" x1={size.pad} y1={middle} x2={size.width - size.pad} y2={middle} />
      {cones.map((cone) => (
        <line class="ruler-tick" x1={at(cone)} y1={middle - 3} x2={at(cone)} y2={middle + 3} />
      ))}
      {outline ? (
        <rect
          class="ruler-claimed"
          x={at(outline.low) - size.mark}
          y={middle - size.mark - 2}
          width={at(outline.high) - at(outline.low) + 2 * size.mark}
          height={2 * size.mark + 4}
        />
      ) : null}
      {shown.map((cone) => (
        <circle class="ruler-tested" cx={at(cone)} cy={middle} r={size.mark - 1.5} />
      ))}
      {large ? <Labels cones={cones} claimed={outline} tested={shown} at={at} /> : null}
    </svg>
  );
};

type LabelsProps = {
  cones: readonly string[];
  claimed: ConeRange | undefined;
  tested: readonly string[];
  at: (cone: string) => number;
};

const Labels = ({ cones, claimed, tested, at }: LabelsProps) => {
  const ends = [cones[0], cones.at(-1)].filter((cone) => cone !== undefined);
  const claims = claimed ? [claimed.low, claimed.high] : [];
  return (
    <>
      {apart([...claims, ...ends], at).map((cone) => (
        <text class="ruler-label" x={at(cone)} y={60} text-anchor="middle">
          {cone}
        </text>
      ))}
      {apart(tested, at).map((cone) => (
        <text class="ruler-label ruler-label-tested" x={at(cone)} y={13} text-anchor="middle">
          {cone}
        </text>
      ))}
    </>
  );
};

const labelWidth = 18;

/** The cones that can carry a label without touching an earlier one's. */
const apart = (cones: readonly string[], at: (cone: string) => number): string[] => {
  const kept: string[] = [];
  for (const cone of cones) {
    if (kept.every((other) => Math.abs(at(other) - at(cone)) >= labelWidth)) kept.push(cone);
  }
  return kept;
};
