import { witnessReads } from "../chem/witness.ts";
import type { TileInFiring } from "../db/firing-tiles.ts";
import type { FoundFiring } from "../db/firings.ts";

/** A firing as every list tells it, with what each witness cone says. */
export const firingJson = ({ startedAt, witness, at, ...firing }: FoundFiring) => ({
  ...firing,
  startedAt: startedAt.toISOString(),
  witness: witness.map((stood) => ({ ...stood, reads: witnessReads(stood.bendDegrees) })),
  at: at.toISOString(),
});

/** A firing with the tiles that stood in it. */
export const firingWithTilesJson = (firing: FoundFiring, tiles: readonly TileInFiring[]) => ({
  ...firingJson(firing),
  tiles: tiles.map(({ number, ...tile }) => ({ ...tile, revision: number })),
});
