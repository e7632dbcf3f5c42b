import type { Decimal } from "decimal.js";
import type { ConeEstimation, Reading } from "../../src/chem/cone-estimate.ts";
import type { Cone } from "../../src/chem/cones.ts";
import type { Step } from "../../src/chem/programme.ts";

/** A firing as its page and the lists show it. */
export type Firing = {
  id: string;
  kiln: { slug: string; name: string };
  kind: string;
  cone: Cone;
  startedAt: Date;
  programme: readonly Step[];
  witness: readonly Witness[];
  remark: string;
  by: { name: string };
  at: Date;
  withdrawn: { why: string; at: Date; by: string } | null;
};

/** A cone that stood beside the ware, and how far from upright it bent. */
export type Witness = { cone: Cone; bendDegrees: number; place: string };

/** Readings of a firing's temperature, as few as are drawn, and what all of them come to. */
export type Log = {
  received: number;
  kept: number;
  drawn: readonly Reading[];
  by: { name: string };
  at: Date;
  estimation: ConeEstimation;
};

/** What a firing used and cost. */
export type Cost = {
  energy: string;
  amount: Decimal;
  unit: string;
  price: Decimal | null;
  perUnit: Decimal | null;
  currency: string | null;
  by: { name: string };
  at: Date;
};

/** What was sent with one of a firing's forms and is shown again, with what is wrong with it. */
export type Sent = {
  form: "readings" | "witness" | "cost" | "withdrawal";
  typed: (path: string) => string;
  faults: readonly { path: string; says: string }[];
};
