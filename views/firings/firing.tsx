import type { Child } from "hono/jsx";
import { witnessReads } from "../../src/chem/witness.ts";
import { KilnCaution } from "../parts/cautions.tsx";
import { ConeHeat } from "../parts/cone-heat.tsx";
import { Wide } from "../parts/wide.tsx";
import { When } from "../people/when.tsx";
import { capital, coneInFull } from "../tiles/cone-words.ts";
import { kindWords, readingWords } from "./firing-words.ts";
import { KilnPages } from "./kiln-pages.tsx";
import { Programme } from "./programme.tsx";
import { type StoodTile, StoodTiles } from "./stood-tiles.tsx";
import type { Firing, Witness } from "./types.ts";

type FiringPageProps = { firing: Firing; tiles: readonly StoodTile[] };

/** One firing: what it was for, what its witness cones say, how it was set, and what stood in it. */
export const FiringPage = ({ firing, tiles }: FiringPageProps) => (
  <article id="firing">
    <h1>
      Firing of {firing.kiln.name}, cone {firing.cone}
    </h1>
    <KilnPages here="/firings" />
    <dl class="tile-facts">
      <Fact name="Kiln">
        <a href={`/kilns/${firing.kiln.slug}`}>{firing.kiln.name}</a>
      </Fact>
      <Fact name="Kind">{kindWords(firing)}</Fact>
      <Fact name="Fired for">{capital(coneInFull(firing.cone))}</Fact>
      <Fact name="Started">
        <When at={firing.startedAt} clock />
      </Fact>
      <Fact name="Put on record by">
        {firing.by.name}, <When at={firing.at} />
      </Fact>
    </dl>
    {firing.remark === "" ? null : <p class="about">{firing.remark}</p>}
    <h2>What the witness cones say</h2>
    <p>
      <strong>Believe the witness cone beside the ware, not the programme.</strong>
    </p>
    <WitnessCones witness={firing.witness} known={firing.cone} />
    <h2>How it was set</h2>
    <Programme programme={firing.programme} />
    <h2>Tiles that stood in it</h2>
    <StoodTiles tiles={tiles} />
    <KilnCaution />
  </article>
);

/** @param known the cone whose temperature the page told before. */
const WitnessCones = ({ witness, known }: { witness: readonly Witness[]; known: string }) => {
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

const Fact = ({ name, children }: { name: string; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
