import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { workOut } from "../../src/chem/chemistry.ts";
import { type Cone, coneCelsius } from "../../src/chem/cones.ts";
import { baseTotal, percentOfBase } from "../../src/chem/lines.ts";
import { movesBetween } from "../../src/chem/moves.ts";
import { assumedPlusMinus } from "../../src/chem/powder.ts";
import { mostAbsorption } from "../../src/chem/rules-evidence.ts";
import { slurryOf } from "../../src/chem/slurry.ts";
import { findGuidePage, guide } from "../../views/guide/guide.ts";
import { GuidePageView } from "../../views/guide/page.tsx";
import { analysisOf } from "../reference/published.ts";

const views = resolve(import.meta.dirname, "../../views");

const pageOf = (slug: string) => {
  const found = findGuidePage(slug);
  if (!found) throw new Error(`the guide has no ${slug}`);
  return found.page;
};
const textOf = (slug: string) =>
  pageOf(slug)
    .sections.flatMap(({ says }) => says)
    .join(" ");

const line = (formula: string, amount: string, part: "base" | "addition" = "base") => ({
  ...{ key: formula, name: formula, part, amount: new Decimal(amount) },
  analysis: analysisOf(formula),
});
const [feldspar, whiting, quartz, kaolin, wollastonite] = [
  "K2O·Al2O3·6SiO2",
  "CaCO3",
  "SiO2",
  "Al2O3·2SiO2·2H2O",
  "CaO·SiO2",
] as const;
const base = [line(feldspar, "40"), line(whiting, "20"), line(quartz, "25"), line(kaolin, "15")];

const fixed = (value: number | Decimal | undefined, places: number) =>
  new Decimal(value ?? Number.NaN).toFixed(places);

describe("the numbers of the guide, worked out anew", () => {
  it("of base and additions", () => {
    const iron = line("Fe2O3", "2", "addition");
    const percent = percentOfBase(iron, [...base, iron]);
    const loss = workOut({ lines: [line(whiting, "100")] }).lossOnIgnition.value;
    const lime = analysisOf(whiting).oxides.CaO?.percent;
    expect(pageOf("base-and-additions").worked).toEqual([
      `A base of 40, 20, 25 and 15 parts is ${baseTotal(base)}. Iron oxide at 2 parts is an addition of ${percent} %, so 500 g of base take ${percent?.times(5)} g of it.`,
      `Whiting loses ${fixed(loss, 1)} % of its weight: 100 g of it leave ${fixed(lime, 1)} g of lime (CaO) in the glass.`,
    ]);
  });

  it("of cones", () => {
    const at = (cone: Cone) => coneCelsius(cone)?.celsius ?? Number.NaN;
    expect(pageOf("cones").worked).toEqual([
      `Cone 04 ends near ${at("04")} °C, cone 4 near ${at("4")} °C, at ${coneCelsius("4")?.rate} °C an hour: ${at("4") - at("04")} °C apart. Cone 6 ends near ${at("6")} °C.`,
    ]);
  });

  it("of the unity formula, and of what its ± says", () => {
    const { unity, ratios } = workOut({ lines: base });
    const of = (oxide: "K2O" | "CaO" | "Al2O3" | "SiO2") => fixed(unity?.[oxide]?.value, 2);
    expect(pageOf("unity-formula").worked).toEqual([
      `Potash feldspar 40, whiting 20, quartz 25 and kaolin 15, as ideal minerals, are ${of("K2O")} K2O and ${of("CaO")} CaO to ${of("Al2O3")} Al2O3 and ${of("SiO2")} SiO2. Silica to alumina is ${fixed(ratios.silicaToAlumina?.value, 1)}, the alkali share ${fixed(ratios.alkaliShare?.value, 2)}.`,
    ]);
    const [middle, doubt] = [new Decimal(of("SiO2")), new Decimal("0.1")];
    expect(textOf("plus-minus")).toContain(
      `${middle} ± ${doubt.toFixed(2)} says: by what is known of the powders, the true figure lies between ${middle.minus(doubt)} and ${middle.plus(doubt)}`,
    );
  });

  it("of the ± that is assumed", () =>
    expect(pageOf("plus-minus").worked).toEqual([
      `An oxide at 30 % gets ± ${fixed(assumedPlusMinus(30), 1)}, one at 2 % gets ± ${fixed(assumedPlusMinus(2), 1)}, one at 99.9 % gets ± ${fixed(assumedPlusMinus(99.9), 2)}.`,
    ]));

  it("of restating", () => {
    const lime = (formula: string) => analysisOf(formula).oxides.CaO?.percent ?? new Decimal(0);
    const silica = analysisOf(wollastonite).oxides.SiO2?.percent ?? new Decimal(0);
    const grams = lime(whiting).times(10).div(lime(wollastonite));
    expect(pageOf("restating").worked).toEqual([
      `10 g of whiting bring ${fixed(lime(whiting).div(10), 1)} g of lime (CaO). As much of it takes ${fixed(grams, 1)} g of wollastonite, which brings ${fixed(grams.times(silica).div(100), 1)} g of silica too: that much less quartz is weighed.`,
    ]);
  });

  it("of a bucket", () => {
    const [litres, dry] = [new Decimal(10), new Decimal("2.65")];
    const thick = { specificGravity: new Decimal("1.5"), drySpecificGravity: dry, litres };
    const found = slurryOf({ ...thick, targetGravity: new Decimal("1.45") });
    const kilograms = (grams: number, places: number) => fixed(grams / 1000, places);
    expect(pageOf("bucket").worked).toEqual([
      `10 litres at 1.50 that should be 1.45 take ${fixed(found.addWaterGrams, 0)} g of water. At 1.50, with a dry powder of ${dry}, they hold ${kilograms(found.dryGrams, 1)} kg of it, give or take ${kilograms(found.dryPlusMinus, 2)} kg.`,
    ]);
  });

  it("of what ends an approval, and of the body", () => {
    const now = workOut({ lines: base });
    const withSilica = (value: number) => ({
      ...now,
      unity: { ...now.unity, SiO2: { value, plusMinus: 0 } },
    });
    const ended = (to: number) => movesBetween(withSilica(3), withSilica(to)).length > 0;
    expect([ended(3.05), ended(3.07)]).toEqual([false, true]);
    expect(pageOf("approval").worked?.join()).toContain("3.05 and the approval holds; at 3.07");
    for (const slug of ["approval", "reading-a-tile"])
      expect(textOf(slug)).toContain(`less than ${mostAbsorption} %`);
  });
});

