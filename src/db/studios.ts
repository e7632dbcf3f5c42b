import type { Db } from "./client.ts";
import { studios } from "./schema/index.ts";

export type Studio = { name: string; showsPublic: boolean };

/** The studio of this database, made with the given name where there is none yet. */
export async function openStudio(db: Db, name: string): Promise<Studio> {
  await db.insert(studios).values({ only: 1, name, showsPublic: true }).onConflictDoNothing();
  const [studio] = await db
    .select({ name: studios.name, showsPublic: studios.showsPublic })
    .from(studios);
  return studio ?? { name, showsPublic: true };
}
