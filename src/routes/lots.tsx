import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { LotForm } from "../../views/materials/lot-form.tsx";
import { addLot, findLastCurrency, listLots } from "../db/lots.ts";
import { findMaterialSheet, type MaterialSheet } from "../db/material-sheets.ts";
import { findMaterial } from "../db/materials.ts";
import { findSupplier, listSuppliers } from "../db/suppliers.ts";
import { created, page, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { currency, day, decimalText, idempotencyKey, line } from "../wire/fields.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { packGrams, packPrice } from "../wire/price-body.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { lotJson } from "./material-json.ts";

export const lots = new Hono<Env>();

const lotBody = z.strictObject({
  supplier: line(80),
  analysis: z.uuid({ error: "One of the analyses of this material." }).optional(),
  packGrams,
  packPrice,
  currency,
  grams: decimalText.refine(
    (grams) => grams.gte(0) && grams.lte(100_000_000) && grams.decimalPlaces() <= 3,
    "Grams of all packs of this lot: 0 or more, with three decimals at most.",
  ),
  mark: line(80, 0).default(""),
  bestBefore: day.optional(),
  idempotencyKey,
});

lots.get(
  "/:slug/lots",
  described({ says: "The lots of a material, newest first; people find them on its page" }),
  memberRequired,
  async (c) => {
    const material = await findMaterial(c.var.db, c.req.param("slug"));
    if (!material) return notFound(c);
    if (!wantsJson(c)) return c.redirect(`/materials/${material.slug}#lots`, 302);
    const found = await listLots(c.var.db, material.id);
    return c.json({ items: found.map(lotJson), next: null });
  },
);

lots.get(
  "/:slug/lots/new",
  described({ says: "The form for a lot of a material" }),
  managerRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const currency = (await findLastCurrency(c.var.db)) ?? "";
    const { page: where, view } = await form(c, sheet, { currency }, []);
    return page(c, where, view);
  },
);

lots.post(
  "/:slug/lots",
  described({ says: "Put on record what was bought of a material", body: lotBody, status: 201 }),
  managerRequired,
  async (c) => {
    const { db } = c.var;
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const read = await readBody(c, lotBody);
    const refused = async (faults: readonly Fault[], status: 415 | 422 = 422) =>
      faulty(c, { status, faults }, await form(c, sheet, read.typed, faults));
    if (read.kind === "refused") return refused(read.faults, read.status);

    const { supplier: word, analysis = null, idempotencyKey: _, ...bought } = read.value;
    const supplier = await findSupplier(db, word);
    if (!supplier)
      return refused([
        { path: "supplier", says: `“${word}” is no supplier on record. Add it to them first.` },
      ]);
    const added = await addLot(db, {
      materialId: sheet.id,
      supplierId: supplier.id,
      analysisId: analysis,
      ...bought,
      ...actOf(c),
    });
    switch (added.kind) {
      case "no-such-analysis":
        return refused([{ path: "analysis", says: "This is no analysis of this material." }]);
      case "added": {
        const lot = (await listLots(db, sheet.id)).find(({ id }) => id === added.id);
        return created(c, `/materials/${sheet.slug}#lots`, lot && lotJson(lot));
      }
    }
  },
);

const findSheet = (c: Ctx) =>
  findMaterialSheet(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

async function form(c: Ctx, sheet: MaterialSheet, typed: Typed, faults: readonly Fault[]) {
  const suppliers = await listSuppliers(c.var.db);
  return {
    page: { title: `Add a lot of ${sheet.name}`, here: "shelf" } as const,
    view: () => (
      <LotForm
        material={sheet}
        suppliers={suppliers}
        typed={(path) => typedText(typed, path)}
        faults={faults}
        idempotencyKey={uuidv7()}
      />
    ),
  };
}
