import { Hono } from "hono";
import { FreshHandout } from "../../views/handouts/fresh-link.tsx";
import { findFamily, mayChangeFamily, type WholeFamily } from "../db/families.ts";
import { endHandout, findOpenHandout, makeHandout } from "../db/handouts.ts";
import { listRegions } from "../db/names-in-region.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { onTo, page, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { familyHandoutBody, recipeHandoutBody } from "../wire/handout-query.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";
import { faultsOfRegion } from "./restate-powders.ts";
import { notYours } from "./revisions.ts";

export const handouts = new Hono<Env>();

// A repeat would have to keep the link in plain text for a day, so these calls take no key: tapping
// twice makes two links, and either can be ended.
handouts.post(
  "/recipes/:slug/handouts",
  described({
    says: "Hand a revision out to whoever holds the link",
    body: recipeHandoutBody,
    status: 201,
  }),
  unrepeatable,
  memberRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    if (!recipe) return notFound(c);
    if (!recipe.mayRevise) return notYours(c, recipe);
    const read = await readBody(c, recipeHandoutBody);
    if (read.kind === "refused") return faulty(c, read);
    const { revision: number = recipe.head, region } = read.value;
    const faults = await faultsIn(c, region);
    if (faults.length > 0) return faulty(c, { faults });
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision)
      return faulty(c, {
        faults: [{ path: "revision", says: `${recipe.name} has no revision ${number}.` }],
      });
    return made(c, {
      ...{ familyId: null, region, name: recipe.name, back: `/recipes/${recipe.slug}` },
      held: [{ name: recipe.name, slug: recipe.slug, number, revisionId: revision.id }],
      leftOut: [],
      unseen: 0,
    });
  },
);

handouts.post(
  "/families/:slug/handouts",
  described({
    says: "Hand a family out, as far as you may, to whoever holds the link",
    body: familyHandoutBody,
    status: 201,
  }),
  unrepeatable,
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const family = await findFamily(db, { slug: c.req.param("slug"), reader, now });
    if (!family) return notFound(c);
    if (!mayHandOut(c, family)) return notTheirs(c, family);
    const read = await readBody(c, familyHandoutBody);
    if (read.kind === "refused") return faulty(c, read);
    const { region } = read.value;
    const faults = await faultsIn(c, region);
    if (faults.length > 0) return faulty(c, { faults });
    const held = [];
    const leftOut: string[] = [];
    for (const { slug, name, revision } of family.recipes) {
      const recipe = await findRecipe(db, { slug, reader });
      const mayBe = recipe && (recipe.shownTo === "public" || recipe.mayRevise);
      if (mayBe) held.push({ name, slug, number: revision.number, revisionId: revision.id });
      else leftOut.push(`${name} is not public, and only its owner or a manager can hand it out.`);
    }
    if (held.length === 0)
      return faulty(c, { faults: [{ path: "", says: nothingToHandOut(family.name) }] });
    return made(c, {
      ...{ familyId: family.id, region, name: family.name, back: `/families/${family.slug}` },
      ...{ held, leftOut, unseen: family.leftOut },
    });
  },
);

const nothingToHandOut = (name: string): string =>
  `Nothing of ${name} is yours to hand out: its recipes are not public. Ask their owners or a manager.`;

/** Who made the family, who owns a recipe in it, or a manager. */
export const mayHandOut = (c: Ctx, family: WholeFamily): boolean =>
  mayChangeFamily(family, c.var.viewer) ||
  family.recipes.some(({ owner }) => owner.id === c.var.viewer?.id);

const notTheirs = (c: Ctx, family: WholeFamily) =>
  notAllowed(
    c,
    `${family.addedBy.name}, who made this family, the owner of a recipe in it or a manager can hand it out. Print its handout instead, or send its address.`,
  );

async function faultsIn(c: Ctx, region: string): Promise<Fault[]> {
  return region === "" ? [] : faultsOfRegion({ region }, await listRegions(c.var.db));
}

type Making = {
  familyId: string | null;
  region: string;
  name: string;
  /** The page that its links are listed on. */
  back: string;
  held: readonly { name: string; slug: string; number: number; revisionId: string }[];
  leftOut: readonly string[];
  unseen: number;
};

async function made(c: Ctx, { familyId, region, name, back, held, leftOut, unseen }: Making) {
  const { db, config } = c.var;
  const revisionIds = held.map(({ revisionId }) => revisionId);
  const { id, path } = await makeHandout(db, { familyId, region, revisionIds, ...actOf(c) });
  const link = `${config.publicUrl ?? new URL(c.req.url).origin}${path}`;
  c.header("Location", `${back}#handouts`);
  c.header("Cache-Control", "no-store");
  const recipes = held.map(({ slug, name: recipe, number }) => ({
    ...{ slug, name: recipe, revision: number },
  }));
  if (wantsJson(c)) return c.json({ id, link, region, recipes, leftOut, unseen }, 201);
  return page(
    c,
    { title: `A handout of ${name}`, here: "library" },
    () => <FreshHandout {...{ link, name, back, recipes, leftOut, unseen }} />,
    201,
  );
}

const end = async (c: Ctx) => {
  const { db, viewer: reader } = c.var;
  const open = await findOpenHandout(db, { id: c.req.param("id") ?? "", reader });
  if (!open) return notFound(c);
  if (!open.mayEnd)
    return notAllowed(
      c,
      `${open.madeBy}, who made this link, the owner of a recipe in it or a manager can end it. Ask one of them.`,
    );
  const ended = await endHandout(db, { handoutId: open.id, ...actOf(c) });
  if (ended.kind === "ended-before") return notFound(c);
  const [first] = open.recipes;
  const back = open.family ? `/families/${open.family.slug}` : `/recipes/${first?.slug}`;
  return wantsJson(c) ? c.body(null, 204) : onTo(c, `${back}#handouts`);
};

const ends = described({ says: "End a link that hands something out", status: 204 });
handouts.delete("/handouts/:id", ends, memberRequired, end);
handouts.post("/handouts/:id/end", ends, memberRequired, end);
