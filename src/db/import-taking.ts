import { eq, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Fault } from "../chem/analysis.ts";
import { addAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import type { Draft } from "./drafts.ts";
import { type Act, appendEvent } from "./events.ts";
import { bringsOf, faultsOfPlan } from "./import-faults.ts";
import type { ImportPlan, MaterialPlan } from "./import-plan-types.ts";
import { type PlanParams, planImport } from "./import-planning.ts";
import { quote } from "./import-quotes.ts";
import { addMaterial } from "./material-adding.ts";
import { addName } from "./material-names.ts";
import { findMaterialsById } from "./materials.ts";
import { publishAllOf } from "./publishing-many.ts";
import type { Offered } from "./publishing-rows.ts";
import { type importedNouns, importedThings, imports, importWithdrawals } from "./schema/index.ts";

/** One import at a time, so that the same file sent twice at once is seen to be the same. */
const importLock = 7_263_403;

/** An earlier time that the same file was taken in. */
export type Before = { id: string; at: Date; takenBack: boolean };

export type TakenIn =
  | { kind: "taken-in"; id: string; brings: ReturnType<typeof bringsOf> }
  /** Somebody took a name at this moment; asked again it gets another. */
  | { kind: "moved" }
  | ({ plan: ImportPlan } & (
      | { kind: "taken-before"; before: Before[] }
      | { kind: "not-ready"; faults: Fault[] }
      | { kind: "nothing-new" }
    ));

type Taking = Omit<PlanParams, "at"> &
  Act & { by: string; digest: string; again: boolean; leaveOutRefused: boolean };

/** When the same bytes were taken in before, newest first. */
export const findBefore = (db: Db, digest: string): Promise<Before[]> =>
  db
    .select({
      id: imports.id,
      at: imports.at,
      takenBack: sql<boolean>`${importWithdrawals.importId} is not null`,
    })
    .from(imports)
    .leftJoin(importWithdrawals, eq(importWithdrawals.importId, imports.id))
    .where(eq(imports.digest, digest))
    .orderBy(sql`${imports.id} desc`)
    .limit(20);

/**
 * Takes a file in as its plan says: all of it in one transaction, or nothing. The plan is made anew
 * inside, so that what is written is what is true then. Recipes come as drafts of whoever does this.
 */
export async function takeIn(db: Db, taking: Taking): Promise<TakenIn> {
  const { file, matches, fileName, digest, again, leaveOutRefused, by, at } = taking;
  try {
    return await db.transaction(async (tx) => {
      await tx.execute(sql`select pg_advisory_xact_lock(${importLock})`);
      const before = await findBefore(tx, digest);
      const plan = await planImport(tx, { file, matches, fileName, at });
      const faults = faultsOfPlan(plan, { leaveOutRefused });
      if (faults.length > 0) return { kind: "not-ready", faults, plan };
      if (before.length > 0 && !again) return { kind: "taken-before", before, plan };
      const brings = bringsOf(plan);
      if (Object.values(brings).every((count) => count === 0)) return { kind: "nothing-new", plan };
      const id = uuidv7();
      await tx.insert(imports).values({ id, fileName, digest, by, at });
      await carryOut(tx, plan, { importId: id, by, at });
      const happening = {
        subject: "import",
        subjectId: id,
        detail: { digest, ...brings },
      } as const;
      await appendEvent(tx, { by, at }, { kind: "import taken in", ...happening });
      return { kind: "taken-in", id, brings };
    });
  } catch (error) {
    if (error instanceof NameTaken) return { kind: "moved" };
    throw error;
  }
}

/** Ends the transaction, so that nothing of it stays. */
class NameTaken extends Error {}

type Doing = { importId: string; by: string; at: Date };

async function carryOut(tx: Db, plan: ImportPlan, doing: Doing): Promise<void> {
  const { by, at } = doing;
  const ids = new Map<string, string>();
  for (const material of plan.materials) {
    if (material.is === "new") ids.set(material.as, await bringMaterial(tx, material, doing));
  }
  for (const analysis of plan.analyses) {
    const materialId = analysis.materialId ?? ids.get(analysis.material);
    if (analysis.is !== "waits for a manager" || materialId === undefined) continue;
    const { given } = analysis;
    const added = await addAnalysis(tx, { materialId, given, inUse: false, by, at });
    await remember(tx, doing, "analysis", [added.id]);
  }
  const shelf = await findMaterialsById(tx, [...ids.values()]);
  const offered = plan.recipes.flatMap(({ is, draft, as, recipe }) =>
    is === "draft" && draft && recipe && as !== null
      ? [{ name: as, shownTo: "studio", draft: pinned(draft, ids, shelf), recipe, by, at } as const]
      : [],
  );
  const published = await publishAllOf<(typeof offered)[number] & Offered>(tx, offered);
  if (published.size < offered.length) throw new NameTaken();
  await remember(tx, doing, "recipe", [...published.values()]);
  const notes = await quote(
    tx,
    [...published].map(([{ recipe }, recipeId]) => ({ recipeId, texts: recipe.quotes })),
    { by, at },
  );
  await remember(tx, doing, "note", notes);
}

/** A new powder; of its analyses the first is in use, since nothing depends on it yet. */
async function bringMaterial(
  tx: Db,
  { as, described }: MaterialPlan,
  doing: Doing,
): Promise<string> {
  const { by, at } = doing;
  const { region = "", kind = "powder", about = "", hazards = [] } = described ?? {};
  const given = described?.analyses[0]?.given ?? null;
  const added = await addMaterial(tx, { name: as, region, kind, about, hazards, given, by, at });
  if (added.kind === "name-taken") throw new NameTaken();
  await remember(tx, doing, "material", [added.id]);
  if (added.analysis) await remember(tx, doing, "analysis", [added.analysis.id]);
  for (const name of described?.names ?? [])
    await addName(tx, { materialId: added.id, ...name, by, at });
  return added.id;
}

/** The draft with the ids that new powders and their analyses have by now. */
function pinned(
  draft: Draft,
  ids: ReadonlyMap<string, string>,
  shelf: Awaited<ReturnType<typeof findMaterialsById>>,
): Draft {
  const lines = draft.lines.map((line) => {
    const isNew = line.material.slug === "" ? ids.get(line.material.name) : undefined;
    const material = isNew === undefined ? undefined : shelf.get(isNew);
    if (!material) return line;
    const { id, slug, name, inUse } = material;
    return { ...line, material: { id, slug, name }, analysis: inUse };
  });
  return { ...draft, lines };
}

async function remember(
  tx: Db,
  { importId }: Doing,
  noun: (typeof importedNouns)[number],
  thingIds: readonly string[],
): Promise<void> {
  for (let from = 0; from < thingIds.length; from += 1000) {
    const rows = thingIds.slice(from, from + 1000).map((thingId) => ({ importId, noun, thingId }));
    await tx.insert(importedThings).values(rows);
  }
}
