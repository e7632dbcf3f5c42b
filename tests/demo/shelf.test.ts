import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { faultsOfAnalysis } from "../../src/chem/analysis.ts";
import { listAnalyses } from "../../src/db/analyses.ts";
import type { Database } from "../../src/db/client.ts";
import { listNames } from "../../src/db/material-names.ts";
import { findMaterial } from "../../src/db/materials.ts";
import { slugOf } from "../../src/db/names.ts";
import { givenAnalysis } from "../../src/demo/making-shelf.ts";
import { namesElsewhere } from "../../src/demo/names-elsewhere.ts";
import { demoShelf } from "../../src/demo/shelf.ts";
import { hazards } from "../../views/parts/hazard-words.ts";
import { openMadeDemo } from "./studio.ts";

describe("the demo's shelf", () => {
  let database: Database;
  const find = async (name: string) => {
    const material = await findMaterial(database.db, slugOf(name));
    if (!material) throw new Error(`${name} is not on the shelf`);
    return material;
  };

  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  it("has these materials and no others", () => {
    // A list to hold every name against: generic words of the trade, and two of the demo's own.
    expect(demoShelf.map(({ name }) => name)).toEqual([
      "Potash feldspar",
      "Soda feldspar",
      "Nepheline syenite",
      "Quartz",
      "Whiting",
      "Dolomite",
      "Wollastonite",
      "Talc",
      "Kaolin",
      "Ball clay",
      "Zinc oxide",
      "Magnesium carbonate",
      "Barium carbonate",
      "Loft frit B",
      "Colemanite",
      "Red iron oxide",
      "Cobalt carbonate",
      "Copper carbonate",
      "Rutile",
      "Titanium dioxide",
      "Tin oxide",
      "Zirconium silicate",
      "Manganese dioxide",
      "Nickel oxide",
      "Loft stain coral",
    ]);
  });

  it("warns of nothing that the cautions have no words for, and of each element that has", () => {
    for (const { name, hazards: said } of demoShelf) {
      for (const hazard of said) expect(hazards, name).toContain(hazard);
    }
    const warned = (hazard: string) =>
      demoShelf.filter((each) => each.hazards.includes(hazard)).map(({ name }) => name);
    expect(warned("barium")).toEqual(["Barium carbonate"]);
    expect(warned("manganese")).toEqual(["Manganese dioxide"]);
    expect(warned("cobalt")).toEqual(["Cobalt carbonate"]);
    expect(warned("copper")).toEqual(["Copper carbonate"]);
    expect(warned("nickel")).toEqual(["Nickel oxide"]);
    expect(warned("talc")).toEqual(["Talc"]);
  });

  it("has analyses that add up, worked out or labelled as the demo's", async () => {
    for (const { name, analysis, later } of demoShelf) {
      for (const each of [analysis, later?.analysis]) {
        if (!each) continue;
        const given = givenAnalysis(each);
        expect(faultsOfAnalysis(given.analysis), name).toEqual([]);
        const listed = Object.values(given.analysis.oxides).reduce(
          (sum, figure) => sum + figure.percent.toNumber(),
          given.analysis.lossOnIgnition?.percent.toNumber() ?? 0,
        );
        expect(listed, name).toBeGreaterThan(98);
        expect(listed, name).toBeLessThan(100.5);
        if (given.formula === null) expect(given.measuredOn, name).toMatch(/^202[56]-/);
        expect(given.source).toMatch(/^(demo analysis|Worked out from its formula)$/);
      }
    }
    expect((await find("Loft stain coral")).inUse).toBeNull();
  });

  it("lets a newer analysis of two powders wait", async () => {
    for (const name of ["Potash feldspar", "Whiting"]) {
      const material = await find(name);
      const [newest, first] = await listAnalyses(database.db, material.id);
      expect(material.inUse?.id, name).toBe(first?.id);
      expect(newest?.id, name).not.toBe(first?.id);
    }
  });

  it("says what a powder is called elsewhere and what to beware of", async () => {
    const quartz = await find("Quartz");
    const names = (await listNames(database.db, [quartz.id])).get(quartz.id) ?? [];
    expect(names.map(({ name, region }) => `${name}, ${region}`)).toEqual([
      "Flint, United Kingdom",
      "Silica, United States",
    ]);
    expect(names.find(({ name }) => name === "Silica")?.caution).toContain("coarse");
    const shelved = new Set(demoShelf.map(({ name }) => name));
    for (const { material } of namesElsewhere) expect(shelved).toContain(material);
  });
});
