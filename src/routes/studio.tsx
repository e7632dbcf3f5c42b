import { Decimal } from "decimal.js";
import { Hono } from "hono";
import { z } from "zod";
import { StudioSettings } from "../../views/studio/settings.tsx";
import { jurisdictions } from "../chem/leach-limits.ts";
import { listRegions } from "../db/names-in-region.ts";
import { findStudio, type Studio, setStudio } from "../db/studios.ts";
import { answer, changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { currency, decimalText, line, ticked, whole } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";

export const studio = new Hono<Env>();

const jurisdiction = z.enum(
  jurisdictions.map(({ id }) => id),
  { error: "Choose among those that are held here." },
);

const studioBody = z.strictObject({
  name: line(80),
  showsPublic: ticked.default(false),
  scaleGrams: decimalText.refine(
    (step) => step.greaterThan(0) && step.lessThanOrEqualTo(100) && step.decimalPlaces() <= 4,
    "A step in grams over 0 and up to 100, such as 0.1.",
  ),
  approvalMonths: z
    .union([z.literal(""), z.null(), z.coerce.number().int().min(1).max(120)], {
      error: "Whole months, 1 to 120, or nothing.",
    })
    .transform((months) => months || null)
    .default(null),
  colourTolerance: z
    .union([z.literal("").transform(() => null), z.null(), decimalText])
    .refine((most) => most === null || (most.greaterThan(0) && most.lessThanOrEqualTo(50)), {
      error: "A colour difference over 0 and up to 50, such as 2, or nothing.",
    })
    .default(null),
  currency: z.union([z.literal("").transform(() => null), z.null(), currency]).default(null),
  mixTolerancePercent: decimalText
    .refine(
      (most) => most.greaterThan(0) && most.lessThanOrEqualTo(50) && most.decimalPlaces() <= 2,
      {
        error: "Percent of a line over 0 and up to 50, such as 1.",
      },
    )
    .default(new Decimal(1)),
  stockWeeks: whole(1, 104).default(6),
  /** One ticked box of a form arrives by itself, and none not at all. */
  jurisdictions: z
    .union([z.array(jurisdiction).max(20), jurisdiction.transform((one) => [one])], {
      error: "Choose among those that are held here.",
    })
    .transform((chosen) => [...new Set(chosen)])
    .default([]),
});

studio.get("/studio", described({ says: "How the studio is set" }), managerRequired, async (c) => {
  const regions = await listRegions(c.var.db);
  return answer(c, {
    json: () => studioJson(c.var.studio),
    ...settings(typedOf(c.var.studio), [], regions),
  });
});

studio.on(
  ["PUT", "POST"],
  "/studio",
  described({ says: "Set how the studio does things", body: studioBody }),
  managerRequired,
  async (c) => {
    const read = await readBody(c, studioBody);
    if (read.kind === "refused") {
      const { typed } = read;
      const again = {
        name: typedText(typed, "name"),
        showsPublic: typed.showsPublic !== undefined,
        scaleGrams: typedText(typed, "scaleGrams"),
        approvalMonths: typedText(typed, "approvalMonths"),
        colourTolerance: typedText(typed, "colourTolerance"),
        currency: typedText(typed, "currency"),
        mixTolerancePercent: typedText(typed, "mixTolerancePercent"),
        stockWeeks: typedText(typed, "stockWeeks"),
        jurisdictions: [typed.jurisdictions].flat().filter((id) => typeof id === "string"),
      };
      return faulty(c, read, settings(again, read.faults, await listRegions(c.var.db)));
    }
    await setStudio(c.var.db, { ...actOf(c), ...read.value });
    return changed(c, "/studio", studioJson(await findStudio(c.var.db)));
  },
);

const studioJson = (now: Studio) => ({
  ...now,
  scaleGrams: now.scaleGrams.toFixed(),
  colourTolerance: now.colourTolerance?.toFixed() ?? null,
  mixTolerancePercent: now.mixTolerancePercent.toFixed(),
});

const typedOf = (studio: Studio) => ({
  ...studio,
  scaleGrams: studio.scaleGrams.toFixed(),
  approvalMonths: studio.approvalMonths === null ? "" : String(studio.approvalMonths),
  colourTolerance: studio.colourTolerance?.toFixed() ?? "",
  currency: studio.currency ?? "",
  mixTolerancePercent: studio.mixTolerancePercent.toFixed(),
  stockWeeks: String(studio.stockWeeks),
});

const settings = (
  typed: ReturnType<typeof typedOf>,
  faults: readonly Fault[],
  regions: readonly string[],
) => ({
  page: { title: "The studio", here: "people" } as const,
  view: () => <StudioSettings {...{ typed, faults, jurisdictions, regions }} />,
});
