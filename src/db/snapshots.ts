import { and, eq } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import type { Db } from "./client.ts";
import { oxideSays } from "./moved-since.ts";
import type { FoundRevision } from "./revisions.ts";
import { type anchors, type Snapshot, tiles } from "./schema/index.ts";

/** Where a note is put: `key` is a line's place from 0, an oxide, or a tile's id. */
export type Anchor = { kind: (typeof anchors)[number]; key?: string | undefined };

/** How a place of a revision reads, or undefined where the revision has no such place. */
export async function snapshotOf(
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
      return quantity && key ? { says: oxideSays(key, quantity.value.toFixed(3)) } : undefined;
    }
    case "tile": {
      if (key === undefined || !isUuid(key)) return undefined;
      const [tile] = await db
        .select({ cone: tiles.cone, clay: tiles.clay })
        .from(tiles)
        .where(and(eq(tiles.id, key), eq(tiles.revisionId, revision.id)));
      if (!tile) return undefined;
      const on = tile.clay ? ` on ${tile.clay}` : "";
      return { says: `tile at cone ${tile.cone}${on}` };
    }
  }
}
