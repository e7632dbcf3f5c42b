import { Hono } from "hono";
import { FreshLink } from "../../views/shared/fresh-link.tsx";
import { findRecipe } from "../db/recipes.ts";
import { findShareLink, makeShareLink, revokeShareLink } from "../db/share-links.ts";
import { onTo, page, wantsJson } from "../wire/answers.tsx";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { notAllowed, notFound } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";
import { notYours } from "./revisions.ts";

export const shareLinks = new Hono<Env>();

// A repeat would have to keep the link in plain text for a day, so this call takes no key: tapping
// twice makes two links, and either can be ended.
shareLinks.post(
  "/recipes/:slug/revisions/:number/links",
  described({ says: "Make a link that shows one revision to whoever holds it", status: 201 }),
  unrepeatable,
  memberRequired,
  async (c) => {
    const { db, viewer: reader, config } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    const number = c.req.param("number");
    if (!recipe || !/^[1-9]\d{0,6}$/.test(number)) return notFound(c);
    if (!recipe.mayRevise) return notYours(c, recipe);
    const made = await makeShareLink(db, {
      recipeId: recipe.id,
      number: Number(number),
      ...actOf(c),
    });
    if (made.kind === "no-such-revision") return notFound(c);
    const { id, path } = made;
    const link = `${config.publicUrl ?? new URL(c.req.url).origin}${path}`;
    c.header("Location", `/recipes/${recipe.slug}#links`);
    c.header("Cache-Control", "no-store");
    if (wantsJson(c)) return c.json({ id, link, revision: Number(number) }, 201);
    return page(
      c,
      { title: `A link to ${recipe.name}`, here: "library" },
      () => <FreshLink link={link} recipe={recipe} number={Number(number)} />,
      201,
    );
  },
);

const revoke = async (c: Ctx) => {
  const { db, viewer: reader } = c.var;
  const link = await findShareLink(db, { id: c.req.param("id") ?? "", reader });
  if (!link) return notFound(c);
  if (!link.mayRevoke)
    return notAllowed(
      c,
      `Only a manager and ${link.recipe.owner.name}, whose recipe it is, can end this link.`,
    );
  const revoked = await revokeShareLink(db, { linkId: link.id, ...actOf(c) });
  if (revoked.kind === "revoked-before") return notFound(c);
  return wantsJson(c) ? c.body(null, 204) : onTo(c, `/recipes/${link.recipe.slug}#links`);
};

const ends = described({ says: "End a link that shows a revision", status: 204 });
shareLinks.delete("/links/:id", ends, memberRequired, revoke);
shareLinks.post("/links/:id/end", ends, memberRequired, revoke);
