import { and, eq, inArray, sql } from "drizzle-orm";
import type { Fault } from "../chem/analysis.ts";
import { faultsOfRequest, workOut } from "../chem/chemistry.ts";
import type { Db } from "./client.ts";
import { chemistryLines, type Draft, type DraftLine, meltDigest } from "./drafts.ts";
import { freeRecipeNames } from "./import-names.ts";
import type { QuotePlan, RecipePlan } from "./import-plan-types.ts";
import type { FileRead, RecipeInFile } from "./import-types.ts";
import { faultsOfAmount } from "./line-reading.ts";
import { foldName } from "./names.ts";
import { recipes, revisions, withdrawals } from "./schema/index.ts";

/** What a name in the file is pinned to, as far as that is known. */
export type Resolved =
  | ({ is: "pinned" } & Pick<DraftLine, "material" | "analysis">)
  | { is: "waits" | "left out" };

type Params = {
  file: FileRead;
  /** Folded name → what it stands for. */
  resolved: ReadonlyMap<string, Resolved>;
  fileName: string;
};

/** What becomes of each recipe of the file, and of what was said of it elsewhere. */
export async function planRecipes(
  db: Db,
  { file, resolved, fileName }: Params,
): Promise<{ recipes: RecipePlan[]; quotes: QuotePlan[] }> {
  const drafted = file.recipes.map((recipe) => draftOf(recipe, resolved, fileName));
  const melts = new Map(
    drafted.flatMap(({ draft }, index) => (draft ? [[index, meltDigest(draft.lines)]] : [])),
  );
  const here = await headsOfMelts(db, [...melts.values()]);
  const freeName = await freeRecipeNames(db);
  const seen = new Map<string, string>();
  const planned = drafted.map((plan, index): RecipePlan => {
    const melt = melts.get(index);
    if (melt === undefined || plan.recipe === null) return plan;
    const same = here.get(melt);
    if (same) return { ...plan, is: "here already", here: same, draft: null };
    const before = seen.get(melt);
    if (before !== undefined)
      return { ...plan, is: "twice", says: `The same as ${before} of this file.`, draft: null };
    seen.set(melt, `“${plan.name}”`);
    const { name, source } = plan.recipe;
    return { ...plan, as: freeName(name, source || fileName) };
  });
  const quotes = planned.flatMap(({ is, as, recipe }) =>
    is === "draft" && recipe && as !== null
      ? recipe.quotes.map(({ place, text }) => ({ place, recipe: as, text }))
      : [],
  );
  return { recipes: planned, quotes };
}

function draftOf(
  recipe: RecipeInFile,
  resolved: ReadonlyMap<string, Resolved>,
  fileName: string,
): RecipePlan {
  const start = {
    ...{ place: recipe.place, name: recipe.name, as: null, here: null, says: "" },
    ...{ faults: [], asks: [], recipe, draft: null },
  };
  const named = recipe.lines.map((line) => ({ line, to: resolved.get(foldName(line.material)) }));
  const without = [
    ...new Set(named.filter(({ to }) => to?.is === "left out").map(({ line }) => line.material)),
  ];
  if (without.length > 0)
    return { ...start, is: "left out", says: `Without ${without.join(", ")} it is another glaze.` };
  const open = [
    ...new Set(named.filter(({ to }) => to?.is !== "pinned").map(({ line }) => line.material)),
  ];
  if (open.length > 0) return { ...start, is: "waits", says: `It waits for ${open.join(", ")}.` };

  const lines = named.flatMap(({ line: { part, amount }, to }) =>
    to?.is === "pinned" ? [{ part, amount, material: to.material, analysis: to.analysis }] : [],
  );
  const amounts = recipe.lines.flatMap(({ amount, place }) =>
    faultsOfAmount(amount, placeIn(recipe, place, "amount")),
  );
  const faults: Fault[] =
    amounts.length > 0
      ? amounts
      : faultsOfRequest({ lines: chemistryLines(lines) }).map(({ path, says }) => {
          const [, row, word = ""] = /^lines\.(\d+)(?:\.(\w+))?/.exec(path) ?? [];
          const at = recipe.lines[Number(row)];
          return { path: at ? placeIn(recipe, at.place, word) : recipe.place, says };
        });
  if (faults.length > 0) return { ...start, is: "refused", faults };
  const { use, cones, atmosphere, surface } = recipe;
  const message = `from ${fileName || "a file"}`;
  const draft: Draft = { lines, use, cones, atmosphere, surface, about: aboutOf(recipe), message };
  return { ...start, is: "draft", draft, asks: asksOf(draft) };
}

const placeIn = (recipe: RecipeInFile, place: string, word: string): string =>
  place.startsWith("row ")
    ? [place, word].filter(Boolean).join(", ")
    : [recipe.place, place, word].filter(Boolean).join(".");

/** Who made it and where it is from are words of the recipe: they are nobody of this studio. */
function aboutOf({ about, maker, source }: RecipeInFile): string {
  const from = [maker && `Made elsewhere by ${maker}.`, source && `Source: ${source}`]
    .filter(Boolean)
    .join(" ");
  return [about, from].filter(Boolean).join("\n\n");
}

/** What the chemistry wants to know before anybody relies on it: stops, and a cone that boron doubts. */
function asksOf({ lines, cones, use }: Draft): string[] {
  const { findings } = workOut({ lines: chemistryLines(lines), cone: cones.high, use });
  return findings
    .filter(({ level, rule }) => level === "stop" || rule.startsWith("boron"))
    .map(({ says }) => says);
}

/** Recipes whose head is one of these melts and that nobody took back: melt → one of them. */
async function headsOfMelts(
  db: Db,
  melts: readonly string[],
): Promise<Map<string, { slug: string; name: string }>> {
  if (melts.length === 0) return new Map();
  const rows = await db
    .select({ melt: revisions.meltDigest, slug: recipes.slug, name: recipes.name })
    .from(recipes)
    .innerJoin(
      revisions,
      and(eq(revisions.recipeId, recipes.id), eq(revisions.number, recipes.head)),
    )
    .where(
      and(
        inArray(revisions.meltDigest, [...new Set(melts)]),
        sql`not coalesce((select ${withdrawals.withdrawn} from ${withdrawals}
          where ${withdrawals.recipeId} = ${recipes.id}
          order by ${withdrawals.id} desc limit 1), false)`,
      ),
    )
    .orderBy(recipes.nameKey);
  return new Map(rows.reverse().map(({ melt, ...recipe }) => [melt, recipe]));
}
