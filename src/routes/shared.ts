import { Hono } from "hono";
import { SharedPage } from "../../views/shared/shared.tsx";
import { findRevision } from "../db/revisions.ts";
import { findShared } from "../db/share-links.ts";
import { findStandings } from "../db/standings.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { notFound } from "../wire/problems.tsx";
import { revisionJson } from "./recipe-json.ts";

export const shared = new Hono<Env>();

// Whoever holds the link reads it, signed in or not, whatever the studio shows to visitors.
shared.get(
  "/shared/:token",
  described({ says: "The revision that a link shows to whoever holds it" }),
  async (c) => {
    const { db, now } = c.var;
    c.header("X-Robots-Tag", "noindex, nofollow");
    const found = await findShared(db, { token: c.req.param("token") });
    const revision =
      found && (await findRevision(db, { recipeId: found.recipe.id, number: found.number }));
    if (!found || !revision) return notFound(c);
    const standings = await findStandings(db, { revisionIds: [revision.id], now });
    const standing = standings.get(revision.id);
    if (!standing) throw new Error("every revision has a standing");
    const { name, owner } = found.recipe;
    const { is, for: use } = standing;
    return answer(c, {
      json: () => {
        const { author, ...said } = revisionJson(revision);
        const recipe = { name, owner: owner.name };
        return { recipe, ...said, author: author.name, standing: { is, for: use } };
      },
      page: { title: name, here: "none", alone: true },
      view: () => SharedPage({ recipe: { name, owner }, revision, standing: { is, for: use } }),
    });
  },
);
