import { Hono } from "hono";
import { z } from "zod";
import { ImportPage } from "../../views/imports/page.tsx";
import { withdrawImport } from "../db/import-withdrawals.ts";
import { findImport } from "../db/imports.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { importJson } from "./import-answer.ts";

export const importWithdrawals = new Hono<Env>();

const withdrawalBody = z.strictObject({
  why: text(1000),
  /** A form sends words, and nothing where nobody chose. */
  anyway: z
    .union([z.boolean(), z.enum(["true", "false"])])
    .transform((said) => said === true || said === "true")
    .optional(),
  idempotencyKey,
});

importWithdrawals.on(
  ["PUT", "POST"],
  "/imports/:id/withdrawal",
  described({
    says: "Take an import back as one; what others went on with is asked about with anyway",
    body: withdrawalBody,
  }),
  managerRequired,
  async (c) => {
    const { db } = c.var;
    const found = await findImport(db, c.req.param("id"));
    if (!found) return notFound(c);
    const again = (faults: Fault[], typed: Record<string, unknown>) => ({
      page: { title: `Import of ${found.fileName || "a file"}`, here: "library" } as const,
      view: () => ImportPage({ ...found, faults, typed }),
    });
    const read = await readBody(c, withdrawalBody);
    if (read.kind === "refused") return faulty(c, read, again(read.faults, read.typed));
    const { why, anyway } = read.value;
    const done = await withdrawImport(db, { importId: found.id, why, anyway, ...actOf(c) });
    switch (done.kind) {
      case "withdrawn": {
        const now = await findImport(db, found.id);
        return changed(c, `/imports/${found.id}`, now && importJson(now));
      }
      case "withdrawn-before": {
        const detail = "This import was taken back before.";
        return refuse(
          c,
          { status: 409, title: "Taken back before", detail },
          again([{ path: "why", says: detail }], read.typed),
        );
      }
      case "changed-since": {
        const names = done.recipes
          .map(({ name, since }) => `${name} (${since.join(", ")})`)
          .join("; ");
        const says = `Somebody went on with these since: ${names}. Say whether they are taken back too, or stay.`;
        const errors = [{ path: "anyway", says }];
        const more = {
          recipes: done.recipes.map(({ slug, name, since }) => ({ slug, name, since })),
        };
        return refuse(
          c,
          { status: 409, title: "Some of it is in use", detail: says, errors, more },
          again(errors, read.typed),
        );
      }
    }
  },
);
