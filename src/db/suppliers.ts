import { asc, eq, or } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import { suppliers } from "./schema/index.ts";

/** Who sells powders to the studio. */
export type Supplier = { id: string; slug: string; name: string; about: string; addedAt: Date };

const { id, slug, name, about, addedAt, nameKey } = suppliers;
const shown = { id, slug, name, about, addedAt };

/** Every supplier, in the order of names. A studio buys from a handful. */
export const listSuppliers = (db: Db): Promise<Supplier[]> =>
  db.select(shown).from(suppliers).orderBy(asc(nameKey));

/** A supplier by its slug, or by its name as people type it. */
export async function findSupplier(db: Db, word: string): Promise<Supplier | undefined> {
  const [found] = await db
    .select(shown)
    .from(suppliers)
    .where(or(eq(slug, word), eq(nameKey, foldName(word))));
  return found;
}

/** The supplier whose page has that address. */
export async function findSupplierBySlug(db: Db, word: string): Promise<Supplier | undefined> {
  const [found] = await db.select(shown).from(suppliers).where(eq(slug, word));
  return found;
}

export type NewSupplier = { kind: "added"; supplier: Supplier } | { kind: "name-taken" };

/** Puts a supplier on record; `name-taken` where one of that name is. */
export async function addSupplier(
  db: Db,
  given: Act & { by: string; name: string; about: string },
): Promise<NewSupplier> {
  const { by, at, ...said } = given;
  return db.transaction(async (tx) => {
    const row = { id: uuidv7(), ...said, nameKey: foldName(said.name), addedBy: by, addedAt: at };
    if (await findSupplier(tx, said.name)) return { kind: "name-taken" };
    for (const free of slugsFor(said.name)) {
      const [supplier] = await tx
        .insert(suppliers)
        .values({ ...row, slug: free })
        .onConflictDoNothing()
        .returning(shown);
      if (!supplier) continue;
      const happening = { kind: "supplier added", subject: "supplier", subjectId: row.id } as const;
      await appendEvent(tx, { by, at }, happening);
      return { kind: "added", supplier };
    }
    return { kind: "name-taken" };
  });
}
