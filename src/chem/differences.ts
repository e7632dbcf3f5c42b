import { type ChemistryRequest, type UnityOxide, workOut } from "./chemistry.ts";
import { oxides } from "./oxides.ts";
import { moved, unknownsOf } from "./unknowns.ts";

/** How far one number moved between two recipes. `plusMinus` (k = 2) is of the difference itself. */
export type Difference = {
  of: UnityOxide;
  before: number;
  after: number;
  difference: number;
  plusMinus: number;
};

/**
 * What moved in the unity formula from one batch to another, each with the ± of the difference:
 * what both share (lines of one analysis, by `key`) is one unknown and moves both at once, so that
 * two recipes from the same doubtful powder can still be told apart.
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
  const [from, to] = [unityOf(before), unityOf(after)];
  if (!from || !to) return [];
  const named = [...new Set([...from.keys(), ...to.keys()])].sort(byPlace);
  const squares = new Map<UnityOxide, number>();
  for (const unknown of unknownsOf([...before.lines, ...after.lines])) {
    const [up, down] = [unknown.plusMinus, unknown.plusMinus.neg()].map((by) => ({
      before: unityOf(moved(before, unknown, by)),
      after: unityOf(moved(after, unknown, by)),
    }));
    for (const oxide of named) {
      const half = (gap(up, oxide) - gap(down, oxide)) / 2;
      squares.set(oxide, (squares.get(oxide) ?? 0) + half * half);
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

type Unity = ReadonlyMap<UnityOxide, number>;
type Pair = { before: Unity | undefined; after: Unity | undefined } | undefined;

const gap = (pair: Pair, oxide: UnityOxide): number =>
  (pair?.after?.get(oxide) ?? 0) - (pair?.before?.get(oxide) ?? 0);

function unityOf(request: ChemistryRequest): Unity | undefined {
  const { unity } = workOut({
    ...request,
    explain: false,
    grams: undefined,
    scaleGrams: undefined,
  });
  if (unity === null) return undefined;
  return new Map(Object.entries(unity).map(([oxide, { value }]) => [oxide as UnityOxide, value]));
}

const places: readonly string[] = oxides;

const byPlace = (a: UnityOxide, b: UnityOxide): number => places.indexOf(a) - places.indexOf(b);
