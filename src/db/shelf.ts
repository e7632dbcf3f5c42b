import { and, asc, eq, exists, gt, or, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { listNames, type NameElsewhere } from "./material-names.ts";
import { findMaterialsById, type MaterialOnShelf } from "./materials.ts";
import { foldName } from "./names.ts";
import { materialNames, materials } from "./schema/index.ts";
import { stillOffered } from "./taken-back.ts";

export type ShelfEntry = MaterialOnShelf & { region: string; names: NameElsewhere[] };

/**
 * A page of the shelf in the order of names.
 *
 * @param q a part of any name, here or elsewhere, or of the kind.
 * @param after the folded name of the last material of the page before, as `next` gave it.
 */
export async function listShelf(
  db: Db,
  { q, after, limit }: { q?: string | undefined; after?: string | undefined; limit: number },
): Promise<{ materials: ShelfEntry[]; next: string | null }> {
  const { id, nameKey, region } = materials;
  const rows = await db
    .select({ id, nameKey, region })
    .from(materials)
    .where(
      and(
        stillOffered(db, id),
        after === undefined ? undefined : gt(nameKey, after),
        q ? named(db, q) : undefined,
      ),
    )
    .orderBy(asc(nameKey))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const ids = page.map((row) => row.id);
  const onShelf = await findMaterialsById(db, ids);
  const names = await listNames(db, ids);
  return {
    materials: page.flatMap((row) => {
      const material = onShelf.get(row.id);
      return material ? [{ ...material, region: row.region, names: names.get(row.id) ?? [] }] : [];
    }),
    next: rows.length > limit ? (page.at(-1)?.nameKey ?? null) : null,
  };
}

function named(db: Db, q: string): SQL | undefined {
  const part = foldName(q);
  const elsewhere = db
    .select({ id: materialNames.id })
    .from(materialNames)
    .where(
      and(
        eq(materialNames.materialId, materials.id),
        sql`strpos(${materialNames.nameKey}, ${part}) > 0`,
      ),
    );
  return or(
    sql`strpos(${materials.nameKey}, ${part}) > 0`,
    sql`strpos(lower(${materials.kind}), ${part}) > 0`,
    exists(elsewhere),
  );
}
