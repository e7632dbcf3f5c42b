import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { Material } from "../../views/materials/material.tsx";
import { MaterialForm } from "../../views/materials/material-form.tsx";
import { Shelf } from "../../views/materials/shelf.tsx";
import { addMaterial } from "../db/material-adding.ts";
import { findMaterialSheet } from "../db/material-sheets.ts";
import { listShelf } from "../db/shelf.ts";
import { answer, created, page } from "../wire/answers.tsx";
import { check, readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { fromReplica } from "../wire/replica.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { materialBody } from "./material-body.ts";
import { entryJson, materialJson } from "./material-json.ts";

export const materials = new Hono<Env>();

const asked = z.object({
  q: line(80, 0).optional(),
  after: line(160).optional(),
});

materials.get(
  "/",
  described({ says: "The shelf, in the order of names", query: asked }),
  readerRequired,
  fromReplica(async (c) => {
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { q = "", after } = read.value;
    const found = await listShelf(c.var.db, { q, after, limit: 100 });
    return answer(c, {
      json: () => ({ items: found.materials.map(entryJson), next: found.next }),
      page: { title: "Shelf", here: "shelf" },
      view: () => (
        <Shelf
          materials={found.materials}
          q={q}
          next={
            found.next === null
              ? null
              : `/materials?${new URLSearchParams({ q, after: found.next })}`
          }
          mayAdd={c.var.viewer !== undefined}
          mayTakeIn={isManager(c)}
        />
      ),
    });
  }),
);

materials.get("/new", described({ says: "The form for a new material" }), memberRequired, (c) => {
  const { page: where, view } = form({}, []);
  return page(c, where, view);
});

materials.post(
  "/",
  described({
    says: "Put a material on the shelf; a formula or an analysis with it is in use at once",
    body: materialBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const read = await readBody(c, materialBody);
    if (read.kind === "refused") return faulty(c, read, form(read.typed, read.faults));

    const added = await addMaterial(db, { ...read.value, ...actOf(c) });
    switch (added.kind) {
      case "name-taken": {
        const says = `There is a material of this name: /materials/${added.slug}. Add an analysis or a name to it, or choose a name that tells the two apart.`;
        const faults = [{ path: "name", says }];
        return faulty(c, { faults }, form(read.typed, faults));
      }
      case "added": {
        const sheet = await findMaterialSheet(db, { slug: added.slug, reader: c.var.viewer });
        return created(c, `/materials/${added.slug}`, sheet && materialJson(sheet));
      }
    }
  },
);

materials.get(
  "/:slug",
  described({ says: "A material: names, analyses, cautions, where it is used" }),
  readerRequired,
  async (c) => {
    const reader = c.var.viewer;
    const sheet = await findMaterialSheet(c.var.db, { slug: c.req.param("slug"), reader });
    if (!sheet) return notFound(c);
    return answer(c, {
      json: () => materialJson(sheet),
      page: { title: sheet.name, here: "shelf" },
      view: () => (
        <Material
          {...sheet}
          today={c.var.now.toISOString().slice(0, 10)}
          mayAdd={reader !== undefined}
          mayManage={isManager(c)}
        />
      ),
    });
  },
);

/** Whether the reader may change what the shelf says, not only add to it. */
export const isManager = (c: Ctx): boolean => c.var.viewer?.role === "manager";

const form = (typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "Add a material", here: "shelf" } as const,
  view: () => (
    <MaterialForm
      typed={(path) => typedText(typed, path)}
      ticked={[typed.hazards].flat().map(String)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});
