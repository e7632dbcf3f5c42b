import { writeFile } from "node:fs/promises";
import { importJsonSchema } from "./routes/import-json-schema.ts";
import { formatSchema } from "./work/export-json-schema.ts";

const write = (name: string, schema: object) =>
  writeFile(
    new URL(`../docs/${name}.schema.json`, import.meta.url),
    `${JSON.stringify(schema, null, 2)}\n`,
  );

await write("format", formatSchema());
await write("import", importJsonSchema());
