import { resolve } from "node:path";
import { Hono } from "hono";
import { AboutStudio } from "../../views/studio/about.tsx";
import { engine } from "../chem/chemistry.ts";
import { countHeld, findDatabaseFacts } from "../db/database-facts.ts";
import { findLastVerified } from "../db/verifications.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { findLastBackup } from "../work/last-backup.ts";
import { version } from "../work/program.ts";

export const about = new Hono<Env>();

/** How many of the biggest tables are told. */
const tables = 8;

about.get(
  "/studio/about",
  described({
    says: "What the studio runs on, what it holds, and how its backups and record stand, for a manager",
  }),
  managerRequired,
  async (c) => {
    const { db, config } = c.var;
    const facts = {
      program: {
        version,
        chemistry: engine,
        node: process.versions.node,
        startedAt: new Date(performance.timeOrigin),
      },
      database: {
        engine: config.databaseUrl ? ("postgres" as const) : ("embedded" as const),
        ...(await findDatabaseFacts(db, tables)),
      },
      holds: await countHeld(db),
      backups: await backupsOf(config.backupDir),
      verified: (await findLastVerified(db)) ?? null,
      publicUrl: config.publicUrl ? withoutWords(config.publicUrl) : null,
      sendsMail: config.smtpUrl !== undefined && config.publicUrl !== undefined,
      countsRequests: config.metricsToken !== undefined,
      replica: c.var.lists?.replica.is() ?? null,
    };
    return answer(c, {
      json: () => facts,
      page: { title: "About this studio", here: "people" },
      view: () => <AboutStudio now={c.var.now} {...facts} />,
    });
  },
);

async function backupsOf(backupDir: string | undefined) {
  if (backupDir === undefined) return null;
  return { folder: resolve(backupDir), last: (await findLastBackup(backupDir)) ?? null };
}

/** An address as people type it: a name and a password before the host are nobody's to read. */
function withoutWords(address: string): string {
  const { origin, pathname } = new URL(address);
  return `${origin}${pathname === "/" ? "" : pathname}`;
}
