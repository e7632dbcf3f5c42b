import type { Quantity } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";
import { alkalis, oxidePlace } from "./oxides.ts";

/**
 * Silica to alumina, molar, with its ±; null without alumina.
 * Worked number: the feldspar K2O·Al2O3·6SiO2 has 6.
 */
export function silicaToAlumina(melt: Melt, coefficients: Float64Array): Quantity | null {
  const [silica, alumina] = [oxidePlace.SiO2, oxidePlace.Al2O3];
  const perSilica = coefficients[silica] ?? 0;
  const perAlumina = coefficients[alumina] ?? 0;
  const below = perAlumina * (melt.masses[alumina] ?? 0);
  if (below === 0) return null;
  const value = (perSilica * (melt.masses[silica] ?? 0)) / below;
  let squares =
    perSilica ** 2 * (melt.massVariance[silica] ?? 0) +
    (value * perAlumina) ** 2 * (melt.massVariance[alumina] ?? 0);
  for (const { masses } of melt.pulls) {
    const moved = perSilica * (masses[silica] ?? 0) - value * perAlumina * (masses[alumina] ?? 0);
    squares += moved * moved;
  }
  return { value, plusMinus: Math.sqrt(squares) / below };
}

const alkaliPlaces = new Set<number>(alkalis.map((oxide) => oxidePlace[oxide]));

/**
 * The alkalis' share of the unity base, (Li2O + Na2O + K2O) / base, molar, 0 to 1; null where the
 * base is empty. Worked number: Seger's cone 4, K2O 0.3 and CaO 0.7, has 0.3.
 */
export function alkaliShare(
  melt: Melt,
  coefficients: Float64Array,
  inBase: Uint8Array,
): Quantity | null {
  let [alkali, others, alkaliVariance, othersVariance] = [0, 0, 0, 0];
  for (const place of melt.present) {
    if (!inBase[place]) continue;
    const coefficient = coefficients[place] ?? 0;
    const moles = coefficient * (melt.masses[place] ?? 0);
    const variance = coefficient * coefficient * (melt.massVariance[place] ?? 0);
    if (alkaliPlaces.has(place)) {
      alkali += moles;
      alkaliVariance += variance;
    } else {
      others += moles;
      othersVariance += variance;
    }
  }
  const base = alkali + others;
  if (base === 0) return null;
  const [value, rest] = [alkali / base, others / base];
  let squares = rest * rest * alkaliVariance + value * value * othersVariance;
  for (const { masses } of melt.pulls) {
    let moved = 0;
    for (const place of melt.present) {
      if (!inBase[place]) continue;
      const pulled = (coefficients[place] ?? 0) * (masses[place] ?? 0);
      moved += (alkaliPlaces.has(place) ? rest : -value) * pulled;
    }
    squares += moved * moved;
  }
  return { value, plusMinus: Math.sqrt(squares) / base };
}
