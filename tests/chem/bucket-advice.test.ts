import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Band } from "../../src/chem/bands.ts";
import { bucketAdvice } from "../../src/chem/bucket-advice.ts";
import { slurryOf } from "../../src/chem/slurry.ts";

const band = (low: Decimal.Value, high: Decimal.Value): Band => ({
  low: new Decimal(low),
  high: new Decimal(high),
});

type Given = {
  gravity?: Decimal.Value;
  litres?: Decimal.Value;
  flow?: Decimal.Value;
  coat?: Decimal.Value;
  stirred?: boolean;
  target?: Band | null;
  dissolves?: boolean;
  changedSince?: boolean;
  dry?: Decimal.Value;
};

const orNone = (value: Decimal.Value | undefined) =>
  value === undefined ? null : new Decimal(value);

const advise = ({ gravity = 1.45, litres = 10, ...given }: Given = {}) =>
  bucketAdvice({
    measured: {
      specificGravity: new Decimal(gravity),
      litres: new Decimal(litres),
      flowSeconds: orNone(given.flow),
      coatMm: orNone(given.coat),
      stirred: given.stirred ?? true,
    },
    target: {
      gravity: given.target === undefined ? band("1.43", "1.47") : given.target,
      flow: band(30, 40),
      coat: band("0.8", "1.2"),
    },
    dryGravity: new Decimal(given.dry ?? "2.65"),
    dissolves: given.dissolves ?? false,
    changedSince: given.changedSince ?? false,
  });