describe("the guide", () => {
  it("has each page once, and each section of a page", () => {
    expect(guide.length).toBe(12);
    expect(new Set(guide.map(({ slug }) => slug)).size).toBe(guide.length);
    for (const { slug, sections } of guide) {
      const ids = sections.map(({ id }) => id);
      expect({ slug, ids: [...new Set(ids)] }).toEqual({ slug, ids });
    }
  });

  it("explains every term that a page underlines", () => {
    const files = readdirSync(views, { recursive: true, encoding: "utf8" }).filter((name) =>
      name.endsWith(".tsx"),
    );
    const named = files.flatMap((file) =>
      readFileSync(join(views, file), "utf8")
        .split(/<Term\s/)
        .slice(1)
        .map((rest) => /^[^>]*?guide="([^"]+)"/.exec(rest)?.[1] ?? `${file}: none`),
    );
    expect(named.length).toBeGreaterThan(10);
    for (const where of named) {
      const [slug = "", id] = where.split("#");
      const known = findGuidePage(slug)?.page.sections.some((section) => section.id === id);
      expect({ where, known }).toEqual({ where, known: true });
    }
  });

  it("leads from each page to the next and back", () => {
    for (const [place, { slug }] of guide.entries()) {
      const found = findGuidePage(slug);
      expect(found?.next?.slug).toBe(guide[place + 1]?.slug);
      expect(found?.previous?.slug).toBe(guide[place - 1]?.slug);
    }
  });

  it("promises nothing, and defers where work can hurt", () => {
    for (const { slug } of guide) {
      const found = findGuidePage(slug);
      const words = found ? String(<GuidePageView {...found} />) : "";
      expect(words).not.toMatch(/food[- ]?safe|safe for food|dinnerware/i);
      expect(words.replaceAll("safety data sheet", "").replaceAll("for safety", "")).not.toMatch(
        /\bsafe(ly|ty)?\b/i,
      );
    }
    for (const slug of ["approval", "dust-and-poison", "testing", "cones", "crazing", "bucket"])
      expect({ slug, defers: pageOf(slug).defers }).toEqual({
        slug,
        defers: expect.stringMatching(/rules where you are|local rules/),
      });
    expect(pageOf("testing").defers).toContain("licensed laboratory");
    expect(pageOf("dust-and-poison").defers).toContain("safety data sheet");
  });
});
