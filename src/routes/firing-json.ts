import { highestOf } from "../chem/log-table.ts";
import { witnessReads } from "../chem/witness.ts";
import { contradictionsOf } from "../chem/witness-agreement.ts";
import type { FoundFiring } from "../db/firings.ts";
import type { FiringOnRecord } from "./firing-sheet.ts";

/** A firing as every list tells it, with what each witness cone says. */
export const firingJson = ({ startedAt, witness, at, withdrawn, ...firing }: FoundFiring) => ({
  ...firing,
  startedAt: startedAt.toISOString(),
  witness: witness.map((stood) => ({ ...stood, reads: witnessReads(stood.bendDegrees) })),
  at: at.toISOString(),
  withdrawn: withdrawn && { ...withdrawn, at: withdrawn.at.toISOString() },
});

/** A firing with its readings in short, what it used, and the tiles that stood in it. */
export const firingWithTilesJson = ({ firing, log, cost, tiles }: FiringOnRecord) => ({
  ...firingJson(firing),
  readings: log ? logJson(firing, log) : null,
  cost: cost ? costJson(cost) : null,
  tiles: tiles.map(({ number, ...tile }) => ({ ...tile, revision: number })),
});

type Log = NonNullable<FiringOnRecord["log"]>;

function logJson({ witness }: FoundFiring, { received, kept, drawn, by, at, estimation }: Log) {
  const estimate = estimation.kind === "estimate" ? estimation.estimate : null;
  return {
    received,
    kept,
    by,
    at: at.toISOString(),
    highest: highestOf(drawn),
    estimate,
    says: estimation.kind === "estimate" ? estimation.estimate.says : estimation.says,
    contradictedBy: estimate ? contradictionsOf(witness, estimate) : [],
  };
}

export const costJson = ({
  amount,
  price,
  perUnit,
  at,
  ...cost
}: NonNullable<FiringOnRecord["cost"]>) => ({
  ...cost,
  amount: amount.toFixed(),
  price: price?.toFixed() ?? null,
  perUnit: perUnit?.toDecimalPlaces(6).toFixed() ?? null,
  at: at.toISOString(),
});
