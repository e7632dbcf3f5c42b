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
};

/** A cone that stood beside the ware, and how far from upright it bent. */
export type Witness = { cone: Cone; bendDegrees: number; place: string };
