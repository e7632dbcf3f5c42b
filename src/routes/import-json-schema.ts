import { z } from "zod";
import { importFile } from "./import-body.ts";

/** The shape of our JSON for imports, from the schemas that read it. */
export const importJsonSchema = (): object =>
  z.toJSONSchema(importFile, { io: "input", unrepresentable: "any" });
