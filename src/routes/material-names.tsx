import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { NameForm } from "../../views/materials/name-form.tsx";
import { addName, removeName } from "../db/material-names.ts";
import { findMaterial } from "../db/materials.ts";
import { changed, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line, text } from "../wire/fields.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";

export const materialNames = new Hono<Env>();

const nameBody = z.strictObject({
  name: line(80),
  region: line(60),
  caution: text(500, 0).default(""),
  idempotencyKey,
});

materialNames.get(
  "/:slug/names/new",
  described({ says: "The form for what a material is called elsewhere" }),
  memberRequired,
  async (c) => {
    const material = await findMaterial(c.var.db, c.req.param("slug"));
    if (!material) return notFound(c);
    const { page: where, view } = form(material, {}, []);
    return page(c, where, view);
  },
);

materialNames.post(
  "/:slug/names",
  described({ says: "Add what a material is called in a region", body: nameBody, status: 201 }),
  memberRequired,
  async (c) => {
    const material = await findMaterial(c.var.db, c.req.param("slug"));
    if (!material) return notFound(c);
    const read = await readBody(c, nameBody);
    if (read.kind === "refused") return faulty(c, read, form(material, read.typed, read.faults));

    const { name, region, caution } = read.value;
    const naming = { materialId: material.id, name, region, caution };
    const added = await addName(c.var.db, { ...naming, ...actOf(c) });
    switch (added.kind) {
      case "known-already": {
        const faults = [{ path: "name", says: `It is known as “${name}” in ${region} already.` }];
        return faulty(c, { faults }, form(material, read.typed, faults));
      }
      case "added":
        return created(c, `/materials/${material.slug}`, { id: added.id, name, region, caution });
    }
  },
);

const remove = async (c: Ctx) => {
  const material = await findMaterial(c.var.db, c.req.param("slug") ?? "");
  const nameId = c.req.param("id") ?? "";
  if (!material || !z.uuid().safeParse(nameId).success) return notFound(c);
  const removed = await removeName(c.var.db, { materialId: material.id, nameId, ...actOf(c) });
  switch (removed.kind) {
    case "no-name":
      return notFound(c);
    case "removed":
      return changed(c, `/materials/${material.slug}`, { removed: nameId });
  }
};

const removal = { says: "Take a name off a material" };
materialNames.delete("/:slug/names/:id", described(removal), managerRequired, remove);
materialNames.post("/:slug/names/:id/removal", described(removal), managerRequired, remove);

const form = (
  material: { slug: string; name: string },
  typed: Typed,
  faults: readonly Fault[],
) => ({
  page: { title: `A name for ${material.name}`, here: "shelf" } as const,
  view: () => (
    <NameForm
      material={material}
      typed={(path) => typedText(typed, path)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});
