import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { listPacks } from "../../src/db/packs.ts";
import { listOpenPlans } from "../../src/db/plans.ts";
import { listTerms } from "../../src/db/supplier-terms.ts";
import { openMadeDemo } from "./studio.ts";

const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;

describe("what the demo's studio means to mix and to buy", () => {
  let database: Database;
  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  it("is two plans, and prices and terms of three suppliers", async () => {
    const plans = await listOpenPlans(database.db, reader);
    expect(plans.map(({ recipe }) => recipe.name)).toEqual(["Slack Water", "Ebb Green"]);
    const packs = await listPacks(database.db);
    const sellers = [...new Set(packs.map(({ supplier }) => supplier.id))];
    expect(sellers).toHaveLength(3);
    expect([...(await listTerms(database.db)).keys()].sort()).toEqual(sellers.sort());
    const dearer = packs.find(
      ({ material, packGrams }) => material.slug === "loft-frit-b" && packGrams.eq(10_000),
    );
    expect([dearer?.packPrice.toFixed(), dearer?.from]).toEqual(["51.5", "list"]);
  });
});
