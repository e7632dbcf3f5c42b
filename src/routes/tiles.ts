import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { TileForm } from "../../views/tiles/form.tsx";
import { type FoundRecipe, findRecipe } from "../db/recipes.ts";
import { addTile, findClaim, findTile, tileAtmospheres, withdrawTile } from "../db/tiles.ts";
import { answer, changed, created, onTo, page, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { day, idempotencyKey, line, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { cone } from "../wire/recipe-body.ts";
import { tileJson } from "./tile-json.ts";
import { tileSheet, withdrawnBefore } from "./tile-sheet.ts";

export { tileJson } from "./tile-json.ts";

export const tiles = new Hono<Env>();

const number = z.coerce
  .number({ error: "The number of a revision, such as 2." })
  .int("The number of a revision, such as 2.")
  .min(1, "The first revision is 1.")
  .max(1_000_000);

const tileBody = z.strictObject({
  revision: number,
  cone,
  atmosphere: z.enum(tileAtmospheres).optional(),
  clay: line(80, 0).default(""),
  firedOn: day.refine((on) => on >= "1900-01-01", "A day since 1900.").optional(),
  remark: text(2000, 0).default(""),
  idempotencyKey,
});

const withdrawalBody = z.strictObject({ why: text(1000), idempotencyKey });

tiles.get(
  "/recipes/:slug/tiles/new",
  described({
    says: "The form that puts a fired tile on record",
    query: z.object({ revision: number.optional() }),
  }),
  memberRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const asked = number.safeParse(c.req.query("revision") ?? recipe.head);
    if (!asked.success || asked.data > recipe.head) return notFound(c);
    const form = await tileForm(c, recipe, { revision: String(asked.data) }, []);
    return page(c, form.page, form.view());
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
    const { revision, idempotencyKey: _, firedOn = null, ...fired } = read.value;
    if (firedOn !== null && firedOn > lastDayOnEarth(c.var.now)) {
      const faults = [{ path: "firedOn", says: "That day has not come yet." }];
      return faulty(c, { faults }, await again(faults));
    }

    const { id: recipeId, slug, head } = recipe;
    const act = actOf(c);
    const added = await addTile(c.var.db, {
      recipeId,
      number: revision,
      ...fired,
      firedOn,
      ...act,
    });

    switch (added.kind) {
      case "added": {
        if (!wantsJson(c)) return onTo(c, `/tiles/${added.id}`);
        const tile = await findTile(c.var.db, { id: added.id, reader: c.var.viewer });
        return created(c, `/recipes/${slug}`, tile && tileJson(tile));
      }
      case "no-such-revision": {
        const says = `There is no revision ${revision} of ${recipe.name}; the head is ${head}.`;
        const faults = [{ path: "revision", says }];
        return faulty(c, { faults }, await again(faults));
      }
    }
  },
);

tiles.get("/tiles/:id", described({ says: "A fired tile" }), readerRequired, async (c) => {
  const tile = await findTheTile(c);
  if (!tile) return notFound(c);
  return answer(c, { json: () => tileJson(tile), ...tileSheet(c, tile) });
});

tiles.on(
  ["PUT", "POST"],
  "/tiles/:id/withdrawal",
  described({ says: "Withdraw a tile, for good and with the reason", body: withdrawalBody }),
  memberRequired,
  async (c) => {
    const tile = await findTheTile(c);
    if (!tile) return notFound(c);
    if (!tile.mayChange) return notAllowed(c, notYoursToWithdraw, tileSheet(c, tile));
    if (tile.withdrawn) return withdrawnBefore(c, tile);
    const read = await readBody(c, withdrawalBody);
    if (read.kind === "refused") {
      const { faults, typed } = read;
      return faulty(
        c,
        read,
        tileSheet(c, tile, { faults, typed: { why: typedText(typed, "why") } }),
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

const typedText = (typed: Typed, name: string): string => {
  const value = typed[name];
  return typeof value === "string" || typeof value === "number" ? String(value) : "";
};

/** The form with what was typed still in it. */
async function tileForm(c: Ctx, recipe: FoundRecipe, typed: Typed, faults: readonly Fault[]) {
  const revision = number.safeParse(typed.revision);
  const claimed = revision.success
    ? await findClaim(c.var.db, { recipeId: recipe.id, number: revision.data })
    : undefined;
  return {
    page: { title: `Add a tile of ${recipe.name}`, here: "library" as const },
    view: () =>
      TileForm({
        recipe,
        claimed,
        atmospheres: tileAtmospheres,
        typed: {
          revision: typedText(typed, "revision"),
          cone: typedText(typed, "cone"),
          atmosphere: typedText(typed, "atmosphere"),
          clay: typedText(typed, "clay"),
          firedOn: typedText(typed, "firedOn"),
          remark: typedText(typed, "remark"),
        },
        faults,
        idempotencyKey: uuidv7(),
      }),
  };
}
