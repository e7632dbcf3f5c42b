import { findBody } from "../db/bodies.ts";
import { findBucket } from "../db/buckets.ts";
import { findFiring } from "../db/firings.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import type { NewTile } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import type { TileBody } from "./tile-body.ts";

/** What a tile names by its address: its body, its firing, its bucket, and what it lies over. */
export async function namedBy(c: Ctx, { body: slug, firing: id, bucket, over }: TileBody) {
  const { db, viewer: reader, now } = c.var;
  const body = slug === undefined ? undefined : await findBody(db, { slug });
  const firing = id === undefined ? undefined : await findFiring(db, { id });
  const proved =
    bucket === undefined ? undefined : await findBucket(db, { id: bucket, reader, now });
  const beneath = over === undefined ? undefined : await findBeneath(c, over);
  const faults: Fault[] = [];
  if (slug !== undefined && !body)
    faults.push({ path: "body", says: "There is no such body. Put it on record first." });
  if (id !== undefined && !firing)
    faults.push({ path: "firing", says: "There is no such firing. Put it on record first." });
  if (firing?.withdrawn)
    faults.push({
      path: "firing",
      says: "That firing was withdrawn, and its cones witness nothing. Choose another, or none.",
    });
  if (bucket !== undefined && !proved)
    faults.push({ path: "bucket", says: "There is no such bucket, or none that you may know of." });
  if (over !== undefined && !beneath)
    faults.push({ path: "over", says: "There is no such revision, or none that you may know of." });
  return faults.length > 0
    ? { kind: "faulty" as const, faults }
    : { kind: "named" as const, body, firing, bucketId: proved?.id, overId: beneath?.id };
}

async function findBeneath(c: Ctx, over: string) {
  const [slug = "", number] = over.split("@");
  const recipe = await findRecipe(c.var.db, { slug, reader: c.var.viewer });
  return recipe && findRevision(c.var.db, { recipeId: recipe.id, number: Number(number) });
}

/** Why a tile was not put on record, by the field that says otherwise than its firing or its body. */
export function faultOfTile(
  kept: Exclude<NewTile, { kind: "added" }>,
  recipe: { name: string; head: number },
): Fault {
  switch (kept.kind) {
    case "no-such-revision":
      return {
        path: "revision",
        says: `There is no such revision of ${recipe.name}; the head is ${recipe.head}.`,
      };
    case "bisque-firing":
      return {
        path: "firing",
        says: "That was a bisque firing, which carries no glaze tiles. Choose the glaze firing.",
      };
    case "other-atmosphere":
      return {
        path: "atmosphere",
        says: `The firing was ${kept.atmosphere}. Leave this empty, or choose another firing.`,
      };
    case "other-day":
      return {
        path: "firedOn",
        says: `The firing began on ${kept.day}. Leave this empty, or choose another firing.`,
      };
    case "other-clay":
      return { path: "clay", says: `The body is ${kept.clay}. Leave the words empty.` };
    case "other-melt-in-bucket":
      return {
        path: "bucket",
        says: "That bucket was mixed from another melt, so this tile does not prove it. Leave it empty, or choose the revision that the bucket was mixed from.",
      };
    case "layered-proof":
      return {
        path: "bucket",
        says: "A layered tile speaks for the pair and proves no bucket. Leave it empty.",
      };
    case "over-itself":
      return { path: "over", says: "A tile cannot lie over the revision that it is of." };
  }
}
