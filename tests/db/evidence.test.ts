import { Decimal } from "decimal.js";
import { eq, sql } from "drizzle-orm";
import fc from "fast-check";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Cone, cones } from "../../src/chem/cones.ts";
import { missingForFunctional } from "../../src/chem/evidence.ts";
import { findEvidence } from "../../src/db/evidence.ts";
import {
  bodies,
  bodySheets,
  firings,
  kilns,
  reviews,
  revisions,
  testResults,
  tests,
  testWithdrawals,
  tiles,
  tileWithdrawals,
  witnessCones,
} from "../../src/db/schema/index.ts";
import { findTargets } from "../../src/db/standing-targets.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const at = new Date("2026-10-01T09:00:00Z");

/** One tile as chance has it, and the tests made on it. */
const chance = fc.record({
  cone: fc.constantFrom<Cone>("5", "6", "6", "7"),
  atmosphere: fc.constantFrom("oxidation" as const, "oxidation" as const, "reduction" as const),
  defects: fc.constantFrom([], [], [], ["pinholing" as const], ["crazing" as const]),
  body: fc.constantFrom("dense", "dense", "dense", "porous", "unmeasured", "cool", null),
  bend: fc.constantFrom(90, 90, 60, 59, 120, 121, null),
  layered: fc.constantFrom(false, false, false, true),
  withdrawn: fc.constantFrom(false, false, false, true),
  tests: fc.array(
    fc.record({
      kind: fc.constantFrom(
        "acid" as const,
        "alkali" as const,
        "dishwasher" as const,
        "leach" as const,
      ),
      outcome: fc.constantFrom(
        "passed" as const,
        "passed" as const,
        "passed" as const,
        "failed" as const,
        "unclear" as const,
      ),
      withdrawn: fc.constantFrom(false, false, true),
    }),
    { maxLength: 5 },
  ),
});

