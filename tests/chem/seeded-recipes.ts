import { Decimal } from "decimal.js";
import type { Analysis, Figure } from "../../src/chem/analysis.ts";
import type { ChemistryLine, ChemistryRequest } from "../../src/chem/chemistry-types.ts";
import { type Oxide, oxides } from "../../src/chem/oxides.ts";
import { mulberry32 } from "./draws.ts";

/**
 * Many recipes in little time, the same for the same seed: ordinary numbers rather than the edges
 * that the generated recipes of the laws look for.
 */
export function* seededRecipes(seed: number, count: number): Generator<ChemistryRequest> {
  const draw = mulberry32(seed);
  for (let made = 0; made < count; made++) yield recipe(draw);
}

type Draw = () => number;

const whole = (draw: Draw, least: number, most: number) =>
  least + Math.floor(draw() * (most - least + 1));
const pick = <T>(draw: Draw, from: readonly T[]): T => from[whole(draw, 0, from.length - 1)] as T;
const hundredths = (draw: Draw, least: number, most: number) =>
  new Decimal(whole(draw, least, most)).div(100);

function recipe(draw: Draw): ChemistryRequest {
  const pool = Array.from({ length: whole(draw, 1, 5) }, () => analysis(draw));
  const lines = Array.from({ length: whole(draw, 1, 8) }, (_, at): ChemistryLine => {
    // One past the pool is a ready-made product, which may not be the first line.
    const chosen = at === 0 ? 0 : whole(draw, 0, pool.length);
    const of = pool[chosen] ?? null;
    const part = of && (at === 0 || draw() < 0.7) ? "base" : "addition";
    const name = of ? `Powder ${chosen}` : "Ready-made stain";
    return { key: name, name, part, amount: hundredths(draw, 1, 6000), analysis: of };
  });
  const weighed = draw() < 0.3;
  return {
    lines,
    unity: pick(draw, ["fluxes", "fluxes-and-colour"] as const),
    iron: pick(draw, ["Fe2O3", "FeO"] as const),
    boron: pick(draw, ["apart", "with-alumina", "with-silica"] as const),
    ...(weighed ? { grams: hundredths(draw, 5000, 500000), scaleGrams: new Decimal("0.1") } : {}),
  };
}

/** Mostly oxides that the models of expansion know, so that many recipes get an answer. */
function analysis(draw: Draw): Analysis {
  const known = draw() < 0.7 ? 12 : 22;
  const listed = new Set<Oxide>(draw() < 0.8 ? ["SiO2"] : []);
  for (let more = whole(draw, 1, 6); more > 0; more--)
    listed.add(pick(draw, oxides.slice(0, known)));
  const weights = [...listed].map((oxide) => (oxide === "SiO2" ? 3 : 1) * (0.05 + draw()));
  const sum = weights.reduce((all, weight) => all + weight, 0);
  const filled = whole(draw, 40, 97);
  const figures = [...listed].map((oxide, at): [Oxide, Figure] => {
    const percent = new Decimal((weights[at] ?? 0) * (filled / sum)).toDecimalPlaces(3, 1);
    return draw() < 0.5
      ? [oxide, { percent }]
      : [oxide, { percent, plusMinus: hundredths(draw, 0, 300) }];
  });
  const basis = draw() < 0.2 ? "calcined" : "asReceived";
  const given = basis === "calcined" || draw() < 0.6;
  const loss = hundredths(draw, -500, (100 - filled) * 100);
  return {
    basis,
    oxides: Object.fromEntries(figures),
    ...(given ? { lossOnIgnition: { percent: loss } } : {}),
    ...(basis === "asReceived" && draw() < 0.2 ? { ideal: true } : {}),
  };
}
