import { describe, expect, it } from "vitest";
import { atomicWeight, isElement } from "../../src/chem/elements.ts";
import {
  alkalis,
  exactMolarMass,
  fluxes,
  isOxide,
  molarMass,
  oxideRole,
  oxides,
} from "../../src/chem/oxides.ts";
import weights from "../reference/atomic-weights.json" with { type: "json" };
import molarMasses from "../reference/oxide-molar-masses.json" with { type: "json" };

describe("atomic weights", () => {
  // T. Prohaska et al., "Standard atomic weights of the elements 2021", Pure Appl. Chem. 94 (2022).
  it.each(weights)("has $symbol as abridged in 2021", ({ symbol, value }) => {
    expect(isElement(symbol) && atomicWeight[symbol]).toBe(value);
  });

  it("tells cobalt from carbon monoxide", () => {
    expect(isElement("Co")).toBe(true);
    expect(isElement("CO")).toBe(false);
    expect(isElement("toString")).toBe(false);
  });
});

describe("oxides", () => {
  // Sums of the IUPAC 2021 abridged weights, computed apart.
  const held = molarMasses.filter(({ oxide }) => isOxide(oxide));
  it.each(held)("weighs $oxide as its elements do", ({ oxide, exact }) => {
    if (!isOxide(oxide)) throw new Error(oxide);
    expect(exactMolarMass(oxide).toString()).toBe(exact);
    expect(molarMass[oxide]).toBe(Number(exact));
  });

  it("leaves out only what leaves the kiln or is reported as another oxide", () => {
    const leftOut = molarMasses.map(({ oxide }) => oxide).filter((oxide) => !isOxide(oxide));
    const gases = ["SO3", "CO2", "H2O", "F"];
    const otherForms = ["FeO", "MnO2", "Mn3O4", "Cu2O", "Co3O4", "Fe3O4", "Pb3O4"];
    expect(leftOut.sort()).toEqual([...gases, ...otherForms].sort());
  });

  it("shows fluxes first, then alumina and boron, then silica, then the others", () => {
    expect(oxides.slice(0, 12)).toEqual([...fluxes, "Al2O3", "B2O3", "SiO2"]);
    expect(alkalis).toEqual(["Li2O", "Na2O", "K2O"]);
  });

  it("says of each what it does, in a sentence", () => {
    for (const oxide of oxides) expect(oxideRole[oxide]).toMatch(/^[A-Z].{15,100}\.$/);
  });
});
