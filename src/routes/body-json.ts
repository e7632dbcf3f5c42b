import type { BodyOnRecord, BodySheet, FoundBody } from "../db/bodies.ts";

/** What a body's sheet says: decimals as strings, percent and 1e-6/K. */
export const bodySheetJson = ({ cones, absorption, expansion, ...sheet }: BodySheet) => ({
  cones,
  absorption: absorption && { ...absorption, percent: absorption.percent.toFixed() },
  expansion: expansion && { ...expansion, value: expansion.value.toFixed() },
  colour: sheet.colour,
  about: sheet.about,
  by: sheet.by,
  at: sheet.at.toISOString(),
});

/** A body as the list tells it. */
export const bodyEntryJson = ({ slug, name, sheet }: FoundBody) => ({
  slug,
  name,
  sheet: bodySheetJson(sheet),
});

/** A body with every sheet of it, the newest first and by itself. */
export const bodyJson = (body: BodyOnRecord) => ({
  ...bodyEntryJson(body),
  addedBy: body.addedBy,
  addedAt: body.addedAt.toISOString(),
  earlier: body.earlier.map(bodySheetJson),
});
