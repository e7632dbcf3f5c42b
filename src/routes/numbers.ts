import { Hono } from "hono";
import { NumberPage, numberWords } from "../../views/numbers/account.tsx";
import { accountOf } from "../chem/account.ts";
import { findRecipe } from "../db/recipes.ts";
import { type FoundLine, findRevision } from "../db/revisions.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { notFound } from "../wire/problems.tsx";
import { countedByOf, requestOf, usualAddress, usualConventions } from "./conventions.ts";

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
    const { lines } = revision;
    const query = c.req.query();
    const asked = requestOf(c, revision, query);
    const byReader = accountOf(asked, name);
    // A number that is there the usual way only, such as Fe2O3, is told that way.
    const request = byReader ? asked : { ...asked, ...usualConventions };
    const account =
      byReader ?? (countedByOf(c, query) === "settings" ? accountOf(request, name) : undefined);
    if (!account) return notFound(c);
    const { unity, iron, boron } = request;
    const conventions = { unity, iron, boron };
    const title = `${numberWords(account.name)}: ${recipe.name}, revision ${number}`;
    const chosen = new URL(c.req.url).search;
    const back = {
      href: `/recipes/${recipe.slug}/revisions/${number}${chosen}#chemistry`,
      words: `Back to ${recipe.name}`,
    };
    const stored = revision.chemistry.engine;
    return answer(c, {
      json: () => ({ ...account, conventions, lines: lines.map(lineJson) }),
      page: { title, here: "library" },
      view: () =>
        NumberPage({
          title,
          account,
          lines: lines.map(({ material, analysis }) => ({
            name: material.name,
            analysis: analysisWords(analysis),
            href: `/materials/${encodeURIComponent(material.slug)}`,
          })),
          back,
          counted: { by: byReader ? countedByOf(c, query) : "usual", usual: usualAddress(c) },
          storedBy: stored === account.engine ? undefined : stored,
        }),
    });
  },
);

const lineJson = ({ part, material, amount, analysis }: FoundLine) => ({
  part,
  material: material.slug,
  name: material.name,
  amount: amount.toFixed(),
  analysis: analysis && {
    id: analysis.id,
    digest: analysis.digest,
    source: analysis.source,
    measuredOn: analysis.measuredOn,
  },
});

/** The analysis that a line is worked out with: source and date. */
const analysisWords = (analysis: FoundLine["analysis"]): string => {
  if (!analysis) return "no analysis, left out";
  return analysis.measuredOn ? `${analysis.source}, ${analysis.measuredOn}` : analysis.source;
};
