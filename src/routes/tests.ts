import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { TestForm } from "../../views/tests/form.tsx";
import { RecipeTests } from "../../views/tests/recipe.tsx";
import { articleClasses } from "../chem/leach-limits.ts";
import { type FoundRecipe, findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { addTest, withdrawTest } from "../db/test-adding.ts";
import { listTests } from "../db/tests.ts";
import { findTile, listTiles } from "../db/tiles.ts";
import { answer, changed, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { testBody } from "./test-body.ts";
import { testJson, wholeTestJson } from "./test-json.ts";
import { whatSpeaksAgainst, withLimits } from "./test-limits.ts";
import { findTheTest, findWholeTest, testSheet, withdrawnBefore } from "./test-sheet.ts";
import { revisionNumber } from "./tile-body.ts";

export const tests = new Hono<Env>();

const withdrawalBody = z.strictObject({ why: text(1000), idempotencyKey });

tests.get(
  "/recipes/:slug/tests",
  described({ says: "What the head's melt was tested for, newest last" }),
  readerRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    const head =
      recipe && (await findRevision(c.var.db, { recipeId: recipe.id, number: recipe.head }));
    if (!recipe || !head) return notFound(c);
    const { meltDigest } = head;
    const listed = await listTests(c.var.db, { meltDigest, reader: c.var.viewer });
    const found = listed.map((test) => withLimits(c, test));
    return answer(c, {
      json: () => ({ items: found.map(testJson), next: null }),
      page: { title: `Tests of ${recipe.name}`, here: "library" },
      view: () => RecipeTests({ recipe, tests: found, mayAdd: c.var.viewer !== undefined }),
    });
  },
);

tests.get(
  "/recipes/:slug/tests/new",
  described({
    says: "The form that puts a test on record",
    query: z.object({ revision: revisionNumber.optional(), tile: z.string().optional() }),
  }),
  memberRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const asked = revisionNumber.safeParse(c.req.query("revision") ?? recipe.head);
    if (!asked.success || asked.data > recipe.head) return notFound(c);
    const typed = { revision: String(asked.data), tile: c.req.query("tile") ?? "" };
    const form = await testForm(c, recipe, typed, []);
    return page(c, form.page, form.view);
  },
);

tests.post(
  "/recipes/:slug/tests",
  described({ says: "Put a test on record", body: testBody, status: 201 }),
  memberRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const read = await readBody(c, testBody);
    const again = (faults: readonly Fault[]) => testForm(c, recipe, read.typed, faults);
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));
    const { revision, tile: tileId, idempotencyKey: _, ...tested } = read.value;
    const refused = async (path: string, says: string) =>
      faulty(c, { faults: [{ path, says }] }, await again([{ path, says }]));
    const tile =
      tileId === undefined ? null : await findTile(c.var.db, { id: tileId, reader: c.var.viewer });
    if (tile === undefined) return refused("tile", "There is no such tile.");
    const against = whatSpeaksAgainst(c, tested);
    if (against !== undefined) return refused("outcome", against);

    const added = await addTest(c.var.db, {
      recipeId: recipe.id,
      number: revision,
      test: { ...tested, tileId: tile?.id ?? null },
      ...actOf(c),
    });
    switch (added.kind) {
      case "added": {
        const test = await findWholeTest(c, added.id);
        return created(c, `/tests/${added.id}`, test && wholeTestJson(test));
      }
      case "no-such-revision":
        return refused(
          "revision",
          `There is no revision ${revision} of ${recipe.name}; the head is ${recipe.head}.`,
        );
      case "other-melt":
        return refused("tile", `That tile is of another melt than revision ${revision}.`);
    }
  },
);

tests.get("/tests/:id", described({ says: "A test of a glaze" }), readerRequired, async (c) => {
  const test = await findTheTest(c);
  if (!test) return notFound(c);
  return answer(c, { json: () => wholeTestJson(test), ...testSheet(c, test) });
});

tests.on(
  ["PUT", "POST"],
  "/tests/:id/withdrawal",
  described({ says: "Withdraw a test, for good and with the reason", body: withdrawalBody }),
  memberRequired,
  async (c) => {
    const test = await findTheTest(c);
    if (!test) return notFound(c);
    if (!test.mayWithdraw) return notAllowed(c, notYoursToWithdraw, testSheet(c, test));
    if (test.withdrawn) return withdrawnBefore(c, test);
    const read = await readBody(c, withdrawalBody);
    if (read.kind === "refused") {
      const { faults, typed } = read;
      return faulty(
        c,
        read,
        testSheet(c, test, { faults, typed: { why: typedText(typed, "why") } }),
      );
    }
    const { why } = read.value;
    const withdrawal = await withdrawTest(c.var.db, { testId: test.id, why, ...actOf(c) });
    const now = (await findTheTest(c)) ?? test;
    switch (withdrawal.kind) {
      case "withdrawn":
        return changed(c, `/tests/${test.id}`, wholeTestJson(now));
      case "withdrawn-before":
        return withdrawnBefore(c, now);
    }
  },
);

const notYoursToWithdraw =
  "Who added the test, the recipe's owner or a manager can withdraw it. Put a note on the recipe that says what is wrong with it.";

const findTheRecipe = (c: Ctx) =>
  findRecipe(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

/** The form with what was typed still in it, and the tiles of the melt to choose from. */
async function testForm(c: Ctx, recipe: FoundRecipe, typed: Typed, faults: readonly Fault[]) {
  const { db, viewer } = c.var;
  const asked = revisionNumber.safeParse(typed.revision);
  const number = asked.success ? asked.data : recipe.head;
  const revision = await findRevision(db, { recipeId: recipe.id, number });
  const tiles = revision
    ? await listTiles(db, { meltDigest: revision.meltDigest, reader: viewer })
    : [];
  const chosen = (path: string) => typedText(typed, path);
  const said = typeof typed.revision === "number" ? String(typed.revision) : chosen("revision");
  return {
    page: { title: `Add a test of ${recipe.name}`, here: "library" as const },
    view: () =>
      TestForm({
        recipe,
        articleClasses,
        tiles: tiles.filter(({ withdrawn }) => withdrawn === null),
        typed: (path) => (path === "revision" ? said : chosen(path)),
        faults,
        idempotencyKey: uuidv7(),
      }),
  };
}
