import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { HistoryPage } from "../../views/recipes/history.tsx";
import { RecipePage } from "../../views/recipes/page.tsx";
import { publishRevision } from "../db/publishing.ts";
import { type FoundRecipe, findRecipe, listForks } from "../db/recipes.ts";
import { findRevision, listRevisions } from "../db/revisions.ts";
import { answer, created } from "../wire/answers.tsx";
import { check, readSent } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { nextRevisionBody } from "../wire/recipe-body.ts";
import { draftFrom } from "./draft-reading.ts";
import { asForm, formOf, recipeFormPage, staleRevisionPage, wasChanged } from "./recipe-forms.ts";
import { revisionJson, standingJson } from "./recipe-json.ts";
import { findWhole, headJson } from "./whole-recipe.ts";

export const revisions = new Hono<Env>();

revisions.get(
  "/:slug/revisions",
  described({ says: "A recipe's revisions, newest first" }),
  readerRequired,
  async (c) => {
    const recipe = await findRecipe(c.var.db, { slug: c.req.param("slug"), reader: c.var.viewer });
    const before = numberOf(c.req.query("after"));
    if (!recipe || before === null) return notFound(c);
    const rows = await listRevisions(c.var.db, { recipeId: recipe.id, before, limit: 51 });
    const items = rows.slice(0, 50);
    const next = rows.length > 50 ? String(items.at(-1)?.number) : null;
    return answer(c, {
      json: () => ({ items, next }),
      page: { title: `${recipe.name}: revisions`, here: "library" },
      view: () => HistoryPage({ recipe, revisions: items, next }),
    });
  },
);

revisions.get(
  "/:slug/revisions/new",
  described({ says: "The form for the next revision" }),
  memberRequired,
  async (c) => {
    const recipe = await findRecipe(c.var.db, { slug: c.req.param("slug"), reader: c.var.viewer });
    const head =
      recipe && (await findRevision(c.var.db, { recipeId: recipe.id, number: recipe.head }));
    if (!recipe || !head) return notFound(c);
    if (!recipe.mayRevise) return notYours(c, recipe);
    return recipeFormPage(c, {
      form: formOf(head),
      faults: [],
      revises: { recipe, basedOn: recipe.head },
    });
  },
);

revisions.post(
  "/:slug/revisions",
  described({
    says: "Publish the next revision, made from `basedOn`",
    body: nextRevisionBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    if (!recipe.mayRevise) return notYours(c, recipe);

    const sent = await readSent(c);
    if (sent.kind === "refused") return faulty(c, { status: sent.status, faults: sent.faults });
    const form = asForm(c, sent.value);
    const typedBase = Number((sent.value as { basedOn?: unknown }).basedOn) || recipe.head;
    const revises = { recipe, basedOn: typedBase };
    if (form && wasChanged(form)) return recipeFormPage(c, { form, faults: [], revises });

    const read = check(nextRevisionBody, form?.sent ?? sent.value);
    if (read.kind === "refused") return recipeFormPage(c, { form, faults: read.faults, revises });
    const { basedOn, ...revision } = read.value;
    const drafted = await draftFrom(db, revision);
    if (drafted.kind === "faulty")
      return recipeFormPage(c, { form, faults: drafted.faults, revises });

    const published = await publishRevision(db, {
      ...actOf(c),
      recipeId: recipe.id,
      basedOn,
      draft: drafted.draft,
    });
    switch (published.kind) {
      case "published": {
        const location = `/recipes/${recipe.slug}/revisions/${published.number}`;
        return created(c, location, await headJson(c, recipe.slug));
      }
      case "stale": {
        const head = await findRevision(db, { recipeId: recipe.id, number: published.head });
        const base = await findRevision(db, { recipeId: recipe.id, number: basedOn });
        if (!head) return notFound(c);
        return staleRevisionPage(c, { recipe, form, base, head }, revisionJson(head));
      }
    }
  },
);

revisions.get(
  "/:slug/revisions/:number",
  described({ says: "One revision as it was published" }),
  readerRequired,
  async (c) => {
    const { db, viewer } = c.var;
    const number = numberOf(c.req.param("number"));
    const found = number && (await findWhole(c, c.req.param("slug"), number));
    if (!found) return notFound(c);
    const { recipe, head: revision } = found;
    const forks = await listForks(db, { recipeId: recipe.id, reader: viewer });
    return answer(c, {
      json: () => ({
        recipe: recipe.slug,
        ...revisionJson(revision),
        chemistry: found.chemistry,
        standing: standingJson(found.standing, revision.use),
      }),
      page: { title: `${recipe.name}, revision ${revision.number}`, here: "library" },
      view: () =>
        RecipePage({
          ...found,
          revision,
          forks,
          viewer,
          idempotencyKey: uuidv7(),
        }),
    });
  },
);

/** A revision's number in an address: undefined where there is none, null where it is no number. */
function numberOf(text: string | undefined): number | undefined | null {
  if (text === undefined) return undefined;
  return /^[1-9]\d{0,6}$/.test(text) ? Number(text) : null;
}

export const notYours = (c: Ctx, recipe: FoundRecipe) =>
  notAllowed(
    c,
    `${recipe.name} is ${recipe.owner.name}'s: only its owner and a manager can change it. Fork it instead, and it is yours to change.`,
  );
