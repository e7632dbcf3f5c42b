import { cones } from "../../src/chem/cones.ts";
import { conesTested } from "../../src/chem/cones-tested.ts";
import { ConeRuler } from "../charts/cone-ruler.tsx";
import { ConesFired } from "../recipes/cones-tested.tsx";
import { capital, claimWords } from "../tiles/cone-words.ts";
import type { ShownPiece, Temperature } from "./types.ts";
import { coneHeat } from "./words.ts";

type FiringProps = { piece: ShownPiece; temperature: Temperature };

/** How to fire it, and what its tiles bear out. */
export const Firing = ({ piece, temperature }: FiringProps) => {
  const { cones: claimed, atmosphere, surface, about } = piece;
  const counted = piece.tiles.filter(({ layered }) => !layered);
  const ends = claimed.low === claimed.high ? [claimed.low] : [claimed.low, claimed.high];
  return (
    <>
      <h3>How to fire it</h3>
      <p>
        {capital(claimWords(claimed))}, {atmosphere}.{" "}
        {capital(ends.map((cone) => coneHeat(cone, temperature)).join("; "))}. Believe the witness
        cone beside the ware, not the programme: another kiln at the same temperature is another
        firing.
      </p>
      <ConeRuler
        claimed={claimed}
        tested={[...new Set(counted.map(({ cone }) => cone))]}
        cones={cones}
        large
      />
      <ConesFired
        found={conesTested(
          piece,
          counted.map(({ firing, body, clay, ...tile }) => ({
            ...tile,
            body: body?.name ?? clay,
            witness: firing?.witness ?? [],
          })),
        )}
        atmosphere={atmosphere}
      />
      <p>Surface: {surface || "not said"}.</p>
      {about ? <p class="about">{about}</p> : null}
    </>
  );
};
