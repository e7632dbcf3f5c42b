import { Readable } from "node:stream";
import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { DataPage } from "../../views/studio/data.tsx";
import { findHead } from "../db/export-rows.ts";
import { slugOf } from "../db/names.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { listBackups } from "../work/backing-up.ts";
import { exportLibrary } from "../work/exporting.ts";

export const exports = new Hono<Env>();

exports.get(
  "/studio/data",
  described({ says: "What an export holds and what it is for, for a manager" }),
  managerRequired,
  async (c) => {
    const { databaseUrl, backupDir } = c.var.config;
    const head = await findHead(c.var.db);
    const [newest] = backupDir === undefined ? [] : await listBackups(backupDir);
    const lastBackup = newest?.at ?? null;
    const backsUp = backupDir !== undefined;
    return answer(c, {
      json: () => ({ export: "/export", import: "/imports/new", head, backsUp, lastBackup }),
      page: { title: "Take it with you", here: "people" },
      view: () => (
        <DataPage head={head} engineIsEmbedded={!databaseUrl} {...{ backsUp, lastBackup }} />
      ),
    });
  },
);

exports.get(
  "/export",
  described({ says: "The whole library as one zip, for a manager; see docs/format.md" }),
  managerRequired,
  async (c) => {
    const { db, now: at, studio } = c.var;
    const name = `${slugOf(studio.name)}-${at.toISOString().slice(0, 10)}.zip`;
    c.header("Content-Type", "application/zip");
    c.header("Content-Disposition", `attachment; filename="${name}"`);
    c.header("Cache-Control", "no-store");
    // One of its own, so that nobody gathers the whole of it to work one out.
    c.header("ETag", `"${uuidv7()}"`);
    if (c.req.method === "HEAD") return c.body(null);
    const zip = await exportLibrary(db, { at });
    return c.body(Readable.toWeb(zip) as ReadableStream);
  },
);