describe("what functional ware lacks", () => {
  let studio: TestStudio;
  const bodyIds = new Map<string, string>();
  let kilnId: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    await layDown();
  });
  afterAll(() => studio.close());

  it("is the same in the database's words as in ours, and the database refuses accordingly", async () => {
    const seen = { complete: 0, lacking: 0 };
    let amount = 10;
    await fc.assert(
      fc.asyncProperty(fc.array(chance, { maxLength: 5 }), fc.boolean(), async (fired, barium) => {
        amount += 1;
        const id = await publishFunctional(amount, barium);
        for (const tile of fired) await fire(id, tile);
        if (amount % 2 === 0) await complete(id);

        const [target] = await findTargets(studio.db, [id]);
        if (!target) throw new Error("it was published");
        const found = (await findEvidence(studio.db, [target.meltDigest])).get(target.meltDigest);
        const ours = missingForFunctional(target, found?.tiles ?? [], found?.tests ?? []);
        const [row] = (await rows(sql`select missing_for_functional(${id}) as missing`)) as {
          missing: string[];
        }[];
        expect([...(row?.missing ?? [])].sort()).toEqual(ours.map(({ code }) => code).sort());

        const refusal = await approve(target);
        if (ours.length === 0) expect(refusal).toBe("");
        else expect(refusal).toMatch(/functional needs evidence/);
        seen[ours.length === 0 ? "complete" : "lacking"] += 1;
      }),
      { numRuns: 60, seed: 20261001, endOnFailure: true },
    );
    expect(seen.complete).toBeGreaterThan(5);
    expect(seen.lacking).toBeGreaterThan(20);
  });

  it("knows the cones in the order that the chemistry knows them in", async () => {
    for (const [place, cone] of cones.entries()) {
      const [row] = (await rows(sql`select cone_place(${cone}) as place`)) as { place: number }[];
      expect(row?.place).toBe(place);
    }
  });

  async function rows(query: ReturnType<typeof sql>): Promise<unknown[]> {
    const answer = await studio.db.execute(query);
    return Array.isArray(answer) ? answer : (answer as { rows: unknown[] }).rows;
  }

  async function layDown() {
    const by = studio.ids.manager;
    kilnId = uuidv7();
    await studio.db.insert(kilns).values({
      id: kilnId,
      slug: "gannet",
      name: "Gannet",
      nameKey: "gannet",
      about: "",
      addedBy: by,
      addedAt: at,
    });
    const known: [string, string | null, Cone, Cone][] = [
      ["dense", "1.8", "5", "7"],
      ["porous", "3", "5", "7"],
      ["unmeasured", null, "5", "7"],
      ["cool", "1", "04", "4"],
    ];
    for (const [name, absorption, low, high] of known) {
      const id = uuidv7();
      bodyIds.set(name, id);
      await studio.db
        .insert(bodies)
        .values({ id, slug: name, name, nameKey: name, addedBy: by, addedAt: at });
      // An older sheet says otherwise; the newest counts.
      for (const percent of ["2.5", absorption]) {
        await studio.db.insert(bodySheets).values({
          id: uuidv7(),
          bodyId: id,
          coneLow: low,
          coneHigh: high,
          coneLowPlace: cones.indexOf(low),
          coneHighPlace: cones.indexOf(high),
          absorptionPercent: percent === null ? null : new Decimal(percent),
          absorptionSource: "a test",
          expansionSource: "",
          colour: "",
          about: "",
          by,
          at,
        });
      }
    }
  }

  async function publishFunctional(amount: number, barium: boolean): Promise<string> {
    const lines: Parameters<typeof publish>[1] = {
      different: { use: "functional", cones: { low: "5", high: "6" } },
      lines: [
        ["potash-feldspar", String(amount)],
        ["whiting", "20"],
        ["quartz", "25"],
        ["kaolin", "15"],
        ...(barium ? [["barium-carbonate", "8"] as [string, string]] : []),
      ],
    };
    const slug = await publish(studio, lines);
    const { head } = await studio.json<{ head: { digest: string } }>("author", `/recipes/${slug}`);
    const [made] = await studio.db
      .select({ id: revisions.id })
      .from(revisions)
      .where(eq(revisions.digest, head.digest));
    return made?.id ?? "";
  }

  async function fire(revisionId: string, tile: Fired) {
    const by = studio.ids.author;
    const tileId = uuidv7();
    let firingId: string | null = null;
    if (tile.bend !== null) {
      firingId = uuidv7();
      const { atmosphere: kind, cone } = tile;
      await studio.db.insert(firings).values({
        id: firingId,
        kilnId,
        kind,
        cone,
        startedAt: at,
        programme: [],
        remark: "",
        by,
        at,
      });
      await studio.db
        .insert(witnessCones)
        .values({ firingId, position: 0, cone, bendDegrees: tile.bend, place: "" });
    }
    await studio.db.insert(tiles).values({
      id: tileId,
      revisionId,
      cone: tile.cone,
      atmosphere: tile.atmosphere,
      clay: "",
      remark: "",
      bodyId: tile.body && (bodyIds.get(tile.body) ?? null),
      firingId,
      defects: [...tile.defects],
      overId: tile.layered ? revisionId : null,
      by,
      at,
    });
    for (const test of tile.tests) {
      const id = uuidv7();
      const laboratory = test.kind === "leach" ? "Demo laboratory" : "";
      await studio.db.insert(tests).values({
        id,
        revisionId,
        tileId,
        kind: test.kind,
        method: "a test",
        laboratory,
        articleClass: "",
        report: "",
        outcome: test.outcome,
        remark: "",
        by,
        at,
      });
      if (test.kind === "leach") {
        const value = new Decimal("0.1");
        const result = {
          element: "Ba",
          qualifier: "<",
          value,
          unit: "mg/l",
          specimen: "",
        } as const;
        await studio.db.insert(testResults).values({ testId: id, position: 0, ...result });
      }
      const why = "made on the wrong tile";
      if (test.withdrawn)
        await studio.db.insert(testWithdrawals).values({ testId: id, why, by, at });
    }
    const why = "mislabelled";
    if (tile.withdrawn) await studio.db.insert(tileWithdrawals).values({ tileId, why, by, at });
  }

  /** What is still needed beside whatever chance brought. */
  async function complete(revisionId: string) {
    const sound = {
      atmosphere: "oxidation",
      defects: [],
      body: "dense",
      bend: 90,
      layered: false,
      withdrawn: false,
    } as const;
    const passed = (["acid", "alkali", "dishwasher", "leach"] as const).map((kind) => ({
      kind,
      outcome: "passed" as const,
      withdrawn: false,
    }));
    await fire(revisionId, { ...sound, defects: [], cone: "5", tests: [] });
    await fire(revisionId, { ...sound, defects: [], cone: "6", tests: passed });
  }

  async function approve(target: {
    id: string;
    recipeId: string;
    digest: string;
  }): Promise<string> {
    return studio.db
      .insert(reviews)
      .values({
        id: uuidv7(),
        recipeId: target.recipeId,
        revisionId: target.id,
        digest: target.digest,
        verdict: "approve",
        for: "functional",
        reasons: "looked at all of it",
        lookedAt: { engine: "", findings: [], tiles: [], tests: [] },
        by: studio.ids.reviewer,
        at,
      })
      .then(
        () => "",
        (error) => String(error.cause ?? error),
      );
  }
});

type Fired = typeof chance extends fc.Arbitrary<infer T> ? T : never;
