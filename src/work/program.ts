import { readFileSync } from "node:fs";

/** `package.json` stands beside `src/`; a build is one folder deeper. */
const manifest = new URL(
  import.meta.url.endsWith(".ts") ? "../../package.json" : "../../../package.json",
  import.meta.url,
);

/** The version of this program, as its manifest has it. */
export const version: string = JSON.parse(readFileSync(manifest, "utf8")).version;
