import { eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { cones } from "../chem/cones.ts";
import type { GivenSheet } from "./bodies.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import { bodies, bodySheets } from "./schema/index.ts";
import { unsettleBody } from "./unsettling.ts";

export type AddedBody =
  | { kind: "added"; id: string; slug: string }
  | { kind: "name-taken"; slug: string };

/** Puts a body on record with its first sheet. `name-taken` where a body goes by that name. */
export async function addBody(
  db: Db,
  { name, sheet, by, at }: Act & { by: string; name: string; sheet: GivenSheet },
): Promise<AddedBody> {
  return db.transaction(async (tx) => {
    const taken = await findByName(tx, name);
    if (taken) return { kind: "name-taken", slug: taken };
    const id = uuidv7();
    const slug = await takeSlug(tx, { id, name, by, at });
    if (!slug) return { kind: "name-taken", slug: (await findByName(tx, name)) ?? "" };
    const detail = await keepSheet(tx, { bodyId: id, sheet, by, at });
    const happening = { kind: "body added", subject: "body", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id, slug };
  });
}

/**
 * Says anew what is known of a body. What it said before stays readable; what was judged by tiles on
 * this body is judged again.
 */
export async function addBodySheet(
  db: Db,
  { bodyId, sheet, by, at }: Act & { by: string; bodyId: string; sheet: GivenSheet },
): Promise<void> {
  await db.transaction(async (tx) => {
    const detail = await keepSheet(tx, { bodyId, sheet, by, at });
    await unsettleBody(tx, bodyId);
    const kind = "body sheet added";
    await appendEvent(tx, { by, at }, { kind, subject: "body", subjectId: bodyId, detail });
  });
}

type Kept = Act & { by: string; bodyId: string; sheet: GivenSheet };

/** @returns what the event tells of the sheet. */
async function keepSheet(tx: Db, { bodyId, sheet, by, at }: Kept) {
  const { cones: range, absorption, expansion, colour, about } = sheet;
  const id = uuidv7();
  await tx.insert(bodySheets).values({
    id,
    bodyId,
    coneLow: range.low,
    coneHigh: range.high,
    coneLowPlace: cones.indexOf(range.low),
    coneHighPlace: cones.indexOf(range.high),
    absorptionPercent: absorption?.percent ?? null,
    absorptionSource: absorption?.source ?? "",
    expansion: expansion?.value ?? null,
    expansionFromCelsius: expansion?.fromCelsius ?? null,
    expansionToCelsius: expansion?.toCelsius ?? null,
    expansionSource: expansion?.source ?? "",
    colour,
    about,
    by,
    at,
  });
  return {
    sheet: id,
    low: range.low,
    high: range.high,
    absorption: absorption?.percent.toFixed() ?? null,
    expansion: expansion?.value.toFixed() ?? null,
  };
}

async function findByName(tx: Db, name: string): Promise<string | undefined> {
  const [found] = await tx
    .select({ slug: bodies.slug })
    .from(bodies)
    .where(eq(bodies.nameKey, foldName(name)));
  return found?.slug;
}

type Named = Act & { by: string; id: string; name: string };

/** The slug that the body got, or undefined where somebody took the name at the same moment. */
async function takeSlug(tx: Db, { id, name, by, at }: Named): Promise<string | undefined> {
  const nameKey = foldName(name);
  for (const slug of slugsFor(name)) {
    const [made] = await tx
      .insert(bodies)
      .values({ id, slug, name, nameKey, addedBy: by, addedAt: at })
      .onConflictDoNothing()
      .returning({ slug: bodies.slug });
    if (made) return made.slug;
  }
  return undefined;
}
