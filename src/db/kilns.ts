import { asc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import { kilns, people } from "./schema/index.ts";

/** A kiln of the studio. */
export type FoundKiln = {
  id: string;
  slug: string;
  name: string;
  about: string;
  addedBy: { id: string; name: string };
  addedAt: Date;
};

const shown = {
  id: kilns.id,
  slug: kilns.slug,
  name: kilns.name,
  about: kilns.about,
  addedBy: { id: people.id, name: people.name },
  addedAt: kilns.addedAt,
};

/** Every kiln of the studio, in the order of names. */
export const listKilns = (db: Db): Promise<FoundKiln[]> =>
  db
    .select(shown)
    .from(kilns)
    .innerJoin(people, eq(people.id, kilns.addedBy))
    .orderBy(asc(kilns.nameKey));

/** A kiln by its address, or undefined where there is none. */
export async function findKiln(db: Db, { slug }: { slug: string }): Promise<FoundKiln | undefined> {
  if (!/^[a-z0-9-]{1,80}$/.test(slug)) return undefined;
  const [found] = await db
    .select(shown)
    .from(kilns)
    .innerJoin(people, eq(people.id, kilns.addedBy))
    .where(eq(kilns.slug, slug));
  return found;
}

export type AddedKiln =
  | { kind: "added"; id: string; slug: string }
  | { kind: "name-taken"; slug: string };

/** Puts a kiln on record. `name-taken` where one goes by that name. */
export async function addKiln(
  db: Db,
  { name, about, by, at }: Act & { by: string; name: string; about: string },
): Promise<AddedKiln> {
  return db.transaction(async (tx) => {
    const taken = await findByName(tx, name);
    if (taken) return { kind: "name-taken", slug: taken };
    const id = uuidv7();
    const slug = await takeSlug(tx, { id, name, about, by, at });
    if (!slug) return { kind: "name-taken", slug: (await findByName(tx, name)) ?? "" };
    const happening = { kind: "kiln added", subject: "kiln", subjectId: id } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id, slug };
  });
}

async function findByName(tx: Db, name: string): Promise<string | undefined> {
  const [found] = await tx
    .select({ slug: kilns.slug })
    .from(kilns)
    .where(eq(kilns.nameKey, foldName(name)));
  return found?.slug;
}

type Named = Act & { by: string; id: string; name: string; about: string };

/** The slug that the kiln got, or undefined where somebody took the name at the same moment. */
async function takeSlug(tx: Db, { id, name, about, by, at }: Named): Promise<string | undefined> {
  const nameKey = foldName(name);
  for (const slug of slugsFor(name)) {
    const [made] = await tx
      .insert(kilns)
      .values({ id, slug, name, nameKey, about, addedBy: by, addedAt: at })
      .onConflictDoNothing()
      .returning({ slug: kilns.slug });
    if (made) return made.slug;
  }
  return undefined;
}
