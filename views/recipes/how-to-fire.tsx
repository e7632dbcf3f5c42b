import { cones } from "../../src/chem/cones.ts";
import { conesTested } from "../../src/chem/cones-tested.ts";
import { ConeRuler } from "../charts/cone-ruler.tsx";
import { capital, claimWords, coneInFull } from "../tiles/cone-words.ts";
import type { GalleryTile } from "../tiles/gallery.tsx";
import { ConesFired } from "./cones-tested.tsx";
import type { ShownRevision } from "./types.ts";

type HowToFireProps = { revision: ShownRevision; tiles: readonly GalleryTile[] };

/** What the recipe claims of its firing, and what its tiles bear out. */
export const HowToFire = ({ revision, tiles }: HowToFireProps) => (
  <section>
    <h2>How to fire it</h2>
    <p>
      {capital(claimWords(revision.cones))}, {revision.atmosphere}.{" "}
      {capital(coneInFull(revision.cones.low))}
      {revision.cones.low === revision.cones.high ? "" : `; ${coneInFull(revision.cones.high)}`}.
      Believe the witness cone beside the ware, not the programme.
    </p>
    <ConeRuler
      claimed={revision.cones}
      tested={[...new Set(tiles.filter(countsAlone).map((tile) => tile.cone))]}
      cones={cones}
      large
    />
    <ConesFired
      found={conesTested(revision, tiles.filter(countsAlone).map(asFired))}
      atmosphere={revision.atmosphere}
    />
    <p>Surface: {revision.surface || "not said"}.</p>
    {revision.about ? <p class="about">{revision.about}</p> : null}
  </section>
);

/** A layered tile speaks for its pair, and a withdrawn one for nothing. */
const countsAlone = ({ withdrawn, layered }: GalleryTile): boolean => !withdrawn && !layered;

const asFired = ({ firing, body, clay, ...tile }: GalleryTile) => ({
  ...tile,
  body: body?.name ?? clay,
  witness: firing?.witness ?? [],
});
