import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { billsOf, missingFor } from "../../src/chem/buying.ts";
import { type BuyingAsked, buy } from "../../src/work/buying.ts";
import { mulberry32 } from "../chem/draws.ts";
import { bruteBuying } from "./brute-buying.ts";

const run = { seconds: 20, progress: () => {} };

/** No order that is best has more of one pack: three cover what is missing, two more its carriage. */
const most = 5;

/** Up to four powders of three suppliers; every third has no limit, and the budgets of others vary. */
function generated(seed: number): BuyingAsked {
  const random = mulberry32(seed);
  const pick = (many: number) => Math.floor(random() * many);
  const materials = 1 + pick(4);
  const wishes = 1 + pick(5);
  return {
    packs: Array.from({ length: Math.max(materials, 2 + pick(4)) }, (_, place) => ({
      supplier: pick(3),
      material: place < materials ? place : pick(materials),
      grams: String(500 * (1 + pick(3))),
      price: (2 + pick(60) / 8).toFixed(2),
    })),
    suppliers: Array.from({ length: 3 }, () => ({
      carriage: (pick(9) / 2).toFixed(2),
      freeFrom: pick(3) === 0 ? null : (4 + pick(20)).toFixed(2),
    })),
    there: Array.from({ length: materials }, () => String(100 * (pick(6) - 2))),
    wishes: Array.from({ length: wishes }, () =>
      Array.from({ length: materials }, () => String(100 * pick(4))),
    ),
    budget: seed % 3 === 0 ? null : (2 + pick(120) / 4).toFixed(2),
  };
}

/** What an order costs by the exact sums, in the smallest coin. */
const costOf = (asked: BuyingAsked, counts: readonly number[]): number =>
  billsOf(exact(asked), counts).total.times(100).toNumber();

const exact = ({ packs, suppliers, there, wishes }: BuyingAsked) => ({
  packs: packs.map((pack) => ({
    ...pack,
    grams: new Decimal(pack.grams),
    price: new Decimal(pack.price),
  })),
  suppliers: suppliers.map(({ carriage, freeFrom }) => ({
    carriage: new Decimal(carriage),
    freeFrom: freeFrom === null ? null : new Decimal(freeFrom),
  })),
  there: there.map((grams) => new Decimal(grams)),
  wishes: wishes.map((wish) => wish.map((grams) => new Decimal(grams))),
});

describe("the cheapest packs", () => {
  it("are what trying every order finds, on 105 problems, and are proven", async () => {
    let [partly, nothing, everything, free] = [0, 0, 0, 0];
    for (let seed = 0; seed < 105; seed += 1) {
      const asked = generated(seed);
      const [found, tried] = [await buy(asked, run), bruteBuying(asked, most)];
      const words = `problem ${seed}`;
      expect(found.met, words).toEqual(tried.met);
      expect(costOf(asked, found.counts), words).toBe(tried.cost);
      expect(new Decimal(found.forAll).times(100).toNumber(), words).toBe(tried.forAll);
      expect(found.proven, words).toBe(true);
      if (!found.met.includes(true)) nothing++;
      else if (found.met.includes(false)) partly++;
      else everything++;
      const { bills } = billsOf(exact(asked), found.counts);
      if (bills.some(({ carriage, supplier }) => carriage.isZero() && hasCarriage(asked, supplier)))
        free++;
    }
    expect(Math.min(partly, nothing, everything, free)).toBeGreaterThan(8);
  });

  // By pencil: 2 packs are 9.00 and 4.00 to send; a third one brings it to 13.50, sent free from 13.
  const nearlyFree: BuyingAsked = {
    packs: [{ supplier: 0, material: 0, grams: "1000", price: "4.50" }],
    suppliers: [{ carriage: "4.60", freeFrom: "13.00" }],
    there: ["500"],
    wishes: [["2500"]],
    budget: null,
  };

  it("go past what is missing where that is cheaper than the carriage", async () => {
    expect((await buy(nearlyFree, run)).counts).toEqual([3]);
    const dearer = { ...nearlyFree, suppliers: [{ carriage: "4.40", freeFrom: "13.00" }] };
    expect((await buy(dearer, run)).counts).toEqual([2]);
  });

  it("count what was taken beyond the record as nothing there", () => {
    const less = missingFor({ ...exact({ ...nearlyFree, there: ["-300"] }) }, [true]);
    expect(less.map(String)).toEqual(["2500"]);
  });

  it("meet an early wish before two later ones that cost less", async () => {
    const asked: BuyingAsked = {
      packs: [0, 1, 2].map((material) => ({
        ...{ supplier: 0, material, grams: "1000" },
        price: ["9", "4", "5"][material]!,
      })),
      suppliers: [{ carriage: "1", freeFrom: null }],
      there: ["0", "0", "0"],
      wishes: [
        ["900", "0", "0"],
        ["0", "700", "0"],
        ["0", "0", "600"],
      ],
      budget: "10",
    };
    expect(await buy(asked, run)).toEqual({
      ...{ counts: [1, 0, 0], met: [true, false, false], forAll: "19", proven: true },
    });
    // Where the first is out of reach, those after it are not held back by it.
    expect((await buy({ ...asked, budget: "9.99" }, run)).met).toEqual([false, true, false]);
  });

  // By pencil: 400 g alone are a small pack of 2.00, with 900 g more a big one of 3.00 and no small one.
  it("are chosen anew for each wish that can be met beside those before it", async () => {
    const asked: BuyingAsked = {
      packs: [
        { supplier: 0, material: 0, grams: "500", price: "2" },
        { supplier: 0, material: 0, grams: "1500", price: "3" },
      ],
      suppliers: [{ carriage: "0", freeFrom: null }],
      there: ["0"],
      wishes: [["400"], ["900"], ["5000"]],
      budget: "4",
    };
    expect(await buy(asked, run)).toMatchObject({ counts: [0, 1], met: [true, true, false] });
  });
});

const hasCarriage = ({ suppliers }: BuyingAsked, supplier: number): boolean =>
  Number(suppliers[supplier]!.carriage) > 0;
