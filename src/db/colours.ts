import { asc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Lab } from "../chem/colour.ts";
import type { ColourSource, ColoursInUse } from "../chem/colour-comparing.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { people, tileColours } from "./schema/index.ts";

export type FoundColour = Lab & {
  id: string;
  from: ColourSource;
  /** The picture that it was read from. */
  photoId: string | null;
  by: { id: string; name: string };
  at: Date;
};

/** Everything that was read of some tiles' colours, oldest first: tile id → colours. */
export async function listColours(
  db: Db,
  tileIds: readonly string[],
): Promise<Map<string, FoundColour[]>> {
  if (tileIds.length === 0) return new Map();
  const rows = await db
    .select({
      id: tileColours.id,
      tileId: tileColours.tileId,
      lightness: tileColours.lightness,
      a: tileColours.a,
      b: tileColours.b,
      from: tileColours.from,
      photoId: tileColours.photoId,
      by: { id: people.id, name: people.name },
      at: tileColours.at,
    })
    .from(tileColours)
    .innerJoin(people, eq(people.id, tileColours.by))
    .where(inArray(tileColours.tileId, [...tileIds]))
    .orderBy(asc(tileColours.id));
  const read = new Map<string, FoundColour[]>();
  for (const { tileId, ...colour } of rows) read.set(tileId, [...(read.get(tileId) ?? []), colour]);
  return read;
}

/** The newest of each kind among colours that come oldest first. */
export const inUseOf = <Colour extends FoundColour>(
  colours: readonly Colour[],
): { [from in ColourSource]?: Colour } & ColoursInUse =>
  Object.fromEntries(colours.map((colour) => [colour.from, colour]));

type NewColour = {
  tileId: string;
  lab: Lab;
} & (
  | { from: "instrument" }
  /** `neutralLightness`: what L* the grey patch of the picture was taken to have. */
  | { from: "camera"; photoId: string; neutralLightness: number }
);

/**
 * Puts a tile's colour on record, of a tile and a picture of it that were found through the reader's
 * scope. What was read before stays; the newest of its kind counts.
 */
export async function addColour(
  db: Db,
  { by, at, tileId, lab, ...read }: Act & { by: string } & NewColour,
): Promise<{ kind: "added"; id: string }> {
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const { from } = read;
    const photoId = from === "camera" ? read.photoId : null;
    await tx.insert(tileColours).values({ id, tileId, ...lab, from, photoId, by, at });
    const detail = {
      colour: id,
      from,
      ...(read.from === "camera" && { photo: read.photoId, greyPatch: read.neutralLightness }),
    };
    const happening = { kind: "colour added", subject: "tile", subjectId: tileId, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}
