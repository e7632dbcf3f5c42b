import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { TileForm } from "../../views/tiles/form.tsx";
import { listBodies } from "../db/bodies.ts";
import { listFirings } from "../db/firings.ts";
import { listBucketsOf } from "../db/proof-tiles.ts";
import { type FoundRecipe, findRecipe } from "../db/recipes.ts";
import { addTile, findClaim, findTile, tileAtmospheres, withdrawTile } from "../db/tiles.ts";
import { answer, changed, created, onTo, page, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { colourOfTileJson } from "./colour-json.ts";
import { colourOf } from "./colour-sheet.ts";
import { revisionNumber, tileBody } from "./tile-body.ts";
import { tileJson } from "./tile-json.ts";
import { faultOfTile, namedBy } from "./tile-places.ts";
import { tileSheet, withdrawnBefore } from "./tile-sheet.ts";

export { tileJson } from "./tile-json.ts";

export const tiles = new Hono<Env>();

const withdrawalBody = z.strictObject({ why: text(1000), idempotencyKey });

tiles.get(
  "/recipes/:slug/tiles/new",
  described({
    says: "The form that puts a fired tile on record",
    query: z.object({ revision: revisionNumber.optional(), bucket: z.string().optional() }),
  }),
  memberRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const asked = revisionNumber.safeParse(c.req.query("revision") ?? recipe.head);
    if (!asked.success || asked.data > recipe.head) return notFound(c);
    const typed = { revision: String(asked.data), bucket: c.req.query("bucket") ?? "" };
    const form = await tileForm(c, recipe, typed, []);
    return page(c, form.page, form.view);
  },
);

tiles.post(
  "/recipes/:slug/tiles",
  described({ says: "Put a fired tile on record", body: tileBody, status: 201 }),
  memberRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const read = await readBody(c, tileBody);
    const again = (faults: readonly Fault[]) => tileForm(c, recipe, read.typed, faults);
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));
    const { revision, firedOn = null } = read.value;
    const refused = async (faults: Fault[]) => faulty(c, { faults }, await again(faults));
    if (firedOn !== null && firedOn > lastDayOnEarth(c.var.now))
      return refused([{ path: "firedOn", says: "That day has not come yet." }]);
    const named = await namedBy(c, read.value);
    if (named.kind === "faulty") return refused(named.faults);

    const { cone, atmosphere, clay, bisqueCone, thicknessMm, place, remark } = read.value;
    const { outcome, defects, application, seconds, coats, specificGravity, beside } = read.value;
    const { body, firing, bucketId, overId } = named;
    const added = await addTile(c.var.db, {
      ...actOf(c),
      recipeId: recipe.id,
      number: revision,
      ...{ cone, atmosphere, clay, firedOn, bisqueCone, thicknessMm, place, remark },
      ...outcome,
      ...{ defects, application, seconds, coats, specificGravity, beside },
      ...{ body, firing, bucketId, overId },
    });
    if (added.kind !== "added") return refused([faultOfTile(added, recipe)]);
    if (!wantsJson(c)) return onTo(c, `/tiles/${added.id}`);
    const tile = await findTile(c.var.db, { id: added.id, reader: c.var.viewer });
    return created(c, `/recipes/${recipe.slug}`, tile && tileJson(tile));
  },
);

tiles.get(
  "/tiles/:id",
  described({
    says: "A fired tile, and how far its colour is from another tile's of the same melt",
    query: z.object({ against: z.string().optional() }),
  }),
  readerRequired,
  async (c) => {
    const tile = await findTheTile(c);
    if (!tile) return notFound(c);
    const colour = wantsJson(c) ? colourOfTileJson(await colourOf(c, tile)) : {};
    const json = () => ({ ...tileJson(tile), ...colour });
    return answer(c, { json, ...(await tileSheet(c, tile)) });
  },
);

tiles.on(
  ["PUT", "POST"],
  "/tiles/:id/withdrawal",
  described({ says: "Withdraw a tile, for good and with the reason", body: withdrawalBody }),
  memberRequired,
  async (c) => {
    const tile = await findTheTile(c);
    if (!tile) return notFound(c);
    if (!tile.mayChange) return notAllowed(c, notYoursToWithdraw, await tileSheet(c, tile));
    if (tile.withdrawn) return withdrawnBefore(c, tile);
    const read = await readBody(c, withdrawalBody);
    if (read.kind === "refused") {
      const { faults, typed } = read;
      return faulty(
        c,
        read,
        await tileSheet(c, tile, { faults, typed: { why: typedText(typed, "why") } }),
      );
    }

    const { why } = read.value;
    const withdrawal = await withdrawTile(c.var.db, { tileId: tile.id, why, ...actOf(c) });

    const now = (await findTheTile(c)) ?? tile;
    switch (withdrawal.kind) {
      case "withdrawn":
        return changed(c, `/tiles/${tile.id}`, tileJson(now));
      case "withdrawn-before":
        return withdrawnBefore(c, now);
    }
  },
);

const notYoursToWithdraw =
  "Who added the tile, the recipe's owner or a manager can withdraw it. Put a note on the recipe that says what is wrong with it.";

const findTheRecipe = (c: Ctx) =>
  findRecipe(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

const findTheTile = (c: Ctx) =>
  findTile(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });

/** The latest day that it can be anywhere: 14 hours ahead of UTC. */
const lastDayOnEarth = (now: Date): string =>
  new Date(now.getTime() + 14 * 3600 * 1000).toISOString().slice(0, 10);

/** The form with what was typed still in it. */
async function tileForm(c: Ctx, recipe: FoundRecipe, typed: Typed, faults: readonly Fault[]) {
  const { db } = c.var;
  const revision = revisionNumber.safeParse(typed.revision);
  const claimed = revision.success
    ? await findClaim(db, { recipeId: recipe.id, number: revision.data })
    : undefined;
  const buckets = revision.success
    ? await listBucketsOf(db, {
        recipeId: recipe.id,
        number: revision.data,
        reader: c.var.viewer,
      })
    : [];
  const bodies = await listBodies(db);
  const { items: firings } = await listFirings(db, { limit: 100 });
  return {
    page: { title: `Add a tile of ${recipe.name}`, here: "library" as const },
    view: () =>
      TileForm({
        recipe,
        claimed,
        atmospheres: tileAtmospheres,
        bodies,
        buckets,
        firings: firings.filter(({ kind }) => kind !== "bisque"),
        typed: (path) => typedAt(typed, path),
        ticked: (defect) => [typed.defects].flat().includes(defect),
        faults,
        idempotencyKey: uuidv7(),
      }),
  };
}

/** What was typed in a field; a number of JSON too. */
const typedAt = (typed: Typed, path: string): string => {
  const value = typed[path];
  return typeof value === "number" ? String(value) : typedText(typed, path);
};
