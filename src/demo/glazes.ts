import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import { decorativeGlazes } from "./glazes-decorative.ts";
import { functionalGlazes } from "./glazes-functional.ts";
import { ternFamily } from "./glazes-terns.ts";
import type { Who } from "./people.ts";

/** A material by its name on the demo's shelf, and parts by weight. */
export type DemoLine = readonly [material: string, amount: string];

export type DemoRevision = {
  by: Who;
  at: string;
  message: string;
  base: readonly DemoLine[];
  additions?: readonly DemoLine[];
  use: Use;
  cones: readonly [low: Cone, high: Cone];
  surface: string;
  about: string;
};

export type DemoGlaze = {
  name: string;
  shownTo: "private" | "studio" | "public";
  forkOf?: { name: string; number: number };
  /** The first makes the recipe and is its owner's; later ones are the owner's or the manager's. */
  revisions: readonly [DemoRevision, ...DemoRevision[]];
  withdrawn?: { by: Who; at: string; why: string };
};

/** Every glaze of the demo's library, all invented and all for oxidation. */
export const demoGlazes: readonly DemoGlaze[] = [
  ...functionalGlazes,
  ...ternFamily,
  ...decorativeGlazes,
];
