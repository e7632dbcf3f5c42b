import { differsBy } from "../chem/nearest.ts";
import type { Moles } from "../chem/restating.ts";
import type { Neighbour } from "../db/nearest.ts";

/** A neighbour in chemistry as JSON: `differences` is what it has more (or, below 0, less) of. */
export const neighbourJson = ({ unity, distance, ...of }: Neighbour, to: Moles) => ({
  ...of,
  distance,
  differences: differsBy(to, unity),
  unity,
  says: "Not the same glaze.",
});
