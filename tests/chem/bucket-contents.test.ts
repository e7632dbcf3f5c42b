import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contentsOf, type Happening, together } from "../../src/chem/bucket-contents.ts";

type Powder = { of: string; grams: Decimal };

const put = (...powders: [string, number][]): Happening<Powder> => ({
  kind: "put in",
  powders: powders.map(([of, grams]) => ({ of, grams: new Decimal(grams) })),
});
const measured = (grams: number): Happening<Powder> => ({
  kind: "measured",
  dryGrams: new Decimal(grams),
});
const emptied: Happening<Powder> = { kind: "emptied" };

const inIt = (...happenings: Happening<Powder>[]) =>
  Object.fromEntries(
    together(contentsOf(happenings).powders, ({ of }) => of).map(({ of, grams }) => [
      of,
      grams.toNumber(),
    ]),
  );

// By pencil; common practice, no source: glaze is used stirred, all of it alike.
describe("what is in a bucket", () => {
  const batch = put(["feldspar", 400], ["quartz", 600]);

  it("is what went in, less what was used", () => {
    expect(inIt(batch)).toEqual({ feldspar: 400, quartz: 600 });
    expect(inIt(batch, measured(500))).toEqual({ feldspar: 200, quartz: 300 });
    expect(inIt(batch, measured(500), batch)).toEqual({ feldspar: 600, quartz: 900 });
    expect(inIt(batch, measured(500), put(["kaolin", 100]))).toEqual({
      feldspar: 200,
      quartz: 300,
      kaolin: 100,
    });
  });

  it("goes by the newest reading between two mixes", () => {
    expect(inIt(batch, measured(250), measured(500))).toEqual({ feldspar: 200, quartz: 300 });
    expect(inIt(batch, measured(500), batch, measured(750))).toEqual({
      feldspar: 300,
      quartz: 450,
    });
  });

  it("is nothing once it was emptied, and nothing measured in it makes powder", () => {
    expect(inIt(batch, emptied)).toEqual({});
    expect(inIt(batch, emptied, measured(500))).toEqual({});
    expect(inIt(batch, measured(500), emptied, batch)).toEqual({ feldspar: 400, quartz: 600 });
    expect(inIt(batch, measured(1200))).toEqual({ feldspar: 400, quartz: 600 });
  });

  it("says what was taken as so", () => {
    const assumed = (...happenings: Happening<Powder>[]) => contentsOf(happenings).assumed;
    const before = expect.stringContaining("before it was topped up");
    const since = expect.stringContaining("since it was last mixed");
    expect(assumed()).toEqual([]);
    expect(assumed(batch)).toEqual([since]);
    expect(assumed(batch, measured(500))).toEqual([]);
    expect(assumed(batch, batch)).toEqual([before, since]);
    expect(assumed(batch, measured(500), batch)).toEqual([since]);
    expect(assumed(batch, batch, measured(900))).toEqual([before]);
    expect(assumed(batch, batch, emptied, batch)).toEqual([since]);
  });

  const powder = fc.record({
    of: fc.constantFrom("feldspar", "quartz", "kaolin"),
    grams: fc.integer({ min: 1, max: 900_000 }).map((tenths) => new Decimal(tenths).div(10)),
  });
  const mix = fc.array(powder, { minLength: 1, maxLength: 8 });
  const share = fc.integer({ min: 1, max: 100 });
  const total = (powders: readonly Powder[]) => Decimal.sum(0, ...powders.map((p) => p.grams));
  const close = (one: Decimal, other: Decimal) =>
    expect(one.minus(other).abs().lte(other.abs().times("1e-12").plus("1e-12"))).toBe(true);

  it("keeps mass: what a reading left and what was put on top, whatever it is of", () => {
    fc.assert(
      fc.property(mix, mix, share, (first, second, percent) => {
        const found = total(first).times(percent).div(100);
        const { dryGrams, powders } = contentsOf([
          { kind: "put in", powders: first },
          { kind: "measured", dryGrams: found },
          { kind: "put in", powders: second },
        ]);
        close(dryGrams, found.plus(total(second)));
        close(total(powders), dryGrams);
      }),
    );
  });

  it("scales every powder by one factor", () => {
    fc.assert(
      fc.property(mix, share, (powders, percent) => {
        const dryGrams = total(powders).times(percent).div(100);
        const found = contentsOf([
          { kind: "put in", powders },
          { kind: "measured", dryGrams },
        ]);
        for (const [place, { grams }] of found.powders.entries())
          close(grams, (powders[place]?.grams ?? new Decimal(0)).times(percent).div(100));
      }),
    );
  });

  it("does not depend on the order of lines", () => {
    const shares = ({ powders }: { powders: readonly Powder[] }) =>
      new Map(together(powders, ({ of }) => of).map(({ of, grams }) => [of, grams]));
    fc.assert(
      fc.property(mix, mix, (first, second) => {
        const halved: Happening<Powder> = { kind: "measured", dryGrams: total(first).div(2) };
        const filled = (one: Powder[], other: Powder[]) =>
          shares(
            contentsOf([
              { kind: "put in", powders: one },
              halved,
              { kind: "put in", powders: other },
            ]),
          );
        const back = filled(first.toReversed(), second.toReversed());
        for (const [of, grams] of filled(first, second))
          close(grams, back.get(of) ?? new Decimal(0));
      }),
    );
  });

  it("has the same proportions when the same is put on top of it", () => {
    fc.assert(
      fc.property(mix, share, share, (powders, percent, size) => {
        const more = powders.map((p) => ({ ...p, grams: p.grams.times(size).div(50) }));
        const { powders: after, dryGrams } = contentsOf([
          { kind: "put in", powders },
          { kind: "measured", dryGrams: total(powders).times(percent).div(100) },
          { kind: "put in", powders: more },
        ]);
        const of = together(after, (p) => p.of);
        for (const { of: name, grams } of together(powders, (p) => p.of))
          close(
            of.find((p) => p.of === name)?.grams.div(dryGrams) ?? new Decimal(0),
            grams.div(total(powders)),
          );
      }),
    );
  });
});
