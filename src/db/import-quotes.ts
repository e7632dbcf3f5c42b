import { and, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvents } from "./events.ts";
import { notes, noteTexts, revisions } from "./schema/index.ts";

type Quoted = { recipeId: string; texts: readonly { text: string }[] };

/**
 * Puts what was said elsewhere on new recipes as notes on the whole: they object to nothing, call
 * nobody by name, and count for no standing.
 *
 * @returns their ids.
 */
export async function quote(
  tx: Db,
  quoted: readonly Quoted[],
  { by, at }: Act & { by: string },
): Promise<string[]> {
  const all = quoted.filter(({ texts }) => texts.length > 0);
  const ids: string[] = [];
  for (let from = 0; from < all.length; from += 100) {
    const batch = all.slice(from, from + 100);
    const heads = await tx
      .select({ recipeId: revisions.recipeId, id: revisions.id })
      .from(revisions)
      .where(
        and(
          inArray(
            revisions.recipeId,
            batch.map(({ recipeId }) => recipeId),
          ),
          eq(revisions.number, 1),
        ),
      );
    const revisionOf = new Map(heads.map(({ recipeId, id }) => [recipeId, id]));
    const rows = batch.flatMap(({ recipeId, texts }) => {
      const revisionId = revisionOf.get(recipeId);
      return revisionId === undefined
        ? []
        : texts.map(({ text }) => ({ id: uuidv7(), recipeId, revisionId, text }));
    });
    await writeRows(tx, rows, { by, at });
    ids.push(...rows.map(({ id }) => id));
  }
  return ids;
}

type Row = { id: string; recipeId: string; revisionId: string; text: string };

const perStatement = 1000;

async function writeRows(tx: Db, all: readonly Row[], { by, at }: Act & { by: string }) {
  for (let from = 0; from < all.length; from += perStatement) {
    const rows = all.slice(from, from + perStatement);
    await tx.insert(notes).values(
      rows.map(({ id, recipeId, revisionId, text }) => ({
        ...{ id, recipeId, revisionId, by, at },
        anchor: "whole" as const,
        anchorKey: null,
        snapshot: { says: "revision 1" },
        blocking: false,
        textDigest: sha256(text),
      })),
    );
    await tx.insert(noteTexts).values(rows.map(({ id, text }) => ({ noteId: id, text })));
    await appendEvents(
      tx,
      rows.map(({ id, recipeId, text }) => ({
        act: { by, at },
        happening: {
          kind: "noted",
          subject: "recipe",
          subjectId: recipeId,
          detail: { note: id, number: 1, textDigest: sha256(text) },
        },
      })),
    );
  }
}
