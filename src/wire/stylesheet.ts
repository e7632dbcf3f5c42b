import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { stylesheets } from "../../views/stylesheets.ts";
import { publicFolder } from "./public-folder.ts";

const text = stylesheets
  .map((name) => readFileSync(join(publicFolder, `${name}.css`), "utf8"))
  .join("\n");

const digest = createHash("sha256").update(text).digest("hex").slice(0, 16);

/**
 * All stylesheets in one, in their order: one request where a line is slow. Its name says what is in
 * it, so that a browser that has it never asks again.
 */
export const stylesheet = { name: `all-${digest}.css`, bytes: new TextEncoder().encode(text) };

/** Also of a page that was made before the last start. */
export const isStylesheet = (name: string): boolean => /^all-[0-9a-f]{16}\.css$/.test(name);
