import { and, asc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { appendEvent } from "./events.ts";
import type { FoundRevision } from "./revisions.ts";
import {
  type anchors,
  notes,
  noteTexts,
  people,
  revisions,
  type Snapshot,
  tiles,
} from "./schema/index.ts";

export type Anchor = { kind: (typeof anchors)[number]; key?: string | undefined };

export type FoundNote = {
  id: string;
  revision: number;
  anchor: { kind: Anchor["kind"]; key: string | null };
  snapshot: Snapshot;
  /** null where a manager had it removed. */
  text: string | null;
  by: { id: string; name: string };
  at: Date;
};

/** The notes on all revisions of a recipe, oldest first. */
export async function listNotes(db: Db, { recipeId }: { recipeId: string }): Promise<FoundNote[]> {
  const rows = await db
    .select({
      id: notes.id,
      revision: revisions.number,
      kind: notes.anchor,
      key: notes.anchorKey,
      snapshot: notes.snapshot,
      text: noteTexts.text,
      by: { id: people.id, name: people.name },
      at: notes.at,
    })
    .from(notes)
    .innerJoin(noteTexts, eq(noteTexts.noteId, notes.id))
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(people, eq(people.id, notes.by))
    .where(eq(notes.recipeId, recipeId))
    .orderBy(asc(notes.id));
  return rows.map(({ kind, key, ...row }) => ({ ...row, anchor: { kind, key } }));
}

export type NewNote = { kind: "put"; id: string } | { kind: "no-such-place"; says: string };

/**
 * Puts a note on a revision: on the whole, on a line (`key` is its place, from 0), on an oxide of its
 * chemistry, or on a tile of it. What it was put on is kept with it as it reads now.
 */
export async function putNote(
  db: Db,
  params: {
    recipeId: string;
    revision: FoundRevision;
    anchor: Anchor;
    text: string;
    by: string;
    at: Date;
  },
): Promise<NewNote> {
  const { recipeId, revision, anchor, text, by, at } = params;
  const snapshot = await snapshotOf(db, revision, anchor);
  if (!snapshot) {
    return {
      kind: "no-such-place",
      says: `Revision ${revision.number} has no such ${anchor.kind} to put a note on.`,
    };
  }
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const textDigest = sha256(text);
    await tx.insert(notes).values({
      id,
      recipeId,
      revisionId: revision.id,
      anchor: anchor.kind,
      anchorKey: anchor.kind === "whole" ? null : (anchor.key ?? null),
      snapshot,
      textDigest,
      by,
      at,
    });
    await tx.insert(noteTexts).values({ noteId: id, text });
    const detail = { note: id, number: revision.number, textDigest };
    await appendEvent(
      tx,
      { by, at },
      { kind: "noted", subject: "recipe", subjectId: recipeId, detail },
    );
    return { kind: "put", id };
  });
}

async function snapshotOf(
  db: Db,
  revision: FoundRevision,
  { kind, key }: Anchor,
): Promise<Snapshot | undefined> {
  switch (kind) {
    case "whole":
      return { says: `revision ${revision.number}` };
    case "line": {
      const line = revision.lines.find(({ position }) => String(position) === key);
      if (!line) return undefined;
      const amount = line.amount.toFixed();
      const { name: material } = line.material;
      return { says: `${material} ${amount}`, material, amount, part: line.part };
    }
    case "oxide": {
      const [, quantity] =
        Object.entries(revision.chemistry.unity ?? {}).find(([oxide]) => oxide === key) ?? [];
      return quantity && { says: `${key} ${quantity.value.toFixed(3)} in the unity formula` };
    }
    case "tile": {
      if (!key || !/^[0-9a-f-]{36}$/.test(key)) return undefined;
      const [tile] = await db
        .select({ cone: tiles.cone, clay: tiles.clay })
        .from(tiles)
        .where(and(eq(tiles.id, key), eq(tiles.revisionId, revision.id)));
      return (
        tile && {
          says: tile.clay
            ? `tile at cone ${tile.cone} on ${tile.clay}`
            : `tile at cone ${tile.cone}`,
        }
      );
    }
  }
}
