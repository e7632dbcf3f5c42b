import type { ConeEstimate, ConeEstimation } from "../../src/chem/cone-estimate.ts";
import { sayEstimate } from "../../src/chem/cone-words.ts";
import { type Contradiction, contradictionsOf } from "../../src/chem/witness-agreement.ts";
import { degreesApart, degreesInBoth, rateInBoth } from "../parts/degrees.ts";
import { plainNumber } from "../parts/quantity.tsx";
import { pageReading } from "../parts/reading.ts";
import { Fact } from "./facts.tsx";
import type { Witness } from "./types.ts";

type EstimateProps = { estimation: ConeEstimation; witness: readonly Witness[] };

/** Which cone the readings come to, beside what the witness cones say; those are believed. */
export const Estimate = ({ estimation, witness }: EstimateProps) => {
  if (estimation.kind !== "estimate") return <p>{estimation.says}</p>;
  const { estimate, told } = estimation;
  const { climb, held } = told;
  return (
    <div id="estimate">
      <p>
        <strong>{inShort(estimate, held)}</strong>
      </p>
      <p>{sayEstimate(told, pageReading().temperature)}</p>
      <dl class="tile-facts">
        <Fact name="Highest">{degreesInBoth(estimate.peakCelsius)}</Fact>
        <Fact name={`The last ${degreesApart(100)}`}>
          at {rateInBoth(estimate.rateCelsiusPerHour)}
        </Fact>
        <Fact name="Near the highest">
          {plainNumber(climb.heldMinutes, 0)} minutes within {degreesApart(15)} of it
        </Fact>
      </dl>
      <Beside contradictions={contradictionsOf(witness, estimate)} stood={witness.length} />
    </div>
  );
};

/** A firing that was held never gets a cone without “at the least”. */
function inShort({ cone, lower, plusMinus }: ConeEstimate, held: boolean): string {
  const within = `estimated to ± ${degreesApart(plusMinus)}`;
  if (!held) return `${cone === null ? "No cone of the table" : `Near cone ${cone}`}, ${within}.`;
  if (lower === null) return `Held, so that no cone can be told from the readings, ${within}.`;
  return `Cone ${lower} at the least, ${within}; it was held, so it may have been a hotter one.`;
}

type BesideProps = { contradictions: readonly Contradiction[]; stood: number };

const Beside = ({ contradictions, stood }: BesideProps) => {
  if (stood === 0)
    return <p>No witness cone is on record beside it: this is an estimate and no evidence.</p>;
  if (contradictions.length === 0)
    return <p>No witness cone contradicts that by more than the ±.</p>;
  return (
    <p class="firing-against">
      <strong>The readings and the witness cones disagree.</strong>{" "}
      {contradictions.map(againstWords).join(" ")} The witness cone is believed: it stood beside the
      ware, and a thermocouple reads one spot of the kiln.
    </p>
  );
};

function againstWords({ cone, place, reads }: Contradiction): string {
  const which = `Witness cone ${cone}${place === "" ? "" : ` (${place})`}`;
  return reads === "not-reached"
    ? `${which} did not go down, though by the readings it was reached.`
    : `${which} went down, though by the readings it was not reached.`;
}
