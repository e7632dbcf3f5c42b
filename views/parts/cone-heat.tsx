import { compareCones, coneCelsius, isCone } from "../../src/chem/cones.ts";

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
      {heats.map(({ cone, celsius }) => `Cone ${cone} ends near ${celsius} °C`).join("; ")}, heated
      at {first.rate} °C an hour ({first.series}). Believe the witness cone.
    </span>
  ) : null;
};
