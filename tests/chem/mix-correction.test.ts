import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correctionOf, slurryOfCorrection } from "../../src/chem/mix-correction.ts";

const of = (planned: string, put: string | null) => ({
  planned: new Decimal(planned),
  put: put === null ? null : new Decimal(put),
});
const bounds = { tolerancePercent: new Decimal(1), scaleGrams: new Decimal(1) };

// By pencil; common practice, no source: what is in does not come out again.
describe("putting a mix right", () => {
  it("makes the batch larger by what one line is over", () => {
    const correction = correctionOf([of("500", "550"), of("300", null), of("200", "200")], bounds);
    expect(correction.kind).toBe("correct");
    if (correction.kind !== "correct") return;
    expect(correction.off.map(({ line, percent }) => [line, percent.toFixed()])).toEqual([
      [0, "10"],
    ]);
    expect(correction.factor.toFixed()).toBe("1.1");
    expect(correction.lines.map(({ more, grams }) => [more.toFixed(), grams.toFixed()])).toEqual([
      ["0", "550"],
      ["330", "330"],
      ["20", "220"],
    ]);
    expect(correction.totalGrams.toFixed()).toBe("1100");
  });

  it("goes by the worst where several are over", () => {
    const correction = correctionOf([of("100", "110"), of("100", "130"), of("50", null)], bounds);
    expect(correction).toMatchObject({ kind: "correct" });
    if (correction.kind !== "correct") return;
    expect(correction.factor.toFixed()).toBe("1.3");
    expect(correction.lines.map(({ more }) => more.toFixed())).toEqual(["20", "0", "65"]);
  });

  it("puts in what is missing where lines are only short", () => {
    const correction = correctionOf([of("500", "450"), of("300", "300"), of("20", null)], bounds);
    if (correction.kind !== "correct") throw new Error(correction.kind);
    expect(correction.factor.toFixed()).toBe("1");
    expect(correction.lines.map(({ more }) => more.toFixed())).toEqual(["50", "0", "20"]);
  });

  it.each([
    ["nothing is in", [of("500", null), of("300", null)]],
    ["all is as planned", [of("500", "500"), of("300", "300")]],
    ["it is off by just what may be", [of("500", "505"), of("300", "297")]],
    ["nothing is planned and nothing in", [of("500", "500"), of("0", null)]],
  ])("has nothing to say where %s", (_, lines) => {
    expect(correctionOf(lines, bounds).kind).toBe("within");
  });

  it("cannot scale to what the sheet has nothing of", () => {
    expect(correctionOf([of("500", "500"), of("0", "3")], bounds)).toMatchObject({
      kind: "cannot",
      unplanned: [1],
    });
  });

  // 7272.7 × 1.1 = 7999.97; 7950/2.65 = 3000 ml.
  it("tells the water and the litres, and whether the bucket takes them", () => {
    const correction = { factor: new Decimal("1.1"), totalGrams: new Decimal(7950) };
    const given = { waterGrams: new Decimal("7272.7"), drySpecificGravity: new Decimal("2.65") };
    const slurry = slurryOfCorrection(correction, { ...given, bucketLitres: new Decimal(11) });
    expect(slurry.waterGrams.toFixed()).toBe("8000");
    expect(slurry.litres.toFixed()).toBe("11");
    expect(slurry.fits).toBe(true);
    const small = slurryOfCorrection(correction, { ...given, bucketLitres: new Decimal(10) });
    expect(small.fits).toBe(false);
  });

  const grams = fc.integer({ min: 1, max: 2_000_000 }).map((tenths) => new Decimal(tenths).div(10));
  const weighed = fc.record({
    planned: grams,
    /** What went in, in parts of what was planned; null is nothing yet. */
    share: fc.option(fc.integer({ min: 500, max: 1500 }), { nil: null }),
  });

  it("ends each line within half a step of planned × factor, whatever was weighed", () => {
    const steps = fc.constantFrom("0.1", "0.5", "1", "5").map((step) => new Decimal(step));
    fc.assert(
      fc.property(
        fc.array(weighed, { minLength: 1, maxLength: 12 }),
        steps,
        (lines, scaleGrams) => {
          const mixed = lines.map(({ planned, share }) => ({
            planned,
            put: share === null ? null : planned.times(share).div(1000).toDecimalPlaces(4),
          }));
          const correction = correctionOf(mixed, { tolerancePercent: new Decimal(1), scaleGrams });
          if (correction.kind !== "correct") return;
          const { factor, off } = correction;
          const half = scaleGrams.div(2);
          // A line that is over by no more than may be stays so where nothing else is over.
          const tolerated = factor.eq(1) ? new Decimal("0.01") : new Decimal(0);
          for (const [place, { more, grams }] of correction.lines.entries()) {
            const { planned, put } = mixed[place] as (typeof mixed)[number];
            const wanted = planned.times(factor);
            expect(more.gte(0)).toBe(true);
            expect(more.mod(scaleGrams).isZero()).toBe(true);
            expect(grams.eq(more.plus(put ?? 0))).toBe(true);
            expect(grams.minus(wanted).gte(half.neg().minus(1e-9))).toBe(true);
            const over = half.plus(planned.times(tolerated)).plus(1e-9);
            expect(grams.minus(wanted).lte(over)).toBe(true);
          }
          if (factor.eq(1)) return;
          const worst = off.find(({ line }) => correction.lines[line]?.more.isZero());
          if (!worst) throw new Error("the line that is furthest over gets nothing more");
          const sum = (all: readonly Decimal[]) => Decimal.sum(0, ...all);
          const share = correction.lines[worst.line]?.grams.div(correction.totalGrams) ?? 0;
          const planned = sum(mixed.map((line) => line.planned));
          const wanted = (mixed[worst.line] as (typeof mixed)[number]).planned.div(planned);
          // Each line is off by half a step at most, and so is their sum.
          const bound = half
            .times(lines.length + 1)
            .div(correction.totalGrams)
            .plus(1e-9);
          expect(wanted.minus(share).abs().lte(bound)).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });
});
