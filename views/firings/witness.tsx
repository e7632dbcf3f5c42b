import { witnessReads } from "../../src/chem/witness.ts";
import { ConeHeat } from "../parts/cone-heat.tsx";
import { Wide } from "../parts/wide.tsx";
import { readingWords } from "./firing-words.ts";
import type { Witness } from "./types.ts";

/** @param known the cone whose temperature the page told before. */
export const WitnessCones = ({
  witness,
  known,
}: {
  witness: readonly Witness[];
  known: string;
}) => {
  if (witness.length === 0)
    return <p>No witness cone is on record, so nobody can say which cone it came to.</p>;
  const others = witness.map(({ cone }) => cone).filter((cone) => cone !== known);
  return (
    <>
      <Wide label="The witness cones as a table">
        <table class="figures witness">
          <caption>Witness cones</caption>
          <thead>
            <tr>
              <th scope="col">Cone</th>
              <th scope="col">Bent by</th>
              <th scope="col">What that says</th>
              <th scope="col">Where it stood</th>
            </tr>
          </thead>
          <tbody>
            {witness.map(({ cone, bendDegrees, place }) => (
              <tr>
                <th scope="row">Cone {cone}</th>
                <td>{bendDegrees}°</td>
                <td>{readingWords[witnessReads(bendDegrees)]}</td>
                <td>{place === "" ? "not told" : place}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      {others.length === 0 ? null : (
        <p>
          <ConeHeat cones={others} />
        </p>
      )}
      <p>
        The bend is from upright: at 90° the tip is level with the base. Under 60° counts as not
        reached, over 120° as past; that is common practice, and an eye is no ruler.
      </p>
    </>
  );
};
