import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { LibraryPage } from "../../views/recipes/library.tsx";
import { RecipePage } from "../../views/recipes/page.tsx";
import { listStockedRecipes } from "../db/bucket-stock.ts";
import { listStrips, standingWords } from "../db/library.ts";
import { publishRecipe } from "../db/publishing.ts";
import { listForks } from "../db/recipes.ts";
import { answer, created } from "../wire/answers.tsx";
import { check, readSent } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notFound, signInFirst } from "../wire/problems.tsx";
import { cone, recipeBody } from "../wire/recipe-body.ts";
import { draftFrom } from "./draft-reading.ts";
import { asForm, blankForm, recipeFormPage, wasChanged } from "./recipe-forms.ts";
import { recipeJson } from "./recipe-json.ts";
import { findWhole, headJson } from "./whole-recipe.ts";

export const recipes = new Hono<Env>();

const search = z.object({
  q: line(100).optional(),
  cone: cone.optional(),
  use: z.enum(["functional", "decorative"]).optional(),
  surface: line(60).optional(),
  standing: z.enum(standingWords).optional(),
  atmosphere: recipeBody.shape.revision.shape.atmosphere.removeDefault().optional(),
  stocked: z.enum(["1"], { error: "1, or nothing." }).optional(),
  after: z.string().max(400).optional(),
});

recipes.get(
  "/",
  described({ says: "The library, in the order of names", query: search }),
  readerRequired,
  async (c) => {
    const asked = Object.fromEntries(
      Object.entries(c.req.query()).filter(([, value]) => value !== ""),
    );
    const read = check(search, asked);
    if (read.kind === "refused") return faulty(c, read);
    const { after, ...wanted } = read.value;
    const { stocked, ...words } = wanted;
    const from = after === undefined ? undefined : readCursor(after);
    if (from === null)
      return faulty(c, { faults: [{ path: "after", says: "This is not a place in the list." }] });

    const { db, viewer: reader, now } = c.var;
    if (stocked && !reader) return signInFirst(c);
    const among = stocked && (await listStockedRecipes(db, { reader, now }));
    const { strips, next } = await listStrips(db, {
      reader,
      now,
      search: { ...words, among },
      after: from,
      limit: 50,
    });
    const cursor = next && writeCursor(next);
    return answer(c, {
      json: () => ({ items: strips.map(({ id: _, ...strip }) => strip), next: cursor }),
      page: { title: "Library", here: "library" },
      view: () =>
        LibraryPage({
          strips,
          search: wanted,
          next: nextAddress(c, cursor),
          mayAdd: reader !== undefined,
        }),
    });
  },
);

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
  async (c) => {
    const { db, viewer } = c.var;
    const found = await findWhole(c, c.req.param("slug"));
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
  },
);

type Cursor = { nameKey: string; id: string };

const writeCursor = ({ nameKey, id }: Cursor): string =>
  Buffer.from(JSON.stringify([nameKey, id])).toString("base64url");

function readCursor(text: string): Cursor | null {
  try {
    const [nameKey, id] = z
      .tuple([z.string(), z.uuid()])
      .parse(JSON.parse(Buffer.from(text, "base64url").toString()));
    return { nameKey, id };
  } catch {
    return null;
  }
}

function nextAddress(c: Ctx, cursor: string | null): string | undefined {
  if (cursor === null) return undefined;
  return `/recipes?${new URLSearchParams({ ...c.req.query(), after: cursor })}`;
}