// What to do of which reading is common practice, no source; the sums are by hand.
describe("what to do with a bucket", () => {
  it.each<[string, Given, string, RegExp]>([
    ["not stirred", { gravity: 1.6, stirred: false }, "stir first", /says nothing/],
    ["measured before water went in", { gravity: 1.6, changedSince: true }, "measure again", /aft/],
    ["nothing but water", { gravity: 1 }, "measure again", /water or less/],
    ["heavier than its powder", { gravity: 2.7 }, "measure again", /2\.65/],
    ["without a target", { target: null }, "no target", /which gravity/],
    ["over its gravity", { gravity: 1.6, flow: 20 }, "add water", /Add 3333 g of water for 1\.45/],
    ["under its gravity", { gravity: 1.4, flow: 90 }, "powder missing", /Stir it from the bottom/],
    ["in gravity, too slow", { flow: 41 }, "do not add water", /deflocculant/],
    ["in gravity, too quick", { flow: 29.5 }, "do not add water", /Stir in a flocculant/],
    ["right with too thick a coat", { flow: 35, coat: 1.3 }, "do not add water", /shorter/],
    ["right with too thin a coat", { flow: 35, coat: 0.7 }, "do not add water", /longer/],
    ["right of an unknown flow", {}, "right", /Measure the flow too/],
    ["right at the lower end", { gravity: 1.43, flow: 30, coat: 0.8 }, "right", /Leave it/],
    ["right at the upper end", { gravity: 1.47, flow: 40, coat: 1.2 }, "right", /Leave it/],
  ])("is told of one that is %s", (_, given, kind, says) => {
    const advice = advise(given);
    expect(advice.kind).toBe(kind);
    expect(advice.says.join(" ")).toMatch(says);
    expect(advice.addWaterGrams !== undefined).toBe(kind === "add water");
  });

  // 1000 × 10 × 0.15/0.45, × 0.13/0.47 and × 0.17/0.43.
  it("gives the water to the middle of the band, and what keeps it within", () => {
    const { addWaterGrams } = advise({ gravity: 1.6 });
    expect(addWaterGrams?.middle).toBeCloseTo(3333.33, 2);
    expect(addWaterGrams?.least).toBeCloseTo(2765.96, 2);
    expect(addWaterGrams?.most).toBeCloseTo(3953.49, 2);
  });

  // 1000 × 10 × 0.05/0.45 of water off, or 500 × 2.65/1.2 of powder.
  it("takes water off or tops up where powder is missing", () => {
    const advice = advise({ gravity: 1.4 });
    expect(advice.waterOffGrams).toBeCloseTo(1111.11, 2);
    expect(advice.topUpGrams).toBeCloseTo(1104.17, 2);
    expect(advice.cautions.join(" ")).toContain("never poured down the drain");
  });

  it("never takes water off what dissolves", () => {
    const advice = advise({ gravity: 1.4, dissolves: true });
    expect(advice).not.toHaveProperty("waterOffGrams");
    expect(advice.says.join(" ")).not.toContain("clear water");
    expect(advice.cautions.join(" ")).toContain("Never pour water off");
    expect(advice.topUpGrams).toBeCloseTo(1104.17, 2);
  });

  it("cautions where drops can burn", () =>
    expect(advise({ flow: 60 }).cautions.join(" ")).toContain("gloves and goggles"));

  const thousandths = (min: number, max: number) =>
    fc.integer({ min, max }).map((n) => new Decimal(n).div(1000));
  const buckets = fc.record({
    gravity: thousandths(1005, 2200),
    low: thousandths(1010, 2000),
    width: thousandths(0, 200),
    litres: thousandths(1, 90_000),
    dry: thousandths(2300, 5000),
  });

  it("brings the bucket to the middle of its band, by water or by powder, and never otherwise", () => {
    fc.assert(
      fc.property(buckets, ({ gravity, low, width, litres, dry }) => {
        const target = band(low, low.plus(width));
        const middle = low.plus(width.div(2)).toNumber();
        const { addWaterGrams, waterOffGrams, topUpGrams } = advise({
          ...{ gravity, litres, dry, target },
        });
        const weight = gravity.times(litres).times(1000).toNumber();
        const gravityWith = (water: number, powder = 0) =>
          (weight + water + powder) / (1000 * litres.toNumber() + water + powder / dry.toNumber());
        if (addWaterGrams) {
          expect(gravityWith(addWaterGrams.middle)).toBeCloseTo(middle, 9);
          expect(gravityWith(addWaterGrams.least)).toBeCloseTo(target.high.toNumber(), 9);
          expect(gravityWith(addWaterGrams.most)).toBeCloseTo(low.toNumber(), 9);
          expect(addWaterGrams.least).toBeGreaterThan(0);
        }
        if (waterOffGrams !== undefined) expect(gravityWith(-waterOffGrams)).toBeCloseTo(middle, 9);
        if (topUpGrams !== undefined) expect(gravityWith(0, topUpGrams)).toBeCloseTo(middle, 9);
        expect(addWaterGrams !== undefined).toBe(gravity.gt(target.high));
        expect(waterOffGrams !== undefined).toBe(gravity.lt(low));
      }),
    );
  });
});

// A. Brongniart, "Traité des arts céramiques", 1844: the balance of masses and volumes in his relation.
describe("a bucket of a known dry weight and volume", () => {
  it("gives back its dry weight by its gravity", () => {
    const mixes = fc.record({
      dryGrams: fc.integer({ min: 50, max: 60_000 }),
      waterGrams: fc.integer({ min: 500, max: 60_000 }),
      dry: fc.integer({ min: 2300, max: 5000 }),
    });
    fc.assert(
      fc.property(mixes, ({ dryGrams, waterGrams, dry }) => {
        const drySpecificGravity = new Decimal(dry).div(1000);
        const litres = new Decimal(dryGrams).div(drySpecificGravity).plus(waterGrams).div(1000);
        const specificGravity = new Decimal(dryGrams + waterGrams).div(1000).div(litres);
        const slurry = slurryOf({ specificGravity, drySpecificGravity, litres });
        expect(slurry.dryGrams / dryGrams).toBeCloseTo(1, 9);
        expect(slurry.waterGrams / waterGrams).toBeCloseTo(1, 9);
        expect(slurry.dryPlusMinus / slurry.dryGrams).toBeGreaterThan(0.0299);
      }),
    );
  });
});
