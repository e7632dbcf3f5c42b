import { type Chemistry, type ChemistryRequest, type UnityOxide, workOut } from "./chemistry.ts";
import { oxides } from "./oxides.ts";
import { moved, unknownsOf } from "./unknowns.ts";

/** How far one number moved between two recipes. `plusMinus` (k = 2) is of the difference itself. */
export type Difference<Of extends string = UnityOxide> = {
  of: Of;
  before: number;
  after: number;
  difference: number;
  plusMinus: number;
};

/**
 * What moved in the unity formula from one batch to another, each with the ± of the difference:
 * what both share (lines of one analysis, by `key`) is one unknown and moves both at once, so that
 * two recipes from the same doubtful powder can still be told apart. An oxide that one of them lacks
 * is 0 there.
 *
 * First order by central differences: every listed oxide and given loss of every analysis is moved
 * by its ± either way, and the halves of what that does are added in squares. Weighing does not
 * count. The requests must have no faults. Empty where one of the two has no flux.
 *
 * Worked number: the same batch twice differs by 0 ± 0, whatever its analyses are worth.
 */
export function differencesBetween(
  before: ChemistryRequest,
  after: ChemistryRequest,
): Difference[] {
  const [from, to] = [unityOf(workedOut(before)), unityOf(workedOut(after))];
  if (from.size === 0 || to.size === 0) return [];
  const named = [...new Set([...from.keys(), ...to.keys()])].sort(byPlace);
  return differencesOf(before, after, named, unityOf);
}

/**
 * The same for the loss on ignition, the ratios and the expansion by each model: those that both
 * recipes have.
 */
export function figureDifferencesBetween(
  before: ChemistryRequest,
  after: ChemistryRequest,
): Difference<FigureName>[] {
  const [from, to] = [figuresOf(workedOut(before)), figuresOf(workedOut(after))];
  const named = [...from.keys()].filter((name) => to.has(name));
  return differencesOf(before, after, named, figuresOf);
}

export type FigureName = "loss" | "silica-to-alumina" | "alkali-share" | `expansion.${string}`;

type Numbers<Of extends string> = ReadonlyMap<Of, number>;

function differencesOf<Of extends string>(
  before: ChemistryRequest,
  after: ChemistryRequest,
  named: readonly Of[],
  numbersOf: (chemistry: Chemistry) => Numbers<Of>,
): Difference<Of>[] {
  const [from, to] = [numbersOf(workedOut(before)), numbersOf(workedOut(after))];
  const squares = new Map<Of, number>();
  for (const unknown of unknownsOf([...before.lines, ...after.lines])) {
    const [up, down] = [unknown.plusMinus, unknown.plusMinus.neg()].map((by) => ({
      before: numbersOf(workedOut(moved(before, unknown, by))),
      after: numbersOf(workedOut(moved(after, unknown, by))),
    }));
    for (const of of named) {
      const half = (gap(up, of) - gap(down, of)) / 2;
      squares.set(of, (squares.get(of) ?? 0) + half * half);
    }
  }
  return named.map((of) => ({
    of,
    before: from.get(of) ?? 0,
    after: to.get(of) ?? 0,
    difference: (to.get(of) ?? 0) - (from.get(of) ?? 0),
    plusMinus: Math.sqrt(squares.get(of) ?? 0),
  }));
}

type Pair<Of extends string> = { before: Numbers<Of>; after: Numbers<Of> } | undefined;

const gap = <Of extends string>(pair: Pair<Of>, of: Of): number =>
  (pair?.after.get(of) ?? 0) - (pair?.before.get(of) ?? 0);

const workedOut = (request: ChemistryRequest): Chemistry =>
  workOut({ ...request, explain: false, grams: undefined, scaleGrams: undefined });

const unityOf = ({ unity }: Chemistry): Numbers<UnityOxide> =>
  new Map(Object.entries(unity ?? {}).map(([oxide, { value }]) => [oxide as UnityOxide, value]));

function figuresOf({ lossOnIgnition, ratios, expansion }: Chemistry): Numbers<FigureName> {
  const { silicaToAlumina, alkaliShare } = ratios;
  const figures: [FigureName, number | null | undefined][] = [
    ["silica-to-alumina", silicaToAlumina?.value],
    ["alkali-share", alkaliShare?.value],
    ["loss", lossOnIgnition.value],
    ...expansion.map(({ model, value }): [FigureName, number | null] => [
      `expansion.${model}`,
      value,
    ]),
  ];
  return new Map(
    figures.flatMap(([name, value]) =>
      value === null || value === undefined ? [] : [[name, value]],
    ),
  );
}

const places: readonly string[] = oxides;

const byPlace = (a: UnityOxide, b: UnityOxide): number => places.indexOf(a) - places.indexOf(b);
