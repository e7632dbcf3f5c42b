import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { DryGravityForm } from "../../views/materials/dry-gravity.tsx";
import { addDryGravity } from "../db/material-gravities.ts";
import { findMaterialSheet, type MaterialSheet } from "../db/material-sheets.ts";
import { created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { decimalText, idempotencyKey, line } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { materialJson } from "./material-json.ts";

export const materialGravities = new Hono<Env>();

const gravityBody = z.strictObject({
  gravity: decimalText.refine(
    (given) => given.gt(1) && given.lte(8) && given.decimalPlaces() <= 3,
    "Over 1 and up to 8, with three decimals at most, such as 2.65.",
  ),
  source: line(300),
  idempotencyKey,
});

materialGravities.get(
  "/:slug/gravities/new",
  described({ says: "The form for the specific gravity of a dry powder" }),
  managerRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const { page: where, view } = form(sheet, {}, []);
    return page(c, where, view);
  },
);

materialGravities.post(
  "/:slug/gravities",
  described({
    says: "Say which specific gravity a dry powder has, and where that comes from",
    body: gravityBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const read = await readBody(c, gravityBody);
    if (read.kind === "refused") return faulty(c, read, form(sheet, read.typed, read.faults));
    const { gravity, source } = read.value;
    await addDryGravity(c.var.db, { materialId: sheet.id, gravity, source, ...actOf(c) });
    const now = await findSheet(c);
    return created(c, `/materials/${sheet.slug}#dry-gravity`, now && materialJson(now));
  },
);

const findSheet = (c: Ctx) =>
  findMaterialSheet(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

const form = ({ slug, name }: MaterialSheet, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: `Dry gravity of ${name}`, here: "shelf" } as const,
  view: () => (
    <DryGravityForm
      material={{ slug, name }}
      typed={(path) => typedText(typed, path)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});
