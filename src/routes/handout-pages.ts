import { Hono } from "hono";
import { leftOutWords } from "../../views/families/words.ts";
import { findFamily } from "../db/families.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { handoutQuery, ownBody, recipeHandoutQuery } from "../wire/handout-query.ts";
import { readerRequired } from "../wire/permissions.ts";
import { notFound } from "../wire/problems.tsx";
import { type Around, answerHandout, answerRestated, askedOf } from "./handout-answers.ts";
import type { HandoutSource } from "./handout-sheet.ts";
import { mayHandOut } from "./handouts.tsx";

export const handoutPages = new Hono<Env>();

const inside = { region: "", madeAt: null, photosAt: "/photos", inside: true } as const;

type Page = { source: HandoutSource; around: Around };

async function ofRecipe(c: Ctx): Promise<Page | undefined> {
  const { db, viewer: reader } = c.var;
  const recipe = await findRecipe(db, { slug: c.req.param("slug") ?? "", reader });
  if (!recipe) return undefined;
  const asked = askedOf(c, recipeHandoutQuery);
  const number = (asked.kind === "read" && asked.value.revision) || recipe.head;
  const revision = await findRevision(db, { recipeId: recipe.id, number });
  if (!revision) return undefined;
  const address = `/recipes/${recipe.slug}`;
  return {
    source: { ...inside, family: null, revisionIds: [revision.id], leftOut: null },
    around: {
      alone: false,
      address: `${address}/handout`,
      linkAt: recipe.mayRevise ? `${address}/handouts` : null,
      back: { href: address, name: recipe.name },
      revision: number,
    },
  };
}

async function ofFamily(c: Ctx): Promise<Page | undefined> {
  const { db, viewer: reader, now } = c.var;
  const family = await findFamily(db, { slug: c.req.param("slug") ?? "", reader, now });
  if (!family) return undefined;
  const address = `/families/${family.slug}`;
  return {
    source: {
      ...inside,
      family: { name: family.name, intro: family.intro },
      revisionIds: family.recipes.map(({ revision }) => revision.id),
      leftOut: family.leftOut > 0 ? leftOutWords(family.leftOut) : null,
    },
    around: {
      alone: false,
      address: `${address}/handout`,
      linkAt: mayHandOut(c, family) ? `${address}/handouts` : null,
      back: { href: address, name: family.name },
    },
  };
}

handoutPages.get(
  "/recipes/:slug/handout",
  described({
    says: "A recipe written up for readers elsewhere, in their names and measures",
    query: recipeHandoutQuery,
  }),
  readerRequired,
  async (c) => {
    const found = await ofRecipe(c);
    if (!found) return notFound(c);
    return answerHandout(c, found.source, found.around, askedOf(c, recipeHandoutQuery));
  },
);

handoutPages.post(
  "/recipes/:slug/handout",
  described({ says: "The same from the reader's own powders; nothing stored", body: ownBody }),
  readerRequired,
  async (c) => {
    const found = await ofRecipe(c);
    if (!found) return notFound(c);
    return answerRestated(c, found.source, found.around, askedOf(c, recipeHandoutQuery));
  },
);

handoutPages.get(
  "/families/:slug/handout",
  described({ says: "A family written up for readers elsewhere", query: handoutQuery }),
  readerRequired,
  async (c) => {
    const found = await ofFamily(c);
    if (!found) return notFound(c);
    return answerHandout(c, found.source, found.around, askedOf(c, handoutQuery));
  },
);

handoutPages.post(
  "/families/:slug/handout",
  described({ says: "The same from the reader's own powders; nothing stored", body: ownBody }),
  readerRequired,
  async (c) => {
    const found = await ofFamily(c);
    if (!found) return notFound(c);
    return answerRestated(c, found.source, found.around, askedOf(c, handoutQuery));
  },
);
