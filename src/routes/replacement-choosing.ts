import type { HeadWith } from "../db/heads-with.ts";
import type { Next } from "../db/publishing-next.ts";
import { draftOf } from "../db/revisions.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import type { ReplacementBody } from "../wire/replacement-body.ts";
import { messageOf } from "./replacement-messages.ts";
import { type Choices, findHeads } from "./replacement-reading.ts";
import type { Replaced } from "./replacement-solving.ts";

/** `wrong` cannot be published at all; `stale` was made from a head that moved. */
export type Chosen = { heads: HeadWith[]; wrong: Fault[]; stale: Fault[] };

/** The recipes that were chosen, in their order, or the place of each that cannot be. */
export async function findChosen(
  c: Ctx,
  choices: Choices,
  { recipes }: ReplacementBody,
): Promise<Chosen> {
  if (recipes.length === 0) {
    const wrong = [{ path: "recipes", says: "Tick one recipe at least." }];
    return { heads: [], wrong, stale: [] };
  }
  const slugs = recipes.map(({ slug }) => slug);
  const found = await findHeads(c, choices, slugs);
  const bySlug = new Map(found.items.map((each) => [each.recipe.slug, each]));
  const wrong: Fault[] = [];
  const stale: Fault[] = [];
  const heads = recipes.flatMap(({ slug, basedOn }, at): HeadWith[] => {
    const head = bySlug.get(slug);
    if (!head || slugs.indexOf(slug) !== at) {
      const says = head
        ? `“${slug}” is in the list twice.`
        : `There is no recipe “${slug}” here that ${choices.material.name} is to be replaced in.`;
      wrong.push({ path: `recipes.${at}`, says });
      return [];
    }
    if (head.head.number !== basedOn) stale.push(headMoved(head.recipe.name, at));
    return [head];
  });
  return { heads, wrong, stale };
}

/** Whose heads moved while they were worked out, by their places. */
export const movedSince = (heads: readonly HeadWith[], recipeIds: readonly string[]): Fault[] =>
  heads.flatMap(({ recipe }, at) =>
    recipeIds.includes(recipe.id) ? [headMoved(recipe.name, at)] : [],
  );

const headMoved = (name: string, at: number): Fault => ({
  path: `recipes.${at}.basedOn`,
  says: `${name} was revised since this page was read. Look at it again.`,
});

/** Why some of the chosen recipes have nothing to be published, by their places. */
export const faultsOfItems = (items: readonly Replaced[]): Fault[] =>
  items.flatMap((item, at) =>
    "because" in item
      ? [{ path: `recipes.${at}`, says: `${item.recipe.name}: ${item.because}` }]
      : [],
  );

/** The revisions to be published, each saying what went and what stands in. */
export const nextOf = (
  items: readonly Replaced[],
  choices: Choices,
  { message }: ReplacementBody,
): Next[] =>
  items.flatMap((item) => {
    if (!("weighed" in item)) return [];
    const { recipe, head, weighed } = item;
    const draft = draftOf(head, messageOf(choices, head, weighed, message));
    return [{ recipeId: recipe.id, basedOn: head.number, draft: { ...draft, lines: weighed } }];
  });
