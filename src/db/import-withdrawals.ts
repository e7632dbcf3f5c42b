import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type BroughtRecipe, listBroughtRecipes } from "./imports.ts";
import { importWithdrawals, withdrawals } from "./schema/index.ts";
import { unsettleSameGlaze } from "./unsettling.ts";

export type ImportWithdrawn =
  | { kind: "withdrawn"; recipes: number; left: number }
  | { kind: "withdrawn-before" }
  /** Somebody went on with these, and nobody said yet whether they go too. */
  | { kind: "changed-since"; recipes: BroughtRecipe[] };

type Withdrawing = Act & {
  by: string;
  importId: string;
  why: string;
  /** Of recipes that were revised, forked or mixed since: take them back too, or leave them. */
  anyway?: boolean | undefined;
};

/**
 * Takes an import back as one, by one event: every recipe that it brought is withdrawn with the same
 * words, its analyses are never put in use from then on, and its materials are offered to nobody where
 * nothing else has come to use them. All of it stays on record.
 */
export async function withdrawImport(
  db: Db,
  { importId, why, anyway, by, at }: Withdrawing,
): Promise<ImportWithdrawn> {
  try {
    return await db.transaction((tx) => withdrawIn(tx, { importId, why, anyway, by, at }));
  } catch (error) {
    if (error instanceof ChangedSince) return { kind: "changed-since", recipes: error.recipes };
    throw error;
  }
}

async function withdrawIn(
  tx: Db,
  { importId, why, anyway, by, at }: Withdrawing,
): Promise<ImportWithdrawn> {
  const [made] = await tx
    .insert(importWithdrawals)
    .values({ importId, why, by, at })
    .onConflictDoNothing()
    .returning({ id: importWithdrawals.importId });
  if (!made) return { kind: "withdrawn-before" };
  const brought = (await listBroughtRecipes(tx, importId)).filter(({ withdrawn }) => !withdrawn);
  const changed = brought.filter(({ since }) => since.length > 0);
  if (changed.length > 0 && anyway === undefined) throw new ChangedSince(changed);
  const goes = anyway ? brought : brought.filter(({ since }) => since.length === 0);
  for (const { id: recipeId } of goes) {
    const row = { id: uuidv7(), recipeId, withdrawn: true, forSafety: false, why, by, at };
    await tx.insert(withdrawals).values(row);
    await unsettleSameGlaze(tx, recipeId);
  }
  const left = brought.length - goes.length;
  const detail = { recipes: goes.length, left };
  const happening = { subject: "import", subjectId: importId, detail } as const;
  await appendEvent(tx, { by, at }, { kind: "import withdrawn", ...happening });
  return { kind: "withdrawn", recipes: goes.length, left };
}

/** Ends the transaction, so that nothing of it stays. */
class ChangedSince extends Error {
  readonly recipes: BroughtRecipe[];

  constructor(recipes: BroughtRecipe[]) {
    super("some recipes changed since the import");
    this.recipes = recipes;
  }
}
