import { createContext, useContext } from "hono/jsx";
import type { Conventions } from "../../src/chem/chemistry-types.ts";

/** How whoever reads the page wants to read it. */
export type Reading = Conventions & {
  /** Whose names of powders come first; the studio's own where empty. */
  region: string;
  weight: "g" | "lb";
  temperature: "C" | "F";
  heat: "cone" | "temperature";
  theme: "system" | "light" | "dark";
};

/** What a powder is called in the reader's region, and which other powder goes by that word too. */
export type CalledThere = { name: string; caution: string; lookAlikes: readonly string[] };

/** The reading of a page, with the names of the reader's region by the studio's own. */
export type PageReading = Reading & {
  called: ReadonlyMap<string, CalledThere>;
  /** Where the reader can choose otherwise. */
  setAt: "/account/settings" | "/reading";
};

const usual: PageReading = {
  ...{ region: "", weight: "g", temperature: "C", heat: "cone", theme: "system" },
  ...{ unity: "fluxes", iron: "Fe2O3", boron: "apart" },
  called: new Map(),
  setAt: "/reading",
};

/** Given once round a whole page, so that units and names need not go through every view. */
export const ReadingOf = createContext<PageReading>(usual);

/** How the page that is being drawn is read; the usual outside of any page. */
export const pageReading = (): PageReading => useContext(ReadingOf);
