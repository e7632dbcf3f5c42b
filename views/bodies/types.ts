import type { Decimal } from "decimal.js";
import type { Cone } from "../../src/chem/cones.ts";

/** What a sheet of a body says, and whose word it is. */
export type Sheet = {
  cones: { low: Cone; high: Cone };
  absorption: { percent: Decimal; source: string } | null;
  expansion: { value: Decimal; fromCelsius: number; toCelsius: number; source: string } | null;
  colour: string;
  about: string;
  by: { name: string };
  at: Date;
};

export type Body = { slug: string; name: string; sheet: Sheet };
