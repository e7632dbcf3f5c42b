import type { Decimal } from "decimal.js";
import { asc, desc, eq, inArray, type SQL } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Reader } from "./recipes.ts";
import { bodies, bodySheets, people } from "./schema/index.ts";

/** What somebody says of a body. What is not known of it is null or empty. */
export type GivenSheet = {
  cones: { low: Cone; high: Cone };
  absorption: { percent: Decimal; source: string } | null;
  /** Linear, in 1e-6/K, between the two temperatures. */
  expansion: { value: Decimal; fromCelsius: number; toCelsius: number; source: string } | null;
  colour: string;
  about: string;
};

/** A sheet as it stands on record. */
export type BodySheet = GivenSheet & { id: string; by: { id: string; name: string }; at: Date };

/** A clay body with its newest sheet, which is the one that counts. */
export type FoundBody = { id: string; slug: string; name: string; sheet: BodySheet };

/** A body as its page tells it. */
export type BodyOnRecord = FoundBody & {
  addedBy: { id: string; name: string };
  addedAt: Date;
  /** What was said before, newest first. */
  earlier: BodySheet[];
};

/** Whether the reader may put a new sheet on a body: who added it, a reviewer, or a manager. */
export const mayAddSheet = (body: { addedBy: { id: string } }, reader: Reader): boolean =>
  reader !== undefined && (reader.role !== "member" || reader.id === body.addedBy.id);

/** A body by its address, or undefined where there is none. */
export async function findBody(
  db: Db,
  { slug }: { slug: string },
): Promise<BodyOnRecord | undefined> {
  if (!/^[a-z0-9-]{1,80}$/.test(slug)) return undefined;
  const [row] = await db
    .select({
      id: bodies.id,
      slug: bodies.slug,
      name: bodies.name,
      addedBy: { id: people.id, name: people.name },
      addedAt: bodies.addedAt,
    })
    .from(bodies)
    .innerJoin(people, eq(people.id, bodies.addedBy))
    .where(eq(bodies.slug, slug));
  if (!row) return undefined;
  const [sheet, ...earlier] = (await readSheets(db, [row.id])).get(row.id) ?? [];
  return sheet && { ...row, sheet, earlier };
}

/** Bodies by their ids; an id that is none has no entry. */
export async function findBodies(db: Db, ids: readonly string[]): Promise<Map<string, FoundBody>> {
  if (ids.length === 0) return new Map();
  const found = await readBodies(db, inArray(bodies.id, [...new Set(ids)]));
  return new Map(found.map((body) => [body.id, body]));
}

/** Every body of the studio, in the order of names. */
export const listBodies = (db: Db): Promise<FoundBody[]> => readBodies(db, undefined);

async function readBodies(db: Db, which: SQL | undefined): Promise<FoundBody[]> {
  const rows = await db
    .select({ id: bodies.id, slug: bodies.slug, name: bodies.name })
    .from(bodies)
    .where(which)
    .orderBy(asc(bodies.nameKey));
  const sheets = await readSheets(
    db,
    rows.map(({ id }) => id),
  );
  return rows.flatMap((row) => {
    const [sheet] = sheets.get(row.id) ?? [];
    return sheet ? [{ ...row, sheet }] : [];
  });
}

/** All sheets of some bodies, newest first: body id → sheets. A body seldom has more than three. */
async function readSheets(db: Db, bodyIds: readonly string[]): Promise<Map<string, BodySheet[]>> {
  const sheets = new Map<string, BodySheet[]>(bodyIds.map((id) => [id, []]));
  if (bodyIds.length === 0) return sheets;
  const rows = await db
    .select({ sheet: bodySheets, by: { id: people.id, name: people.name } })
    .from(bodySheets)
    .innerJoin(people, eq(people.id, bodySheets.by))
    .where(inArray(bodySheets.bodyId, [...bodyIds]))
    .orderBy(desc(bodySheets.id));
  for (const { sheet, by } of rows) sheets.get(sheet.bodyId)?.push(asSheet(sheet, by));
  return sheets;
}

function asSheet(row: typeof bodySheets.$inferSelect, by: BodySheet["by"]): BodySheet {
  const { expansion: value, expansionFromCelsius: from, expansionToCelsius: to } = row;
  return {
    id: row.id,
    // The schema bounds their shape; they were taken from the list of cones.
    cones: { low: row.coneLow as Cone, high: row.coneHigh as Cone },
    absorption: row.absorptionPercent && {
      percent: row.absorptionPercent,
      source: row.absorptionSource,
    },
    expansion:
      value && from !== null && to !== null
        ? { value, fromCelsius: from, toCelsius: to, source: row.expansionSource }
        : null,
    colour: row.colour,
    about: row.about,
    by,
    at: row.at,
  };
}
