import { Hono } from "hono";
import { ConeEstimatePage, type TypedFiring } from "../../views/computing/cone-estimate.tsx";
import { type ConeEstimation, coneEstimate } from "../chem/cone-estimate.ts";
import { type ConeTable, coneTable, coneTableIds } from "../chem/cone-tables.ts";
import { answer } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { coneEstimateBody } from "../wire/cone-estimate-body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { type Fault, faulty } from "../wire/problems.tsx";

export const coneEstimates = new Hono<Env>();

const here = { title: "Which cone was it?", here: "work-it-out" } as const;

coneEstimates.get(
  "/",
  described({ says: "The tables of end points, and a page that estimates a cone" }),
  (c) =>
    answer(c, {
      json: () => ({ tables: coneTableIds.map(coneTable) }),
      page: here,
      view: () => shown({}),
    }),
);

coneEstimates.post(
  "/",
  described({
    says: "Which cone a firing's readings came to, with its ±; nothing stored",
    body: coneEstimateBody,
  }),
  async (c) => {
    const read = await readBody(c, coneEstimateBody);
    const again = (faults: readonly Fault[], table?: ConeTable) => ({
      page: here,
      view: () => shown({ typed: read.typed, faults, table }),
    });
    if (read.kind === "refused") return faulty(c, read, again(read.faults));
    const table = coneTable(read.value.table);
    const estimation = coneEstimate(read.value.readings, table);
    if (estimation.kind !== "estimate") {
      const faults = [{ path: "readings", says: estimation.says }];
      return faulty(c, { faults }, again(faults, table));
    }
    const view = () => shown({ typed: read.typed, estimated: estimation, table });
    return answer(c, { json: () => estimation.estimate, page: here, view });
  },
);

type Shown = {
  typed?: Typed;
  faults?: readonly Fault[];
  estimated?: Extract<ConeEstimation, { kind: "estimate" }>;
  table?: ConeTable | undefined;
};

const shown = ({
  typed = {},
  faults = [],
  estimated,
  table = coneTable("self-supporting"),
}: Shown) => ConeEstimatePage({ typed: firing(typed), faults, estimated, table });

const firing = ({ readings, unit, table }: Typed): TypedFiring => ({
  readings: typeof readings === "string" ? readings : "",
  unit: unit === undefined ? undefined : String(unit),
  table: String(table ?? "self-supporting"),
});
