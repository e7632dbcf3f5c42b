import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type ConeEstimation, coneEstimateOfLog } from "../../src/chem/cone-estimate.ts";
import { witnessReads } from "../../src/chem/witness.ts";
import { contradictionsOf } from "../../src/chem/witness-agreement.ts";
import { findBody, listBodies } from "../../src/db/bodies.ts";
import type { Database } from "../../src/db/client.ts";
import { findFiringCost } from "../../src/db/firing-costs.ts";
import { findFiringLog } from "../../src/db/firing-logs.ts";
import { listFirings } from "../../src/db/firings.ts";
import { findKiln } from "../../src/db/kilns.ts";
import { demoReadings } from "../../src/demo/firing-readings.ts";
import { demoFirings, firingKey } from "../../src/demo/kiln.ts";
import { openMadeDemo } from "./studio.ts";

describe("the demo's kiln room", () => {
  let database: Database;
  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  it("has two bodies, each with a source for what is said of it", async () => {
    const bodies = await listBodies(database.db);
    const said = bodies.map(({ name, sheet: { cones, absorption, expansion } }) => [
      name,
      cones,
      absorption?.percent.toFixed(),
      expansion?.fromCelsius,
    ]);
    expect(said).toEqual([
      ["Heron porcelain", { low: "5", high: "7" }, "0.4", undefined],
      ["Loft stoneware", { low: "5", high: "7" }, "1.8", 20],
    ]);
    for (const { sheet } of bodies) expect(sheet.absorption?.source).toBe("demo sheet, invented");
    const loft = await findBody(database.db, { slug: "loft-stoneware" });
    expect(loft?.earlier.map(({ absorption }) => absorption)).toEqual([null]);
  });

  it("has six firings in two kilns, told apart by kiln and day", async () => {
    const { items } = await listFirings(database.db);
    const keys = items.map(({ kiln, startedAt }) =>
      firingKey(kiln.name === "Wren" ? "Wren" : "Gannet", startedAt.toISOString().slice(0, 10)),
    );
    expect(new Set(keys).size).toBe(6);
    expect(items.filter(({ kind }) => kind === "bisque").map(({ cone }) => cone)).toEqual(["04"]);
    const wren = await findKiln(database.db, { slug: "wren" });
    const { items: inWren } = await listFirings(database.db, { kilnId: wren?.id });
    expect(inWren.map(({ cone }) => cone)).toEqual(["5", "5"]);
  });

  it("has a witness cone that came down at the cone of each firing", () => {
    for (const { cone, witness, startedAt } of demoFirings) {
      const down = witness.filter(({ bendDegrees }) => witnessReads(bendDegrees) === "reached");
      expect(
        down.map((stood) => stood.cone),
        startedAt,
      ).toContain(cone);
    }
  });

  it("has readings and kWh of every firing", async () => {
    const { items } = await listFirings(database.db);
    for (const { id } of items) {
      const log = await findFiringLog(database.db, { firingId: id });
      expect(log?.kept).toBeGreaterThan(300);
      const cost = await findFiringCost(database.db, { firingId: id });
      expect([cost?.energy, cost?.unit, cost?.currency]).toEqual(["electricity", "kWh", "GBP"]);
    }
  });

  it("has readings that come to the cone fired for, one of them held, one that its cones contradict", () => {
    const told = (estimation: ConeEstimation) => {
      if (estimation.kind !== "estimate") throw new Error(estimation.says);
      return estimation;
    };
    const all = demoFirings.map((firing) => ({
      firing,
      ...told(coneEstimateOfLog(demoReadings(firing))),
    }));
    for (const { firing, estimate, told: said } of all)
      if (!said.held) expect(estimate.cone, firing.startedAt).toBe(firing.cone);
    expect(all.filter(({ told: said }) => said.held).map(({ firing }) => firing.startedAt)).toEqual(
      ["2026-06-06T08:20:00Z"],
    );
    const against = all.map(({ firing, estimate }) => contradictionsOf(firing.witness, estimate));
    expect(against.flat()).toEqual([{ cone: "7", place: "top shelf, back corner", reads: "past" }]);
  });
});
