import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Use } from "../chem/chemistry.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { reviewRequests } from "./schema/index.ts";
import { unsettleDigest } from "./unsettling.ts";

type Asking = Act & {
  by: string;
  recipeId: string;
  revision: { id: string; number: number; digest: string };
  for: Use;
};

export type Asked = { kind: "asked" } | { kind: "asked-before" };

/** Asks the reviewers to look at a revision. Whoever may revise the recipe may ask. */
export async function askForReview(
  db: Db,
  { recipeId, revision, for: use, by, at }: Asking,
): Promise<Asked> {
  return db.transaction(async (tx) => {
    const [before] = await tx
      .select({ id: reviewRequests.id })
      .from(reviewRequests)
      .where(and(eq(reviewRequests.revisionId, revision.id), eq(reviewRequests.for, use)));
    if (before) return { kind: "asked-before" };
    const row = { id: uuidv7(), revisionId: revision.id, for: use, by, at };
    await tx.insert(reviewRequests).values(row);
    await unsettleDigest(tx, revision.digest);
    const detail = { number: revision.number, digest: revision.digest, for: use };
    const happening = { kind: "review asked for", subject: "recipe", subjectId: recipeId } as const;
    await appendEvent(tx, { by, at }, { ...happening, detail });
    return { kind: "asked" };
  });
}
