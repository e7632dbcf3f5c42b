import type { ExpansionModel } from "./expansion-models.ts";
import { type Oxide, oxidePlace, oxides } from "./oxides.ts";

const { SiO2, TiO2, PbO, B2O3 } = oxidePlace;

/** What binds boron in fours, and how strongly; alumina is served first. */
const bindsBoron: readonly (readonly [Oxide, number])[] = [
  ...(["Na2O", "K2O", "BaO"] as const).map((oxide) => [oxide, 1] as const),
  ...(["CaO", "SrO", "CdO", "PbO"] as const).map((oxide) => [oxide, 0.7] as const),
  ...(["Li2O", "MgO", "ZnO"] as const).map((oxide) => [oxide, 0.3] as const),
  ["Al2O3", -1],
];

const alkaliPlaces = [oxidePlace.Li2O, oxidePlace.Na2O, oxidePlace.K2O];

/**
 * Appen's sum Σ x f / 100 over mole percents, in 1e-7/K, and by place how it grows with each percent.
 *
 * Four factors depend on the glass. SiO2: 38 up to 67 mol %, one less for each percent above. TiO2:
 * 30 where SiO2 is 50 mol %, 1.5 less for each percent above, −15 at the lowest. PbO: 130 up to 3
 * mol % of alkalis, 5 more for each percent above, 190 at the highest. B2O3: −12.5 for each mole of
 * flux that binds a mole of it (Na2O, K2O and BaO wholly, CaO, SrO, CdO and PbO by 0.7, Li2O, MgO
 * and ZnO by 0.3, less Al2O3), from 0 to −50.
 *
 * Worked number: SiO2 74, Na2O 16, CaO 10 mol % is 74 × 0.31 + 16 × 3.95 + 10 × 1.3 = 99.14.
 * Source: A. A. Appen, Chemie des Glases (1970), from memory; the ends of the ranges are as restated
 * in later literature, the rules between those of TiO2, PbO and B2O3 from memory, low confidence.
 */
export function appenSum(model: ExpansionModel, molePercent: Float64Array) {
  const growth = new Float64Array(oxides.length);
  let sum = 0;
  for (let place = 0; place < growth.length; place++) {
    const factor = model.factors[oxides[place] as Oxide] ?? 0;
    growth[place] = factor;
    sum += factor * (molePercent[place] ?? 0);
  }
  const add = (place: number, more: number) => {
    growth[place] = (growth[place] ?? 0) + more;
  };
  const silica = molePercent[SiO2] ?? 0;
  if (silica > 67) {
    sum -= silica * (silica - 67);
    add(SiO2, 67 - 2 * silica);
  }
  const titania = molePercent[TiO2] ?? 0;
  const lower = Math.min(45, Math.max(0, 1.5 * (silica - 50)));
  sum -= titania * lower;
  add(TiO2, -lower);
  if (lower > 0 && lower < 45) add(SiO2, -1.5 * titania);

  const lead = molePercent[PbO] ?? 0;
  let alkali = 0;
  for (const place of alkaliPlaces) alkali += molePercent[place] ?? 0;
  const higher = Math.min(60, Math.max(0, 5 * (alkali - 3)));
  sum += lead * higher;
  add(PbO, higher);
  if (higher > 0 && higher < 60) for (const place of alkaliPlaces) add(place, 5 * lead);

  const boron = molePercent[B2O3] ?? 0;
  let binding = 0;
  for (const [oxide, weight] of bindsBoron)
    binding += weight * (molePercent[oxidePlace[oxide]] ?? 0);
  if (binding >= 4 * boron) {
    sum -= 50 * boron;
    add(B2O3, -50);
  } else if (binding > 0) {
    sum -= 12.5 * binding;
    for (const [oxide, weight] of bindsBoron) add(oxidePlace[oxide], -12.5 * weight);
  }
  return { sum: sum / 100, growth };
}
