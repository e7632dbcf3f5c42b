import { Decimal } from "decimal.js";
import { Hono } from "hono";
import { z } from "zod";
import { FamilyPage } from "../../views/families/family.tsx";
import { Families } from "../../views/families/list.tsx";
import { findFamily, listFamilies, mayChangeFamily, type WholeFamily } from "../db/families.ts";
import { addFamily, changeFamily, findNamedRecipes, mostInFamily } from "../db/family-keeping.ts";
import { listHandouts, type OpenHandout } from "../db/handouts.ts";
import { answer, changed, created, page } from "../wire/answers.tsx";
import { check, readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { decimalText, idempotencyKey, line, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { fromReplica } from "../wire/replica.ts";
import { formPage, typedOf } from "./family-forms.tsx";
import { familyEntryJson, familyJson } from "./family-json.ts";

export const families = new Hono<Env>();

/** A form sends one text, a recipe a line. */
const recipesField = z.preprocess(
  (sent) =>
    typeof sent === "string"
      ? sent.split(/\r\n|\r|\n/).flatMap((typed) => typed.trim() || [])
      : sent,
  z
    .array(line(80))
    .min(1, "Name at least one recipe.")
    .max(mostInFamily, `A family has at most ${mostInFamily} recipes.`),
);

const familyBody = z.strictObject({
  name: line(80),
  recipes: recipesField,
  intro: text(8000, 0).default(""),
  idempotencyKey,
});

const changeBody = z.strictObject({
  name: line(80).optional(),
  recipes: recipesField,
  intro: text(8000, 0).default(""),
  idempotencyKey,
});

const listed = z.object({ after: z.string().max(400).optional() });

const asked = z.object({
  kg: decimalText
    .refine((kilograms) => kilograms.gt(0) && kilograms.lte(1000), {
      error: "Kilograms above 0 and up to 1000.",
    })
    .optional(),
});

/** Kilograms of dry base in a bucket, where nothing else is asked for. */
const usualBucket = new Decimal(5);

families.get(
  "/",
  described({ says: "Families of recipes, in the order of names", query: listed }),
  readerRequired,
  fromReplica(async (c) => {
    const read = check(listed, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { db, viewer: reader } = c.var;
    const found = await listFamilies(db, { reader, after: read.value.after, limit: 50 });
    return answer(c, {
      json: () => ({ items: found.families.map(familyEntryJson), next: found.next }),
      page: { title: "Families", here: "library" },
      view: () => <Families {...found} mayAdd={reader !== undefined} />,
    });
  }),
);

families.get("/new", described({ says: "The form for a new family" }), memberRequired, (c) => {
  const { page: where, view } = formPage({ typed: {}, faults: [] });
  return page(c, where, view);
});

families.post(
  "/",
  described({ says: "Write recipes up together", body: familyBody, status: 201 }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, familyBody);
    const again = (faults: readonly Fault[]) =>
      faulty(c, { faults }, formPage({ typed: read.typed, faults }));
    if (read.kind === "refused")
      return faulty(c, read, formPage({ typed: read.typed, faults: read.faults }));
    const { name, intro, recipes } = read.value;
    const { recipeIds, faults } = await readRecipes(c, recipes);
    if (faults.length > 0) return again(faults);
    const added = await addFamily(c.var.db, { name, intro, recipeIds, ...actOf(c) });
    switch (added.kind) {
      case "name-taken":
        return again([nameTaken(added.slug)]);
      case "added":
        return created(c, `/families/${added.slug}`, await jsonOf(c, added.slug));
    }
  },
);

families.get(
  "/:slug",
  described({
    says: "A family: its recipes, which material is in which, and what to buy",
    query: asked,
  }),
  readerRequired,
  async (c) => {
    const query = Object.entries(c.req.query()).filter(([, value]) => value !== "");
    const read = check(asked, Object.fromEntries(query));
    const family = await wholeFamily(c);
    if (!family) return notFound(c);
    if (read.kind === "refused")
      return faulty(c, read, familyPage(c, family, usualBucket, read.faults));
    const kilograms = read.value.kg ?? usualBucket;
    return answer(c, {
      json: () => familyJson(family, kilograms),
      ...familyPage(c, family, kilograms, [], await handoutsOf(c, family)),
    });
  },
);

families.get(
  "/:slug/edit",
  described({ says: "The form that says anew what a family is" }),
  memberRequired,
  async (c) => {
    const family = await wholeFamily(c);
    if (!family) return notFound(c);
    if (!mayChangeFamily(family, c.var.viewer)) return notTheirs(c, family);
    const { page: where, view } = formPage({ family, typed: typedOf(family), faults: [] });
    return page(c, where, view);
  },
);

families.on(
  ["PUT", "POST"],
  "/:slug",
  described({ says: "Say anew what a family is: who made it, or a manager", body: changeBody }),
  memberRequired,
  async (c) => {
    const family = await wholeFamily(c);
    if (!family) return notFound(c);
    if (!mayChangeFamily(family, c.var.viewer)) return notTheirs(c, family);
    const read = await readBody(c, changeBody);
    const again = (faults: readonly Fault[]) =>
      faulty(c, { faults }, formPage({ family, typed: read.typed, faults }));
    if (read.kind === "refused")
      return faulty(c, read, formPage({ family, typed: read.typed, faults: read.faults }));
    const { name = family.name, intro, recipes } = read.value;
    const { recipeIds, faults } = await readRecipes(c, recipes);
    if (faults.length > 0) return again(faults);
    const { db, viewer: reader } = c.var;
    const given = { familyId: family.id, name, intro, recipeIds, reader, ...actOf(c) };
    const done = await changeFamily(db, given);
    switch (done.kind) {
      case "name-taken":
        return again([nameTaken(done.slug)]);
      case "changed":
        return changed(c, `/families/${family.slug}`, await jsonOf(c, family.slug));
    }
  },
);

const nameTaken = (slug: string): Fault => ({
  path: "name",
  says: `There is a family of this name: /families/${slug}. Choose a name that tells the two apart.`,
});

const notTheirs = (c: Ctx, family: WholeFamily) =>
  notAllowed(
    c,
    `${family.addedBy.name}, who made this family, or a manager can change it. Make one of your own instead.`,
    familyPage(c, family, usualBucket, []),
  );

const wholeFamily = (c: Ctx, slug = c.req.param("slug") ?? "") =>
  findFamily(c.var.db, { slug, reader: c.var.viewer, now: c.var.now });

async function jsonOf(c: Ctx, slug: string) {
  const family = await wholeFamily(c, slug);
  return family && familyJson(family, usualBucket);
}

/** The recipes that were named, each once, found through the scope of whoever names them. */
async function readRecipes(c: Ctx, typed: readonly string[]) {
  const found = await findNamedRecipes(c.var.db, { typed, reader: c.var.viewer });
  const faults: Fault[] = [];
  const recipeIds = typed.flatMap((word, at) => {
    const recipe = found.get(word);
    const before = typed.findIndex((other) => found.get(other)?.id === recipe?.id);
    if (recipe && before === at) return [recipe.id];
    const says = recipe
      ? `“${word}” is in the list twice.`
      : `There is no recipe “${word}” that you may see. Name it as the library does.`;
    faults.push({ path: `recipes.${at}`, says });
    return [];
  });
  return { recipeIds, faults };
}

/** The links by which somebody outside reads it, for who may end them. */
const handoutsOf = async ({ var: { db, viewer } }: Ctx, { id }: WholeFamily) =>
  viewer ? listHandouts(db, { familyId: id, reader: viewer }) : [];

function familyPage(
  c: Ctx,
  family: WholeFamily,
  kilograms: Decimal,
  faults: readonly Fault[],
  handouts: OpenHandout[] = [],
) {
  return {
    page: { title: family.name, here: "library" } as const,
    view: () => (
      <FamilyPage
        family={familyJson(family, kilograms)}
        faults={faults}
        mayChange={mayChangeFamily(family, c.var.viewer)}
        handouts={handouts}
      />
    ),
  };
}
