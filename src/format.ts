import { writeFile } from "node:fs/promises";
import { formatSchema } from "./work/export-json-schema.ts";

await writeFile(
  new URL("../docs/format.schema.json", import.meta.url),
  `${JSON.stringify(formatSchema(), null, 2)}\n`,
);
