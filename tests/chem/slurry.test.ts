import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { faultsOfSlurry, type SlurryRequest, slurryOf } from "../../src/chem/slurry.ts";
import printed from "../reference/slurry.json" with { type: "json" };

const request = (
  specificGravity: Decimal.Value,
  {
    dry = 2.65,
    litres = 1,
    target,
  }: { dry?: Decimal.Value; litres?: Decimal.Value; target?: Decimal.Value } = {},
): SlurryRequest => ({
  specificGravity: new Decimal(specificGravity),
  drySpecificGravity: new Decimal(dry),
  litres: new Decimal(litres),
  targetGravity: target === undefined ? undefined : new Decimal(target),
});

type WorkedSum = {
  id: string;
  value: number;
  input: { P_oz: number; S: number };
  percent_solids: number;
  sg_slip: number;
};
const isSum = (record: object): record is WorkedSum => "percent_solids" in record;
type Degrees = { id: string; value: { SG: number; Tw: number } };
const isTwaddell = (each: object): each is Degrees =>
  "id" in each && String(each.id).startsWith("twaddell-ex");
const record = (id: string) => printed.find((each) => each.id === id);

const litresOfPint = 0.56826125;
const gramsOfOunce = 28.349523125;
const exactOunces = (1000 * litresOfPint) / gramsOfOunce;

describe("a slurry", () => {
  // A. Brongniart, "Traité des arts céramiques", 1844, relation from memory; sums computed from it.
  const sums = (printed as object[]).filter(isSum);
  it("has four worked sums to meet", () => expect(sums.length).toBe(4));
  it.each(sums)(
    "holds what Brongniart's relation says: $id",
    ({ value, input, percent_solids, sg_slip }) => {
      const slurry = slurryOf(request(sg_slip, { dry: input.S }));
      expect(slurry.drySharePercent).toBeCloseTo(percent_solids, 3);
      expect(slurry.ouncesPerImperialPint).toBeCloseTo(input.P_oz, 10);
      // The relation counts 20 oz of water in a pint of which a litre fills 20.04483 / 20 as much.
      const dryOunces = (slurry.dryGrams * litresOfPint) / gramsOfOunce;
      expect((dryOunces * 20) / exactOunces).toBeCloseTo(value, 4);
    },
  );

  // A handbook of about 1900 whose title was not noted, p. 19: pairs that were looked up.
  const degrees = (printed as object[]).filter(isTwaddell);
  it("has four pairs of Twaddell's degrees to meet", () => expect(degrees.length).toBe(4));
  it.each(degrees)("has the printed degrees Twaddell: $id", ({ value: { SG, Tw } }) => {
    const { twaddell } = slurryOf(request(SG));
    expect(twaddell).toBeCloseTo(Tw, 10);
  });

  // US Bureau of Standards, Circular 19: American modulus 145 for liquids heavier than water.
  it("has degrees Baumé by the modulus of 145", () => {
    expect(record("baume-heavy")?.check).toEqual({ SG_1_5: 48.333, SG_1_84: 66.196 });
    expect(slurryOf(request(1.5)).baume).toBeCloseTo(48.333, 3);
    expect(slurryOf(request(1.84)).baume).toBeCloseTo(66.196, 3);
  });

  // UK Weights and Measures Act: 568.26125 ml; 28.349523125 g to the ounce (from memory).
  it("weighs 20 oz a pint for each unit of gravity, 0.3 % under the exact", () => {
    expect(record("pint-imperial")?.value).toMatchObject({ exact_oz_at_1g_per_mL: 20.04483 });
    expect(exactOunces).toBeCloseTo(20.04483, 5);
    const { ouncesPerImperialPint } = slurryOf(request(1.45));
    expect(ouncesPerImperialPint).toBe(29);
    expect(ouncesPerImperialPint / (1.45 * exactOunces)).toBeCloseTo(0.9978, 4);
  });

  // By hand: 10 l at 1.60 down to 1.45 is 1000 × 10 × 0.15 / 0.45 = 3333.3 g; 1.40 up to 1.45 is
  // 1000 × 10 × −0.05 / 0.45 = −1111.1 g.
  it("takes water to its target, or gives it off", () => {
    expect(slurryOf(request(1.6, { litres: 10, target: 1.45 })).addWaterGrams).toBeCloseTo(
      3333.33,
      2,
    );
    expect(slurryOf(request(1.4, { litres: 10, target: 1.45 })).addWaterGrams).toBeCloseTo(
      -1111.11,
      2,
    );
    expect(slurryOf(request(1.45, { target: 1.45 })).addWaterGrams).toBe(0);
    expect(slurryOf(request(1.45))).not.toHaveProperty("addWaterGrams");
  });

  it("gives its dry content at least 3 %, more where it is thin, and says what for", () => {
    const thick = slurryOf(request(1.5));
    expect(thick.dryPlusMinus / thick.dryGrams).toBeCloseTo(0.03, 12);
    const thin = slurryOf(request(1.05));
    expect(thin.dryPlusMinus / thin.dryGrams).toBeCloseTo(0.1, 12);
    for (const { says } of [thick, thin])
      expect(says).toContain("stirred, no froth, little soluble matter");
  });

  const gravities = fc.tuple(
    fc.integer({ min: 1010, max: 2200 }),
    fc.integer({ min: 2300, max: 5000 }),
    fc.integer({ min: 1, max: 90_000 }),
    fc.integer({ min: 1010, max: 2200 }),
  );
  it("keeps its powder and its weight when water is added, and comes to the target", () => {
    fc.assert(
      fc.property(gravities, ([now, dry, centilitres, target]) => {
        const before = request(new Decimal(now).div(1000), {
          dry: new Decimal(dry).div(1000),
          litres: new Decimal(centilitres).div(100),
          target: new Decimal(target).div(1000),
        });
        const slurry = slurryOf(before);
        expect(slurry.dryGrams + slurry.waterGrams).toBeCloseTo(slurry.slurryGrams, 6);
        const added = slurry.addWaterGrams ?? Number.NaN;
        const litres = before.litres.plus(new Decimal(added).div(1000));
        expect((slurry.slurryGrams + added) / 1000 / litres.toNumber()).toBeCloseTo(
          target / 1000,
          9,
        );
        const after = slurryOf(
          request(new Decimal(target).div(1000), { dry: before.drySpecificGravity, litres }),
        );
        expect(after.dryGrams / slurry.dryGrams).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe("a slurry that cannot be", () => {
  it.each<[string, SlurryRequest, string]>([
    ["is water", request(1), "specificGravity"],
    ["floats", request(0.9), "specificGravity"],
    ["is as dense as its powder", request(2.65), "specificGravity"],
    ["is of a powder that floats", request(1.2, { dry: 1 }), "drySpecificGravity"],
    ["is of metal", request(1.2, { dry: 11 }), "drySpecificGravity"],
    ["has no litres", request(1.2, { litres: 0 }), "litres"],
    ["has litres below 0", request(1.2, { litres: -1 }), "litres"],
    ["fills a lake", request(1.2, { litres: 1e9 }), "litres"],
    ["aims at water", request(1.2, { target: 1 }), "targetGravity"],
    ["aims below water", request(1.2, { target: 0.5 }), "targetGravity"],
    ["aims at dry powder", request(1.2, { target: 2.65 }), "targetGravity"],
  ])("is refused where it %s", (_, refused, path) =>
    expect(faultsOfSlurry(refused).map((fault) => fault.path)).toEqual([path]),
  );

  it("is not refused where it can", () =>
    expect(faultsOfSlurry(request(1.45, { litres: 12.5, target: 1.42 }))).toEqual([]));
});
