import type { Decimal } from "decimal.js";
import { d, type Exact, massOf, zero } from "./forty-digit-numbers.ts";
import { factorRecords, idOfModel } from "./published-expansion.ts";

type Masses = Record<string, Decimal>;
type Move = { masses: Masses };

/** Linear 1e-6/K of a glass by one model, written apart from the program, from the records alone. */
type Model = { id: string; expansion: (masses: Masses) => Decimal; factors: Masses };

const models: Model[] = Object.entries(idOfModel).map(([name, id]) => {
  const mine = factorRecords.filter(({ model }) => model === name);
  // Text values depend on the glass and are worked out in moleExpansion; they count as having one.
  const factors = Object.fromEntries(
    mine.map(({ oxide, value }) => [oxide, d(typeof value === "number" ? value : 0)]),
  );
  const perMole = mine.every(({ unit }) => unit.includes("mole fraction"));
  const parts = mine.every(({ unit }) => unit.startsWith("CUBICAL")) ? 30 : 10;
  const expansion = (masses: Masses) =>
    (perMole ? moleExpansion(masses, factors) : weightExpansion(masses, factors)).div(parts);
  return { id, expansion, factors };
});

const total = (masses: Masses) => Object.values(masses).reduce((sum, mass) => sum.plus(mass), zero);

function weightExpansion(masses: Masses, factors: Masses): Decimal {
  let sum = zero;
  for (const [oxide, mass] of Object.entries(masses))
    sum = sum.plus((factors[oxide] ?? zero).times(mass));
  return sum.times(100).div(total(masses));
}

const molesOf = (masses: Masses): Masses =>
  Object.fromEntries(
    Object.entries(masses).map(([oxide, mass]) => [oxide, mass.div(massOf(oxide))]),
  );

const clamp = (value: Decimal, least: number, most: number) =>
  value.lt(least) ? d(least) : value.gt(most) ? d(most) : value;

// A. A. Appen, Chemie des Glases (1970). SiO2's rule is in the record; those of TiO2, PbO and B2O3
// between the recorded ends are from memory, low confidence.
function moleExpansion(masses: Masses, factors: Masses): Decimal {
  const moles = molesOf(masses);
  const all = total(moles);
  const percent = (oxide: string) => (moles[oxide] ?? zero).times(100).div(all);
  const silica = percent("SiO2");
  const alkali = percent("Li2O").plus(percent("Na2O")).plus(percent("K2O"));
  const boron = percent("B2O3");
  let binding = percent("Al2O3").neg();
  for (const oxide of ["Na2O", "K2O", "BaO"]) binding = binding.plus(percent(oxide));
  for (const oxide of ["CaO", "SrO", "CdO", "PbO"])
    binding = binding.plus(percent(oxide).times("0.7"));
  for (const oxide of ["Li2O", "MgO", "ZnO"]) binding = binding.plus(percent(oxide).times("0.3"));
  const dependent: Masses = {
    SiO2: silica.lte(67) ? d(38) : d(105).minus(silica),
    TiO2: clamp(d(105).minus(silica.times("1.5")), -15, 30),
    PbO: clamp(d(115).plus(alkali.times(5)), 130, 190),
    B2O3: boron.isZero() ? zero : clamp(binding.div(boron).times("-12.5"), -50, 0),
  };
  let sum = zero;
  for (const oxide of Object.keys(moles))
    sum = sum.plus((dependent[oxide] ?? factors[oxide] ?? zero).times(percent(oxide)));
  return sum.div(100);
}

/** So small that what is left out of a slope is past the fortieth digit by far. */
const step = d("1e-13");

const stepped = (masses: Masses, move: Masses, by: Decimal): Masses => {
  const moved = { ...masses };
  for (const [oxide, more] of Object.entries(move))
    moved[oxide] = (moved[oxide] ?? zero).plus(by.times(more));
  return moved;
};

/**
 * The expansion by every model, or null where what has no factor is over 2 % of the glass. The ± is
 * made of slopes by small steps, without any derivative by hand.
 */
export function exactExpansion(masses: Masses, moves: Move[]): Record<string, Exact | null> {
  const glass = total(masses);
  if (glass.lte(0)) return {};
  const answers = models.map(({ id, factors, expansion }): [string, Exact | null] => {
    const percents = Object.entries(masses).map(
      ([oxide, mass]) => [oxide, mass.times(100).div(glass)] as const,
    );
    const outside = percents.filter(
      ([oxide, percent]) =>
        percent.gt(0) &&
        // S. English & W. E. S. Turner (1927): the factor of B2O3 holds to about 12 weight percent.
        (!factors[oxide] || (id === "english-turner" && oxide === "B2O3" && percent.gt(12))),
    );
    const leftOut = outside.reduce((sum, [, percent]) => sum.plus(percent), zero);
    if (leftOut.gt(2)) return [id, null];
    let squares = zero;
    for (const move of moves) {
      const up = expansion(stepped(masses, move.masses, step));
      const down = expansion(stepped(masses, move.masses, step.neg()));
      squares = squares.plus(up.minus(down).div(step.times(2)).pow(2));
    }
    return [id, { value: expansion(masses), plusMinus: squares.sqrt() }];
  });
  return Object.fromEntries(answers);
}
