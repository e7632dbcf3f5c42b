const hatches = [
  "solid",
  "rising",
  "dots",
  "falling",
  "level",
  "cross",
  "upright",
  "open",
] as const;

type Hatch = (typeof hatches)[number];

/** The hatch of the nth line of a drawing, from 0; after the last it begins again. */
const hatchOf = (index: number): Hatch => hatches[index % hatches.length] ?? "solid";

type HatchedProps = { index: number; x: number; y: number; width: number; height: number };

/** Whether what is written on the nth line's hatch stands on solid ink. */
export const isSolid = (index: number): boolean => hatchOf(index) === "solid";

/** A rectangle in the hatch of the nth line; `Hatches` must stand in the same page. */
export const Hatched = ({ index, ...place }: HatchedProps) => {
  const hatch = hatchOf(index);
  return (
    <>
      <rect class={`bar bar-${hatch}`} {...place} />
      {hatch === "solid" || hatch === "open" ? null : (
        <rect fill={`url(#hatch-${hatch})`} {...place} />
      )}
    </>
  );
};

/** The hatch patterns, once for each drawing that uses them. */
export const Hatches = () => (
  <defs>
    <pattern id="hatch-rising" class="hatch" width="8" height="8" patternUnits="userSpaceOnUse">
      <path d="M-2 2 L2 -2 M0 8 L8 0 M6 10 L10 6" />
    </pattern>
    <pattern id="hatch-dots" class="hatch" width="6" height="6" patternUnits="userSpaceOnUse">
      <circle cx="3" cy="3" r="1.3" />
    </pattern>
    <pattern id="hatch-falling" class="hatch" width="8" height="8" patternUnits="userSpaceOnUse">
      <path d="M-2 6 L2 10 M0 0 L8 8 M6 -2 L10 2" />
    </pattern>
    <pattern id="hatch-level" class="hatch" width="6" height="6" patternUnits="userSpaceOnUse">
      <path d="M0 3 H6" />
    </pattern>
    <pattern id="hatch-cross" class="hatch" width="8" height="8" patternUnits="userSpaceOnUse">
      <path d="M0 0 L8 8 M0 8 L8 0" />
    </pattern>
    <pattern id="hatch-upright" class="hatch" width="6" height="6" patternUnits="userSpaceOnUse">
      <path d="M3 0 V6" />
    </pattern>
  </defs>
);
