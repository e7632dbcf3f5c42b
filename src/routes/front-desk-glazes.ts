import type { ShownGlaze } from "../../views/start/types.ts";
import type { Cone } from "../chem/cones.ts";
import type { Stocked } from "../db/bucket-stock.ts";
import type { Db } from "../db/client.ts";
import { type ApprovedGlaze, isUsable } from "../db/front-desk.ts";
import { findTilesOn, firedAs } from "../db/front-desk-tiles.ts";
import type { Reader } from "../db/recipes.ts";

type Wanted = {
  /** For such a piece at that cone. */
  approved: readonly ApprovedGlaze[];
  /** null where the reader is not told of buckets. */
  stock: readonly Stocked[] | null;
  food: boolean;
  cone: Cone;
  body: string | undefined;
  reader: Reader;
};

type Chosen = {
  inStock: ShownGlaze[] | null;
  /** Of each recipe with nothing in stock its newest revision that is approved for this. */
  others: ShownGlaze[];
  /** The ids of all their recipes. */
  shown: string[];
};

/** The approved glazes that are in stock, and those that are not. */
export async function chooseGlazes(db: Db, wanted: Wanted): Promise<Chosen> {
  const { approved, stock, food, cone, body, reader } = wanted;
  const usable = (glaze: ApprovedGlaze) =>
    bucketsOf(glaze, stock).filter((stocked) => isUsable(stocked, food));
  const stocked = approved.filter((glaze) => usable(glaze).length > 0);
  const inStock = new Set(stocked.map(({ recipeId }) => recipeId));
  const newest = new Map(approved.toReversed().map((glaze) => [glaze.recipeId, glaze]));
  const others = approved.filter(
    (glaze) => !inStock.has(glaze.recipeId) && newest.get(glaze.recipeId) === glaze,
  );
  const melts = [...stocked, ...others].map(({ melt }) => melt);
  const tiles = await findTilesOn(db, { melts, reader, cone, body });
  const show = (glaze: ApprovedGlaze): ShownGlaze => {
    const { recipeId: _, melt: __, ...told } = glaze;
    const { shown = null, tested = [] } = tiles.get(firedAs(glaze)) ?? {};
    const inUse = usable(glaze);
    const others = bucketsOf(glaze, stock).filter((stocked) => !inUse.includes(stocked));
    return {
      ...told,
      tested,
      tile: shown,
      buckets: inUse.map(({ bucket, litres }) => ({ id: bucket.id, name: bucket.name, litres })),
      notNow: others.map(whyNot),
    };
  };
  return {
    inStock: stock && bestFirst(stocked.map(show)),
    others: bestFirst(others.map(show)),
    shown: [...stocked, ...others].map(({ recipeId }) => recipeId),
  };
}

const bucketsOf = (glaze: ApprovedGlaze, stock: Wanted["stock"]): Stocked[] =>
  (stock ?? []).filter(
    ({ bucket }) => bucket.recipe.slug === glaze.slug && bucket.number === glaze.number,
  );

const whyNot = ({ bucket }: Stocked): string =>
  `${bucket.name}: ${bucket.mayUse.because[0] ?? "not to be used for this."}`;

/** Those with a picture on the body that was asked for come first, as they were ordered before. */
const bestFirst = (glazes: ShownGlaze[]): ShownGlaze[] => {
  const has = ({ tile }: ShownGlaze) => Number(Boolean(tile?.onBody && tile.picture));
  return glazes.toSorted((a, b) => has(b) - has(a));
};
