import { describe, expect, it } from "vitest";
import type { Oxide } from "../../src/chem/oxides.ts";
import { countedOxides, fluxMoles, missOf } from "../../src/chem/restating.ts";
import { type Restated, type RestateInput, restate } from "../../src/work/restate.ts";
import { type Restating, type Row, restatings, smallestSum } from "./shelves.ts";

const run = { seconds: 20, progress: () => {} };

const ask = ({ wanted, shelf }: Restating, more: Partial<RestateInput>): Promise<Restated> =>
  restate(
    { wanted, counted: countedOxides("lines", wanted), bounds: {}, shelf, others: 0, ...more },
    run,
  );

/**
 * How near an oxide can come where the rest is left alone: between what the powders with a flux have
 * of it by themselves, and without end where one without a flux brings it.
 */
function nearestTo(oxide: Oxide, { wanted, shelf }: Restating): number {
  const fluxed = shelf.filter(({ moles }) => fluxMoles(moles) > 0);
  const ratios = fluxed.map(({ moles }) => (moles[oxide] ?? 0) / fluxMoles(moles));
  const endless = shelf.some((each) => !fluxed.includes(each) && each.moles[oxide]);
  const want = wanted[oxide] ?? 0;
  return Math.max(Math.min(...ratios), Math.min(want, endless ? want : Math.max(...ratios)));
}

describe("an oxide that comes first", () => {
  it("is as near as the powders can bring it, whatever becomes of the others", async () => {
    let off = 0;
    for (const drawn of restatings(41, 15, "others only")) {
      for (const oxide of ["SiO2", "CaO", "Al2O3"] as const) {
        const wanted = { ...drawn.wanted, [oxide]: (drawn.wanted[oxide] ?? 0) * 1.2 };
        const restating = { ...drawn, wanted };
        const found = await ask(restating, { first: [oxide] });
        if (found.kind !== "mix") throw new Error(JSON.stringify(found));
        expect(found.unity[oxide] ?? 0).toBeCloseTo(nearestTo(oxide, restating), 5);
        const free = await ask(restating, {});
        if (free.kind !== "mix") throw new Error(JSON.stringify(free));
        expect(free.sum).toBeLessThanOrEqual(found.sum + 1e-6);
        off += missOf(wanted[oxide] ?? 0, free.unity[oxide] ?? 0) > 1e-3 ? 1 : 0;
      }
    }
    expect(off).toBeGreaterThan(5);
  });
});

describe("an oxide that is held", () => {
  it("keeps between its ends, as near as another solver finds the rest", async () => {
    let [kept, none] = [0, 0];
    for (const restating of restatings(53, 40, "others only")) {
      const { wanted, shelf } = restating;
      const held = Object.fromEntries(
        (["SiO2", "Al2O3"] as const).map((oxide) => {
          const want = wanted[oxide] ?? 0;
          return [oxide, { least: want * 0.99 - 0.01, most: want * 1.01 + 0.01 }];
        }),
      ) as Record<"SiO2" | "Al2O3", { least: number; most: number }>;
      const rows = (["SiO2", "Al2O3"] as const).flatMap((oxide): Row[] => {
        const past = (end: number, sign: 1 | -1) =>
          shelf.map(({ moles }) => sign * ((moles[oxide] ?? 0) - end * fluxMoles(moles)));
        return [past(held[oxide].most, 1), past(held[oxide].least, -1)];
      });
      const found = await ask(restating, { held });
      const sum = smallestSum(restating, "lines", rows);
      if (found.kind !== "mix") {
        expect(sum).toBeNull();
        expect(found).toMatchObject({ because: expect.stringMatching(/cannot be held at \d/) });
        none++;
        continue;
      }
      expect(Math.abs(found.sum - (sum ?? Number.NaN))).toBeLessThanOrEqual(
        1e-6 * Math.max(1, sum ?? 0),
      );
      for (const oxide of ["SiO2", "Al2O3"] as const) {
        expect(found.unity[oxide] ?? 0).toBeGreaterThanOrEqual(held[oxide].least - 1e-5);
        expect(found.unity[oxide] ?? 0).toBeLessThanOrEqual(held[oxide].most + 1e-5);
      }
      kept++;
    }
    expect(kept).toBeGreaterThan(5);
    expect(none).toBeGreaterThan(5);
  });
});
