import { Decimal } from "decimal.js";
import type { Part } from "../chem/lines.ts";
import type { Draft, DraftLine } from "../db/drafts.ts";
import { findMaterialsBySlug } from "../db/materials.ts";
import { publishRecipe, publishRevision } from "../db/publishing.ts";
import { setWithdrawn } from "../db/recipes.ts";
import { type FoundRevision, findRevision } from "../db/revisions.ts";
import { type Entry, entry, known, type Making } from "./diary.ts";
import { type DemoGlaze, type DemoLine, type DemoRevision, demoGlazes } from "./glazes.ts";

/** Recipes, what they were revised and forked into, and one taken back. */
export const libraryEntries = (): Entry[] => [
  ...demoGlazes.flatMap((glaze) => [
    ...glaze.revisions.map((revision, place) =>
      entry(revision.at, place === 0 ? publish(glaze) : revise(glaze, place)),
    ),
    ...(glaze.withdrawn ? [entry(glaze.withdrawn.at, withdraw(glaze, glaze.withdrawn))] : []),
  ]),
];

const publish =
  ({ name, shownTo, forkOf, revisions: [first] }: DemoGlaze): Entry["happens"] =>
  async (making, at) => {
    const draft = await draftOf(making, first);
    const origin = forkOf && (await revisionOf(making, forkOf.name, forkOf.number));
    const act = { by: known(making.ids, first.by), at };
    const forkedFrom = origin?.id;
    const published = await publishRecipe(making.db, { name, shownTo, forkedFrom, draft, ...act });
    if (published.kind !== "published") throw new Error(`${name} is in the library twice`);
    making.recipeIds.set(name, published.id);
  };

const revise =
  ({ name, revisions }: DemoGlaze, place: number): Entry["happens"] =>
  async (making, at) => {
    const revision = revisions[place] as DemoRevision;
    const draft = await draftOf(making, revision);
    const recipeId = known(making.recipeIds, name);
    const act = { by: known(making.ids, revision.by), at };
    const published = await publishRevision(making.db, {
      recipeId,
      basedOn: place,
      draft,
      ...act,
    });
    if (published.kind !== "published") throw new Error(`${name} has no revision ${place} yet`);
  };

const withdraw =
  ({ name }: DemoGlaze, { by, why }: NonNullable<DemoGlaze["withdrawn"]>): Entry["happens"] =>
  async ({ db, ids, recipeIds }, at) => {
    const recipeId = known(recipeIds, name);
    await setWithdrawn(db, {
      recipeId,
      withdrawn: true,
      forSafety: false,
      why,
      by: known(ids, by),
      at,
    });
  };

/** Revisions do not change, so each is read once. */
export async function revisionOf(
  making: Making,
  name: string,
  number: number,
): Promise<FoundRevision> {
  const key = `${name} ${number}`;
  const read = making.revisions.get(key);
  if (read) return read;
  const recipeId = known(making.recipeIds, name);
  const found = await findRevision(making.db, { recipeId, number });
  if (!found) throw new Error(`${key} is not published yet`);
  making.revisions.set(key, found);
  return found;
}

async function draftOf(making: Making, revision: DemoRevision): Promise<Draft> {
  const { base, additions = [], use, cones, surface, about, message } = revision;
  if (making.shelf.size === 0) await readShelf(making);
  const [low, high] = cones;
  return {
    lines: [...draftLines(making, "base", base), ...draftLines(making, "addition", additions)],
    use,
    cones: { low, high },
    atmosphere: "oxidation",
    surface,
    about,
    message,
  };
}

const draftLines = ({ shelf }: Making, part: Part, lines: readonly DemoLine[]): DraftLine[] =>
  lines.map(([name, amount]) => {
    const { id, slug, inUse } = known(shelf, name);
    return { part, material: { id, slug, name }, analysis: inUse, amount: new Decimal(amount) };
  });

/** What is in use, read once and again after that has changed. */
async function readShelf({ db, shelf, materialSlugs }: Making): Promise<void> {
  for (const material of (await findMaterialsBySlug(db, [...materialSlugs.values()])).values()) {
    shelf.set(material.name, material);
  }
}
