import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { extname, join } from "node:path";
import { Hono } from "hono";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { publicFolder } from "../wire/public-folder.ts";
import { isStylesheet, stylesheet } from "../wire/stylesheet.ts";
import { type Icon, icons, makeIcon } from "../work/icons.ts";

const types: Record<string, string> = {
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
};

type Asset = { bytes: Uint8Array<ArrayBuffer>; type: string; etag: string };

const require = createRequire(import.meta.url);

/** What the browser needs besides pages, read once: our own files, and two packages as they are shipped. */
const files = new Map<string, Asset>([
  ...readdirSync(publicFolder)
    .filter((name) => types[extname(name)])
    .map((name) => [name, load(join(publicFolder, name))] as const),
  ["htmx.min.js", load(require.resolve("htmx.org/dist/htmx.min.js"))],
  ["idb.js", load(require.resolve("idb/build/index.js"))],
]);

const allStyles = assetOf(stylesheet.bytes, ".css");
const forever = "public, max-age=31536000, immutable";

export const assets = new Hono<Env>();

assets.get("/assets/:name", described({ says: "Stylesheets, script and icons" }), (c) => {
  const name = c.req.param("name");
  if (name === stylesheet.name) return send(c, allStyles, forever);
  const file = isStylesheet(name) ? allStyles : files.get(name);
  return send(c, file, "public, max-age=300");
});

const isIcon = (name: string): name is Icon => Object.hasOwn(icons, name);

assets.get(
  "/icons/:name",
  described({ says: "The icon of the studio on a phone's or a computer's screen, as PNG" }),
  async (c) => {
    const name = c.req.param("name");
    const drawing = files.get("favicon.svg");
    const icon = drawing && isIcon(name) ? await makeIcon(name, drawing.bytes) : undefined;
    return send(c, icon && assetOf(icon, ".png"), "public, max-age=86400");
  },
);

// A worker opens only what is at or under its own address.
assets.get("/sw.js", described({ says: "What opens a mix or a recipe without a network" }), (c) =>
  send(c, files.get("sw.js"), "no-cache"),
);

function send(c: Ctx, asset: Asset | undefined, cacheControl: string) {
  if (!asset) return c.text("Not here", 404);
  const headers = { "Content-Type": asset.type, ETag: asset.etag, "Cache-Control": cacheControl };
  if (c.req.header("if-none-match") === asset.etag) return c.body(null, 304, headers);
  return c.body(asset.bytes, 200, headers);
}

function load(path: string): Asset {
  return assetOf(new Uint8Array(readFileSync(path)), extname(path));
}

function assetOf(bytes: Uint8Array<ArrayBuffer>, ending: string): Asset {
  const etag = `"${createHash("sha256").update(bytes).digest("hex").slice(0, 32)}"`;
  return { bytes, type: types[ending] ?? "application/octet-stream", etag };
}
