import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { RecipePage } from "../../views/recipes/page.tsx";
import { publishRecipe } from "../db/publishing.ts";
import { listForks } from "../db/recipes.ts";
import { answer, created } from "../wire/answers.tsx";
import { check, readSent } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { sameForVisitors } from "../wire/kept-answers.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { recipeBody } from "../wire/recipe-body.ts";
import { draftFrom } from "./draft-reading.ts";
import { asForm, blankForm, recipeFormPage, wasChanged } from "./recipe-forms.ts";
import { recipeJson } from "./recipe-json.ts";
import { findWhole, headJson } from "./whole-recipe.ts";

export const recipes = new Hono<Env>();

recipes.get("/new", described({ says: "The form for a new recipe" }), memberRequired, (c) =>
  recipeFormPage(c, { form: blankForm(), faults: [] }),
);

recipes.post(
  "/",
  described({ says: "Publish a recipe with its first revision", body: recipeBody, status: 201 }),
  memberRequired,
  async (c) => {
    const sent = await readSent(c);
    if (sent.kind === "refused") return faulty(c, { status: sent.status, faults: sent.faults });
    const form = asForm(c, sent.value);
    if (form && wasChanged(form)) return recipeFormPage(c, { form, faults: [] });

    const read = check(recipeBody, form?.sent ?? sent.value);
    if (read.kind === "refused") return recipeFormPage(c, { form, faults: read.faults });
    const { name, shownTo, revision } = read.value;
    const drafted = await draftFrom(c.var.db, revision, "revision.");
    if (drafted.kind === "faulty") return recipeFormPage(c, { form, faults: drafted.faults });

    const published = await publishRecipe(c.var.db, {
      ...actOf(c),
      name,
      shownTo,
      draft: drafted.draft,
    });
    switch (published.kind) {
      case "published":
        return created(c, `/recipes/${published.slug}`, await headJson(c, published.slug));
      case "name-taken": {
        const says =
          "Another recipe has this name already. Choose one of your own, or fork that recipe.";
        return recipeFormPage(c, { form, faults: [{ path: "name", says }] });
      }
    }
  },
);

recipes.get(
  "/:slug",
  described({ says: "A recipe with its head revision" }),
  readerRequired,
  sameForVisitors(async (c) => {
    const { db, viewer } = c.var;
    const found = await findWhole(c, c.req.param("slug") ?? "");
    if (!found) return notFound(c);
    const { recipe, head } = found;
    const forks = await listForks(db, { recipeId: recipe.id, reader: viewer });
    return answer(c, {
      json: () => recipeJson(found),
      page: { title: recipe.name, here: "library" },
      view: () =>
        RecipePage({
          ...found,
          revision: head,
          forks,
          viewer,
          idempotencyKey: uuidv7(),
        }),
    });
  }),
);
