import { and, eq, or, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { mentionedIn } from "./mentions.ts";
import { belongs } from "./people.ts";
import { noteMentions, people, recipes } from "./schema/index.ts";

/**
 * Keeps whom the words of a note call by name: people of the studio who may know of the recipe.
 * Who was called before, by an earlier version of the words, stays called once.
 */
export async function keepMentions(
  tx: Db,
  { noteId, recipeId, text }: { noteId: string; recipeId: string; text: string },
): Promise<void> {
  if (!text.includes("@")) return;
  const mayKnow = await tx
    .select({ id: people.id, name: people.name })
    .from(people)
    .innerJoin(
      recipes,
      or(
        sql`${recipes.shownTo} <> 'private'`,
        eq(recipes.ownerId, people.id),
        eq(people.role, "manager"),
      ),
    )
    .where(and(eq(recipes.id, recipeId), belongs));
  const called = mentionedIn(text, mayKnow);
  if (called.length === 0) return;
  await tx
    .insert(noteMentions)
    .values(called.map((personId) => ({ noteId, personId })))
    .onConflictDoNothing();
}
