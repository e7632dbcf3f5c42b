import { elementWords, type LeachJudgement } from "../../src/chem/leach.ts";
import type { Aggregate, LeachLimit } from "../../src/chem/leach-limits.ts";
import { capital } from "../tiles/cone-words.ts";
import type { ShownTest } from "./types.ts";

/** What the limits that the studio chose say of a leach report. It is never a certificate. */
export const LeachLimits = ({ limits }: Pick<ShownTest, "limits">) => {
  if (!limits) return null;
  if (!limits.chosen)
    return (
      <p>
        These figures are held against no limit: a manager chooses whose limits count under{" "}
        <a href="/studio">the studio</a>.
      </p>
    );
  return (
    <>
      {limits.doubtful ? (
        <section class="caution">
          <p>
            <strong>Called passed, and above a limit.</strong> By the limits that this studio chose
            it counts for nothing towards functional ware. Ask the laboratory.
          </p>
        </section>
      ) : null}
      {limits.judged.length === 0 ? (
        <p>No figure for lead or cadmium: no limit for pottery is held here for anything else.</p>
      ) : (
        <ul class="leach-limits">
          {limits.judged.map((judged) => (
            <li>
              <Judged judged={judged} />
            </li>
          ))}
        </ul>
      )}
    </>
  );
};

const Judged = ({ judged }: { judged: LeachJudgement }) => (
  <>
    <strong>
      {capital(elementWords[judged.element])}, {judged.jurisdiction.name}:
      {judged.is === "cannot tell" ? " cannot tell." : ""}
    </strong>{" "}
    {judged.says}
    <span class="leach-says">
      {judged.limit ? <Printed limit={judged.limit} /> : null} For {judged.jurisdiction.country}.
    </span>
  </>
);

const Printed = ({ limit }: { limit: LeachLimit }) => (
  <>
    The limit is {limit.value} {limit.unit} for {limit.articleClass}
    {limit.bounds === "" ? "" : ` (${limit.bounds})`}; {ruleWords[limit.aggregate]}. {limit.source},{" "}
    {limit.edition}.{limit.how === "from memory" ? " From memory, not seen in print." : ""}
    {limit.aggregateHow === "from memory" ? " How specimens count is from memory." : ""}
  </>
);

const ruleWords: Readonly<Record<Aggregate, string>> = {
  "any of six": "any one of six specimens counts",
  "mean of six": "the mean of six specimens counts",
  each: "each article counts, and one over by half at most is decided by three further ones",
  "not held": "how specimens count is not held here",
};
