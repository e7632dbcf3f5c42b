import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { extname, join } from "node:path";
import { Hono } from "hono";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";

const types: Record<string, string> = {
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".svg": "image/svg+xml",
};

type Asset = { bytes: Uint8Array<ArrayBuffer>; type: string; etag: string };

const publicFolder = findPublicFolder();
const require = createRequire(import.meta.url);

/** What the browser needs besides pages, read once: our own files, and two packages as they are shipped. */
const files = new Map<string, Asset>([
  ...readdirSync(publicFolder)
    .filter((name) => types[extname(name)])
    .map((name) => [name, load(join(publicFolder, name))] as const),
  ["htmx.min.js", load(require.resolve("htmx.org/dist/htmx.min.js"))],
  ["idb.js", load(require.resolve("idb/build/index.js"))],
]);

export const assets = new Hono<Env>();

assets.get("/assets/:name", described({ says: "Stylesheets, script and icons" }), (c) =>
  send(c, files.get(c.req.param("name")), "public, max-age=300"),
);

// A worker opens only what is at or under its own address.
assets.get("/sw.js", described({ says: "What opens a mix without a network" }), (c) =>
  send(c, files.get("sw.js"), "no-cache"),
);

function send(c: Ctx, asset: Asset | undefined, cacheControl: string) {
  if (!asset) return c.text("Not here", 404);
  const headers = { "Content-Type": asset.type, ETag: asset.etag, "Cache-Control": cacheControl };
  if (c.req.header("if-none-match") === asset.etag) return c.body(null, 304, headers);
  return c.body(asset.bytes, 200, headers);
}

function load(path: string): Asset {
  const bytes = new Uint8Array(readFileSync(path));
  const etag = `"${createHash("sha256").update(bytes).digest("hex").slice(0, 32)}"`;
  return { bytes, type: types[extname(path)] ?? "application/octet-stream", etag };
}

/** `public/` stands beside `src/`; a build is one folder deeper. */
function findPublicFolder(): string {
  const fromSource = new URL("../../public", import.meta.url).pathname;
  const fromBuild = new URL("../../../public", import.meta.url).pathname;
  return import.meta.url.endsWith(".ts") ? fromSource : fromBuild;
}
