import { chemMutants } from "./chem.ts";
import { dbMutants } from "./db.ts";
import type { Mutant } from "./mutant.ts";
import { viewMutants } from "./views.ts";
import { wireMutants } from "./wire.ts";
import { workMutants } from "./work.ts";

export const mutants: readonly Mutant[] = [
  ...chemMutants,
  ...dbMutants,
  ...wireMutants,
  ...workMutants,
  ...viewMutants,
];
