import { compareCones, coneCelsius, isCone } from "../../src/chem/cones.ts";
import { degrees, degreesApart, heatFirst } from "./degrees.ts";

/** How hot the named cones are, since their names mislead: 04 and 4 are far apart. */
export const ConeHeat = ({ cones }: { cones: readonly string[] }) => {
  const heats = [...new Set(cones)]
    .filter((cone) => isCone(cone))
    .sort(compareCones)
    .flatMap((cone) => {
      const heat = coneCelsius(cone);
      return heat ? [{ cone, ...heat }] : [];
    });
  const [first] = heats;
  return first ? (
    <span class="ruler-heat">
      {heats
        .map(({ cone, celsius }) =>
          heatFirst()
            ? `About ${degrees(celsius)}: cone ${cone} ends`
            : `Cone ${cone} ends near ${degrees(celsius)}`,
        )
        .join("; ")}
      , heated at {degreesApart(first.rate)} an hour ({first.series}). Believe the witness cone.
    </span>
  ) : null;
};
