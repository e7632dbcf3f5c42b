import type { Decimal } from "decimal.js";
import type { Cone } from "../../src/chem/cones.ts";
import type { LeachJudgement } from "../../src/chem/leach.ts";
import type { TestKind } from "./kind-words.ts";

export type ShownResult = {
  element: string;
  qualifier: "=" | "<";
  value: Decimal;
  unit: string;
  detectionLimit: Decimal | null;
  specimen: string;
};

export type ShownTest = {
  id: string;
  recipe: { slug: string; name: string };
  number: number;
  kind: TestKind;
  method: string;
  laboratory: string;
  articleClass: string;
  report: string;
  outcome: "passed" | "failed" | "unclear";
  remark: string;
  /** `unknown` where it was made on a tile that the reader may not know of. */
  tile:
    | {
        id: string;
        cone: Cone;
        atmosphere: string;
        clay: string;
        layered: boolean;
        withdrawn: boolean;
      }
    | "unknown"
    | null;
  results: readonly ShownResult[];
  /** A leach report beside the limits that the studio chose; null of other tests. */
  limits: { chosen: boolean; judged: readonly LeachJudgement[]; doubtful: boolean } | null;
  by: { name: string };
  at: Date;
  withdrawn: { why: string; at: Date; by: string } | null;
};
