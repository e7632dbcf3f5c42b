import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { holdWithin, movedTarget, stepOf } from "../../src/chem/moved-target.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import { fluxMoles, type Moles } from "../../src/chem/restating.ts";

const present: Moles = { K2O: 0.2, Na2O: 0.1, CaO: 0.7, Al2O3: 0.4, SiO2: 3.5 };
const moved = (moves: [Oxide, number][], held: Oxide[] = []) =>
  movedTarget(
    present,
    moves.map(([oxide, to]) => ({ oxide, to })),
    held,
  );
const wanted = (...asked: Parameters<typeof moved>) => {
  const target = moved(...asked);
  if (target.kind !== "target") throw new Error(target.says);
  return target.wanted;
};

describe("what is wanted after a move", () => {
  it("is the present formula with that oxide moved, where it is no flux", () => {
    expect(wanted([["SiO2", 3.7]])).toEqual({ ...present, SiO2: 3.7 });
    expect(wanted([["B2O3", 0.2]])).toEqual({ ...present, B2O3: 0.2 });
  });

  it("scales the fluxes that are not held", () => {
    const free = wanted([["CaO", 0.8]]);
    expect(free.K2O).toBeCloseTo(0.2 * (0.2 / 0.3), 12);
    expect(free.Na2O).toBeCloseTo(0.1 * (0.2 / 0.3), 12);
    const held = wanted([["CaO", 0.75]], ["K2O"]);
    expect(held).toMatchObject({ K2O: 0.2, CaO: 0.75 });
    expect(held.Na2O).toBeCloseTo(0.05, 12);
    expect(wanted([["MgO", 1]])).toMatchObject({ MgO: 1, CaO: 0, K2O: 0, Na2O: 0 });
  });

  it("takes moves one after the other, so that a flux moved before gives way unless it is held", () => {
    const later = wanted([
      ["CaO", 0.8],
      ["MgO", 0.1],
    ]);
    expect(later.CaO).toBeCloseTo(0.72, 12);
    const kept = wanted(
      [
        ["CaO", 0.8],
        ["MgO", 0.1],
      ],
      ["CaO"],
    );
    expect(kept.CaO).toBe(0.8);
  });

  it("keeps the fluxes at 1, whatever is moved and held", () => {
    const oxide = fc.constantFrom<Oxide>("K2O", "Na2O", "CaO", "MgO", "SiO2", "Al2O3");
    const move = fc.tuple(oxide, fc.double({ min: 0, max: 1, noNaN: true }));
    let reached = 0;
    fc.assert(
      fc.property(fc.array(move, { maxLength: 6 }), fc.subarray(["K2O", "CaO"]), (moves, held) => {
        const target = moved(moves, held as Oxide[]);
        if (target.kind === "refused") return;
        reached += 1;
        expect(fluxMoles(target.wanted)).toBeCloseTo(1, 8);
      }),
    );
    expect(reached).toBeGreaterThan(10);
  });

  it.each<[string, [Oxide, number][], Oxide[], RegExp]>([
    ["all others are held", [["CaO", 0.75]], ["K2O", "Na2O"], /all others \(Na2O, K2O\) are held/],
    ["more than there is room for", [["CaO", 0.95]], ["K2O"], /so CaO can be 0\.8 at the most/],
    ["more than all", [["CaO", 1.2]], [], /CaO can be 1 at the most/],
  ])("is refused where %s", (_, moves, held, says) => {
    expect(moved(moves, held)).toMatchObject({ kind: "refused", at: 0 });
    expect(moved(moves, held)).toMatchObject({ says: expect.stringMatching(says) });
  });

  it("leaves the only flux where it is", () => {
    const target = movedTarget({ CaO: 1, SiO2: 2 }, [{ oxide: "CaO", to: 0.9 }], []);
    expect(target).toMatchObject({ says: expect.stringMatching(/the only one/) });
  });
});

describe("steps and holds", () => {
  it("are as they are told", () => {
    expect(["CaO", "B2O3", "SiO2", "TiO2"].map((oxide) => stepOf(oxide as Oxide))).toEqual([
      0.05, 0.05, 0.2, 0.01,
    ]);
    expect([holdWithin(3), holdWithin(0.3), holdWithin(0)]).toEqual([0.03, 0.005, 0.005]);
  });
});
