import { Hono } from "hono";
import { z } from "zod";
import { ImportForm } from "../../views/imports/form.tsx";
import { ImportsPage } from "../../views/imports/list.tsx";
import { ImportPage } from "../../views/imports/page.tsx";
import { findImport, listImports } from "../db/imports.ts";
import { answer, page } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { importJson, importRowJson } from "./import-answer.ts";

export const imports = new Hono<Env>();

const asked = z.object({ after: z.uuid({ error: "This is not a place in the list." }).optional() });

imports.get(
  "/imports",
  described({ says: "The files that were taken in, newest first", query: asked }),
  managerRequired,
  async (c) => {
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const found = await listImports(c.var.db, { after: read.value.after, limit: 50 });
    return answer(c, {
      json: () => ({ items: found.imports.map(importRowJson), next: found.next }),
      page: { title: "Imports", here: "library" },
      view: () => ImportsPage(found),
    });
  },
);

imports.get(
  "/imports/new",
  described({ says: "The form to take in recipes, analyses or another studio's export" }),
  managerRequired,
  (c) =>
    page(c, { title: "Take in recipes or analyses", here: "library" }, () =>
      ImportForm({ faults: [] }),
    ),
);

imports.get(
  "/imports/:id",
  described({ says: "An import: all that it brought, and what became of it" }),
  managerRequired,
  async (c) => {
    const found = await findImport(c.var.db, c.req.param("id"));
    if (!found) return notFound(c);
    return answer(c, {
      json: () => importJson(found),
      page: { title: `Import of ${found.fileName || "a file"}`, here: "library" },
      view: () => ImportPage({ ...found, faults: [], typed: {} }),
    });
  },
);
