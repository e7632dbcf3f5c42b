import type { Child } from "hono/jsx";
import { cornerNames, kindWords } from "../blends/words.ts";
import { When } from "../people/when.tsx";
import { capital, coneInFull } from "../tiles/cone-words.ts";
import type { ShownTrial } from "./types.ts";

/** What a trial is: its kind, what it starts from, at which cone it is judged, who laid it out. */
export const TrialFacts = ({ trial }: { trial: ShownTrial }) => (
  <dl class="tile-facts">
    <Fact name="Kind">
      {kindWords[trial.kind].name}, {trial.points.length} points
    </Fact>
    <Fact name="On its tiles">
      {trial.code} and the number of the point, so that two trials in one kiln are told apart
    </Fact>
    {trial.corners.map(({ says, recipe }, at) => (
      <Fact name={trial.kind === "ladder" ? "Base" : `Corner ${cornerNames[at]}`}>
        {recipe ? <a href={hrefOf(recipe)}>{says}</a> : says}
        {trial.gravities[at] ? `, slurry of ${trial.gravities[at]}` : ""}
      </Fact>
    ))}
    <Fact name="Shares are of">
      {trial.measure === "slurry volume" ? "volume of slurry" : "dry weight"}
    </Fact>
    <Fact name="Judged at">
      {trial.cone === null ? "no cone" : capital(coneInFull(trial.cone))}
    </Fact>
    <Fact name="Laid out by">
      {trial.by.name}, <When at={trial.at} />
    </Fact>
  </dl>
);

function hrefOf(address: string): string {
  const [slug, number] = address.split("@");
  return number ? `/recipes/${slug}/revisions/${number}` : `/recipes/${slug}`;
}

export const Fact = ({ name, children }: { name: string; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
