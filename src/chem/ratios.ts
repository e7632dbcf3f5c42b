import type { Conventions, Quantity, Ratios } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";
import { alkalis, oxidePlace } from "./oxides.ts";
import { quotient } from "./quotient.ts";
import { molesOfBase, molesPerGram, molesPerGramAsFeO, only, unityBase } from "./unity-base.ts";

const potashAndSodaMoles = only(["K2O", "Na2O"], molesPerGram);
const silicaMoles = only(["SiO2"], molesPerGram);
const aluminaMoles = only(["Al2O3"], molesPerGram);
const r2o3Moles = only(["Al2O3", "B2O3"], molesPerGram);
const glassFormerMoles = only(["SiO2", "B2O3"], molesPerGram);

/**
 * The molar ratios of a melt, each with its ±, by the conventions asked for; null where there is
 * nothing to divide by. Boron is apart unless it is asked for with the alumina (R2O3) or with the
 * silica (glass-formers): then one more ratio is there, and silica to alumina stays as it is.
 *
 * Worked number: SiO2 3, Al2O3 0.3, B2O3 0.2 has silica to alumina 10, silica to R2O3 6, and
 * glass-formers to alumina 10.67.
 */
export function ratiosOf(melt: Melt, { unity, iron, boron }: Conventions): Ratios {
  const inMoles = iron === "FeO" ? molesPerGramAsFeO : molesPerGram;
  const ratios: Ratios = {
    silicaToAlumina: silicaToAlumina(melt, molesPerGram),
    alkaliShare: alkaliShare(melt, inMoles, unityBase(unity, iron)),
    potashAndSoda: quotient(melt, potashAndSodaMoles, molesOfBase(unity, iron)),
  };
  if (boron === "with-alumina") ratios.silicaToR2O3 = quotient(melt, silicaMoles, r2o3Moles);
  if (boron === "with-silica") {
    ratios.glassFormersToAlumina = quotient(melt, glassFormerMoles, aluminaMoles);
  }
  return ratios;
}

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
