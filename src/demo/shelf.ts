import type { Basis } from "../chem/analysis.ts";
import type { Oxide } from "../chem/oxides.ts";
import { colourants } from "./colourants.ts";
import type { Who } from "./people.ts";
import { powders } from "./powders.ts";

/** Percent of the powder, alone or with its ±. */
export type DemoFigure = string | readonly [percent: string, plusMinus: string];

/** A formula, from which the analysis is worked out, or percents with the loss on ignition. */
export type DemoAnalysis =
  | { formula: string }
  | {
      oxides: Readonly<Partial<Record<Oxide, DemoFigure>>>;
      loss: DemoFigure;
      measuredOn: string;
      basis?: Basis;
    };

/** A newer analysis; it waits until a manager puts it in use, unless one posted it for that. */
export type LaterAnalysis = { by: Who; at: string; analysis: DemoAnalysis; inUse?: true };

export type DemoMaterial = {
  name: string;
  region?: string;
  kind: string;
  about: string;
  /** Words for which the cautions hold text; a test says so. */
  hazards: readonly string[];
  analysis: DemoAnalysis | null;
  later?: LaterAnalysis;
  noLongerSold?: { by: Who; at: string; since: string; why: string };
};

/** Everything on the demo's shelf. All of it is invented or worked out from a formula. */
export const demoShelf: readonly DemoMaterial[] = [...powders, ...colourants];
