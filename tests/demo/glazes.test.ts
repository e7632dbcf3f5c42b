import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { baseIs100, baseTotal } from "../../src/chem/lines.ts";
import type { Database } from "../../src/db/client.ts";
import { findMaterial } from "../../src/db/materials.ts";
import { slugOf } from "../../src/db/names.ts";
import { findRecipe } from "../../src/db/recipes.ts";
import { type FoundRevision, findRevision } from "../../src/db/revisions.ts";
import { demoGlazes } from "../../src/demo/glazes.ts";
import { ternFamily, ternShelf } from "../../src/demo/glazes-terns.ts";
import { openMadeDemo } from "./studio.ts";

describe("the demo's glazes", () => {
  let database: Database;
  const revisions: (FoundRevision & { glaze: string; isHead: boolean })[] = [];
  const heads = () => revisions.filter(({ isHead }) => isHead);
  const head = (glaze: string) => {
    const found = heads().find((revision) => revision.glaze === glaze);
    if (!found) throw new Error(`${glaze} is not there`);
    return found;
  };

  beforeAll(async () => {
    database = await openMadeDemo();
    const { db } = database;
    const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;
    for (const { name } of demoGlazes) {
      const recipe = await findRecipe(db, { slug: slugOf(name), reader });
      for (let number = 1; recipe && number <= recipe.head; number += 1) {
        const found = await findRevision(db, { recipeId: recipe.id, number });
        if (found) revisions.push({ ...found, glaze: name, isHead: number === recipe.head });
      }
    }
  });
  afterAll(() => database.close());

  // Common practice, no source: what mid-range glazes that melt and stay on the pot have in common.
  it("keeps those meant for use within the usual unity of cone 6", () => {
    const functional = heads().filter(({ use }) => use === "functional");
    expect(functional.length).toBeGreaterThanOrEqual(8);
    for (const { glaze, chemistry } of functional) {
      const { SiO2, Al2O3, B2O3 } = chemistry.unity ?? {};
      const figures = [SiO2, Al2O3, B2O3, chemistry.ratios.alkaliShare].map((each) => each?.value);
      const [silica = 0, alumina = 0, boron = 0, alkali = 0] = figures;
      expect(silica, `${glaze} SiO2`).toBeGreaterThanOrEqual(2.5);
      expect(silica, `${glaze} SiO2`).toBeLessThanOrEqual(4);
      expect(alumina, `${glaze} Al2O3`).toBeGreaterThanOrEqual(0.25);
      expect(alumina, `${glaze} Al2O3`).toBeLessThanOrEqual(0.45);
      expect(boron, `${glaze} B2O3`).toBeGreaterThanOrEqual(0.1);
      expect(boron, `${glaze} B2O3`).toBeLessThanOrEqual(0.35);
      expect(alkali, `${glaze} alkali share`).toBeGreaterThanOrEqual(0.15);
      expect(alkali, `${glaze} alkali share`).toBeLessThanOrEqual(0.35);
    }
  });

  it("has a barium matt, a lichen and a metallic glaze, all decorative only", () => {
    const barium = head("Haar").chemistry.unity?.BaO?.value ?? 0;
    const magnesia = head("Groyne Lichen").chemistry.unity?.MgO?.value ?? 0;
    const { MnO, CuO } = head("Starling").chemistry.weightPercent;
    expect(barium).toBeGreaterThan(0.3);
    expect(magnesia).toBeGreaterThan(0.5);
    expect((MnO?.value ?? 0) + (CuO?.value ?? 0)).toBeGreaterThan(10);
    for (const glaze of ["Haar", "Groyne Lichen", "Starling"]) {
      expect(revisions.filter((each) => each.glaze === glaze && each.use !== "decorative")).toEqual(
        [],
      );
    }
  });

  it("has no finding that stops one, since what would is marked decorative", () => {
    const stopped = revisions.filter(({ chemistry: { findings } }) =>
      findings.some(({ level }) => level === "stop"),
    );
    expect(stopped.map(({ glaze }) => glaze)).toEqual([]);
    const asked = heads()
      .filter(({ use }) => use === "functional")
      .filter(({ chemistry: { findings } }) =>
        findings.some(({ rule }) => rule === "leach-report"),
      );
    expect(asked.map(({ glaze }) => glaze)).toEqual([]);
  });

  it("totals 100 in every base but one, which is in fifties", () => {
    const others = revisions.filter(({ lines }) => !baseIs100(lines));
    expect(others.map(({ glaze, lines }) => [glaze, baseTotal(lines).toString()])).toEqual([
      ["Groyne Lichen", "50"],
    ]);
    const [coral] = head("Groyne Lichen").lines.filter(({ part }) => part === "addition");
    expect(coral?.analysis).toBeNull();
  });

  it("makes a family of four from one shelf of six", () => {
    expect(ternFamily).toHaveLength(4);
    for (const { name } of ternFamily) {
      const base = head(name).lines.filter(({ part }) => part === "base");
      expect(base.map(({ material }) => material.name).sort()).toEqual([...ternShelf].sort());
    }
  });

  it("breaks at least two recipes by the mineral that is no longer sold", async () => {
    const colemanite = await findMaterial(database.db, "colemanite");
    expect(colemanite?.stillSold).toBe(false);
    const broken = heads().filter(({ lines }) =>
      lines.some(({ material }) => material.slug === "colemanite"),
    );
    expect(broken.map(({ glaze }) => glaze).sort()).toEqual(["Curlew", "Sluice Amber"]);
  });
});
