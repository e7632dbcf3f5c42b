import { cones } from "../../src/chem/cones.ts";
import { ConeRuler } from "../charts/cone-ruler.tsx";
import { Cautions, DustCaution, FoodCaution } from "../parts/cautions.tsx";
import { ChemistryTables } from "../parts/chemistry.tsx";
import { Findings } from "../parts/findings.tsx";
import { hazards } from "../parts/hazard-words.ts";
import { powderName } from "../parts/powder-name.tsx";
import { Standing, type StandingIs, Use, type UseIs } from "../parts/standing.tsx";
import { When } from "../people/when.tsx";
import { LineTable } from "../recipes/lines.tsx";
import type { ShownRevision } from "../recipes/types.ts";
import { capital, claimWords, coneInFull } from "../tiles/cone-words.ts";

type SharedProps = {
  recipe: { name: string; owner: { name: string } };
  revision: ShownRevision;
  standing: { is: StandingIs; for: UseIs | null };
};

/**
 * One revision as its link shows it: whole, with its cautions, and with no way to anything that
 * whoever holds the link may not read.
 */
export const SharedPage = ({ recipe, revision, standing }: SharedProps) => {
  const { chemistry, lines } = revision;
  const warnings = chemistry.findings.filter(({ level }) => level !== "note");
  const isApproved = standing.is === "approved";
  const known = new Set(lines.flatMap(({ material }) => material.hazards));
  return (
    <article class="recipe">
      <h1>{recipe.name}</h1>
      <p class="recipe-by">
        {recipe.owner.name}, revision {revision.number}
      </p>
      <p class="notice">Shared by a link; ask whether it still holds.</p>
      <section id="use">
        <h2>May I use it on a mug?</h2>
        <p class="answer">{answerOf(revision.use, standing)}</p>
        <Use use={revision.use} long />
        <p>
          <Standing is={standing.is} for={isApproved ? (standing.for ?? undefined) : undefined} />{" "}
          when you opened this page.
        </p>
        {warnings.length > 0 ? <Findings findings={warnings} /> : null}
        <FoodCaution use={revision.use} />
      </section>
      <section>
        <h2>What to weigh</h2>
        <LineTable
          lines={lines}
          caption={`${recipe.name}, revision ${revision.number}`}
          linked={false}
        />
        {known.has("dust") ? null : <DustCaution />}
        <Cautions hazards={hazards.filter((hazard) => known.has(hazard))} />
      </section>
      <section>
        <h2>How to fire it</h2>
        <p>
          {capital(claimWords(revision.cones))}, {revision.atmosphere}.{" "}
          {capital(coneInFull(revision.cones.low))}
          {revision.cones.low === revision.cones.high ? "" : `; ${coneInFull(revision.cones.high)}`}
          . Believe the witness cone beside the ware, not the programme.
        </p>
        <ConeRuler claimed={revision.cones} tested={[]} cones={cones} large />
        <p>Surface: {revision.surface || "not said"}.</p>
        {revision.about ? <p class="about">{revision.about}</p> : null}
      </section>
      <section id="chemistry">
        <h2>What it is made of</h2>
        <ChemistryTables
          chemistry={chemistry}
          lineNames={lines.map((line) => powderName(line.material.name))}
          cone={revision.cones.high}
        />
      </section>
      <p>
        Written by {revision.author.name}, <When at={revision.publishedAt} />
        {revision.message ? `: ${revision.message}` : "."}
      </p>
    </article>
  );
};

function answerOf(use: UseIs, standing: SharedProps["standing"]): string {
  if (standing.is === "withdrawn") return "No. This recipe was withdrawn.";
  if (use === "decorative") return "No: it is decorative only.";
  if (standing.is === "needs another look")
    return "Not now: what it was approved on no longer holds.";
  if (standing.is === "approved" && standing.for === "functional")
    return "The studio approved it for functional ware, on its own tiles, tests and firings. Yours need their own.";
  return "Not yet: nobody has approved this revision for functional ware.";
}
