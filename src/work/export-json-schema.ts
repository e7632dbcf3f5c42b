import { z } from "zod";
import { exported } from "../db/export-nouns.ts";
import { exportVersion, manifestSchema, rowsName } from "./export-format.ts";
import { rowSchema } from "./export-schemas.ts";

/** The format in JSON Schema, 2020-12: the manifest, and one row of each noun under its file's name. */
export const formatSchema = () => ({
  $schema: "https://json-schema.org/draft/2020-12/schema",
  title: `An export of Common Bucket, version ${exportVersion}`,
  description: "docs/format.md tells the rest. Each line of a .jsonl file is one row of its noun.",
  $defs: {
    "manifest.json": bare(manifestSchema),
    ...Object.fromEntries(exported.map((noun) => [rowsName(noun), bare(rowSchema(noun))])),
  },
});

function bare(schema: z.ZodType) {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, {
    // A pattern that every reader of dates knows by its name.
    override: ({ jsonSchema }) => {
      if (jsonSchema.format?.startsWith("date")) delete jsonSchema.pattern;
    },
  });
  return rest;
}
