import { cones as everyCone } from "../../src/chem/cones.ts";
import { ConeRuler, stretchOf } from "../charts/cone-ruler.tsx";
import { Standing, type StandingIs, Use, type UseIs } from "./standing.tsx";

/** One recipe as every list shows it. `inStock` says in words what the studio has of it. */
export type RecipeStrip = {
  slug: string;
  name: string;
  maker: string;
  picture: { sha256: string; alt: string } | undefined;
  standing: StandingIs;
  /** The newest approved revision, where there is one. */
  approved?: { number: number; for: UseIs } | null | undefined;
  use: UseIs;
  cones: { low: string; high: string };
  tested: readonly string[];
  surface: string;
  atmosphere: string;
  revision: number;
  inStock?: string | undefined;
  /** Where its name leads, where that is not to the recipe's head. */
  href?: string | undefined;
  /** Said under its maker. */
  note?: string | undefined;
};

type RecipeStripsProps = { recipes: readonly RecipeStrip[]; caption: string };

// On a narrow screen the rows are laid out as grids, and browsers then forget that this is a
// table; the roles written out keep it one.
const as = {
  table: { role: "table" },
  group: { role: "rowgroup" },
  row: { role: "row" },
  columnHead: { role: "columnheader" },
  rowHead: { role: "rowheader" },
  cell: { role: "cell" },
} as const;

/**
 * The table of recipes that every list is made of: picture, name and maker, standing and use,
 * cones, surface and atmosphere, and stock where any is told.
 */
export const RecipeStrips = ({ recipes, caption }: RecipeStripsProps) => {
  const cones = rulerFor(recipes);
  const stocked = recipes.some((recipe) => recipe.inStock !== undefined);
  return (
    <table class="strips" {...as.table}>
      <caption>{caption}</caption>
      <thead class="strips-head" {...as.group}>
        <tr {...as.row}>
          {[...columns, ...(stocked ? ["In stock"] : [])].map((column) => (
            <th scope="col" {...as.columnHead}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody {...as.group}>
        {recipes.map((recipe) => (
          <Strip recipe={recipe} cones={cones} stocked={stocked} />
        ))}
      </tbody>
    </table>
  );
};

/** The stretch of cones that these recipes use, the same for every strip. */
const rulerFor = (recipes: readonly RecipeStrip[]): readonly string[] =>
  stretchOf(
    everyCone,
    recipes.flatMap(({ cones, tested }) => [cones.low, cones.high, ...tested]),
  );

const columns = ["Tile", "Glaze", "Standing and use", "Cones", "Surface and atmosphere"];

type StripProps = { recipe: RecipeStrip; cones: readonly string[]; stocked: boolean };

const Strip = ({ recipe, cones, stocked }: StripProps) => (
  <tr class="strip" {...as.row}>
    <td class="strip-tile" {...as.cell}>
      <TilePicture picture={recipe.picture} />
    </td>
    <th scope="row" class="strip-name" {...as.rowHead}>
      <a href={recipe.href ?? `/recipes/${encodeURIComponent(recipe.slug)}`}>{recipe.name}</a>
      <span class="strip-maker">
        {recipe.maker}, revision {recipe.revision}
      </span>
      {recipe.note ? <span class="strip-maker">{recipe.note}</span> : null}
    </th>
    <td class="strip-standing" {...as.cell}>
      <Standing
        is={recipe.standing}
        for={recipe.standing === "approved" ? recipe.approved?.for : undefined}
      />
      {recipe.approved && recipe.standing !== "approved" ? (
        <a href={`/recipes/${encodeURIComponent(recipe.slug)}/revisions/${recipe.approved.number}`}>
          revision {recipe.approved.number} is approved
        </a>
      ) : null}
      <Use use={useOf(recipe)} />
    </td>
    <td class="strip-cones" {...as.cell}>
      <ConeRuler claimed={recipe.cones} tested={recipe.tested} cones={cones} />
    </td>
    <td class="strip-surface" {...as.cell}>
      {recipe.surface}, {recipe.atmosphere}
    </td>
    {stocked ? (
      <td class="strip-stock" {...as.cell}>
        {recipe.inStock ?? "not known"}
      </td>
    ) : null}
  </tr>
);

/** What it may be used for now: what it was approved for, where that is less than it is meant for. */
const useOf = ({ standing, approved, use }: RecipeStrip): UseIs =>
  standing === "approved" ? (approved?.for ?? use) : use;

const TilePicture = ({ picture }: Pick<RecipeStrip, "picture">) =>
  picture ? (
    <img
      class="tile"
      src={`/photos/${picture.sha256}/200`}
      alt={picture.alt}
      width={72}
      height={72}
      loading="lazy"
    />
  ) : (
    <span class="tile tile-none">
      <span class="hidden-words">no picture</span>
    </span>
  );
