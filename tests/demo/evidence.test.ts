import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { missingForFunctional } from "../../src/chem/evidence.ts";
import type { Database } from "../../src/db/client.ts";
import { findEvidence } from "../../src/db/evidence.ts";
import { listFits } from "../../src/db/fits.ts";
import { slugOf } from "../../src/db/names.ts";
import { findRecipe } from "../../src/db/recipes.ts";
import { findRevision } from "../../src/db/revisions.ts";
import { listTests } from "../../src/db/tests.ts";
import { listTiles } from "../../src/db/tiles.ts";
import { demoGlazes } from "../../src/demo/glazes.ts";
import { demoTests } from "../../src/demo/tests.ts";
import { openMadeDemo } from "./studio.ts";

const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;

describe("what the demo's kiln and tests tell", () => {
  let database: Database;
  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  const headOf = async (name: string) => {
    const recipe = await findRecipe(database.db, { slug: slugOf(name), reader });
    const head =
      recipe && (await findRevision(database.db, { recipeId: recipe.id, number: recipe.head }));
    if (!head) throw new Error(`there is no ${name}`);
    return head;
  };
  const gapsOf = async (name: string) => {
    const { meltDigest, use, cones, atmosphere, chemistry } = await headOf(name);
    const known = (await findEvidence(database.db, [meltDigest])).get(meltDigest);
    const leachElements = chemistry.findings.flatMap(({ level, elements }) =>
      level === "note" ? [] : (elements ?? []),
    );
    const stops = chemistry.findings.filter(({ level }) => level === "stop").length;
    const claim = { use, cones, atmosphere, stops, leachElements };
    return missingForFunctional(claim, known?.tiles ?? [], known?.tests ?? []);
  };

  it.each(["Slack Water", "Little Tern", "Common Tern"])(
    "leaves nothing lacking for %s but somebody to approve it",
    async (name) => {
      expect(await gapsOf(name)).toEqual([]);
    },
  );

  it("leaves others with something to do", async () => {
    for (const name of ["Mackerel Sky", "Wrack Line", "Black Tern"])
      expect((await gapsOf(name)).length, name).toBeGreaterThan(0);
  });

  it("has a decorative glaze that crazed on the porcelain", async () => {
    const { meltDigest, use } = await headOf("Neap Green");
    const tiles = await listTiles(database.db, { meltDigest, reader });
    expect(use).toBe("decorative");
    expect(
      tiles.filter(({ defects }) => defects.includes("crazing")).map(({ body }) => body?.name),
    ).toEqual(["Heron porcelain"]);
  });

  it("records one glaze as fitting on each body, to hold the others against", async () => {
    const { meltDigest } = await headOf("Little Tern");
    const fits = await listFits(database.db, { meltDigest, reader });
    expect(fits.map(({ body, reference }) => [body.name, reference?.recipe.name])).toEqual([
      ["Loft stoneware", "Slack Water"],
    ]);
  });

  it("marks every test as invented, and every tile's body is on record", async () => {
    let counted = 0;
    for (const { name, revisions } of demoGlazes) {
      const recipe = await findRecipe(database.db, { slug: slugOf(name), reader });
      const melts = new Set<string>();
      for (const number of revisions.keys()) {
        const found =
          recipe && (await findRevision(database.db, { recipeId: recipe.id, number: number + 1 }));
        if (found) melts.add(found.meltDigest);
      }
      for (const meltDigest of melts) {
        for (const { body } of await listTiles(database.db, { meltDigest, reader }))
          expect(body).not.toBeNull();
        for (const { method, kind, laboratory, tile } of await listTests(database.db, {
          meltDigest,
          reader,
        })) {
          counted += 1;
          expect(method).toContain("(demo, invented)");
          expect(laboratory).toBe(kind === "leach" ? "Demo laboratory, invented" : "");
          expect(tile).not.toBeNull();
        }
      }
    }
    expect(counted).toBe(demoTests.length);
  });
});
