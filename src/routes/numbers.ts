import { Hono } from "hono";
import { NumberPage, numberWords } from "../../views/numbers/account.tsx";
import { accountOf } from "../chem/account.ts";
import type { PinnedAnalysis } from "../db/analyses.ts";
import { chemistryLines } from "../db/drafts.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { notFound } from "../wire/problems.tsx";
import { conventionsOf } from "./conventions.ts";

export const numbers = new Hono<Env>();

numbers.get(
  "/:slug/revisions/:number/numbers/:name",
  described({ says: "Where one computed number of a revision comes from" }),
  readerRequired,
  async (c) => {
    const { slug, number, name } = c.req.param();
    if (!/^[1-9]\d{0,6}$/.test(number)) return notFound(c);
    const recipe = await findRecipe(c.var.db, { slug, reader: c.var.viewer });
    const revision =
      recipe && (await findRevision(c.var.db, { recipeId: recipe.id, number: Number(number) }));
    if (!recipe || !revision) return notFound(c);
    const { use, cones, lines } = revision;
    const conventions = conventionsOf(c.req.query());
    const request = { lines: chemistryLines(lines), use, cone: cones.high, ...conventions };
    const account = accountOf(request, name);
    if (!account) return notFound(c);
    const title = `${numberWords(name)}: ${recipe.name}, revision ${number}`;
    const named = request.lines.map(({ key, name: powder }, place) => ({
      key,
      name: powder,
      analysis: analysisWords(lines[place]?.analysis ?? null),
    }));
    const back = {
      href: `/recipes/${slug}/revisions/${number}#chemistry`,
      words: `Back to ${recipe.name}`,
    };
    return answer(c, {
      json: () => ({ ...account, conventions, lines: named }),
      page: { title, here: "library" },
      view: () => NumberPage({ title, account, lines: named, back }),
    });
  },
);

/** The analysis that a line is worked out with: source and date. */
export const analysisWords = (
  analysis: Pick<PinnedAnalysis, "source" | "measuredOn"> | null,
): string => {
  if (!analysis) return "no analysis, left out";
  return analysis.measuredOn ? `${analysis.source}, ${analysis.measuredOn}` : analysis.source;
};
