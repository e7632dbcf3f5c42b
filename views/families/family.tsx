import type { Cone } from "../../src/chem/cones.ts";
import { OpenHandouts, type ShownOpenHandout } from "../handouts/open-links.tsx";
import { type Fault, FaultSummary, Field } from "../parts/field.tsx";
import { Standing, type StandingIs, Use, type UseIs } from "../parts/standing.tsx";
import { claimWords } from "../tiles/cone-words.ts";
import { type CoverageRow, CoverageTable } from "./coverage.tsx";
import { leftOutWords, shelfWords } from "./words.ts";

type Material = { material: string; name: string };

export type Family = {
  slug: string;
  name: string;
  intro: string;
  addedBy: { name: string };
  recipes: readonly {
    slug: string;
    name: string;
    owner: { name: string };
    number: number;
    use: UseIs;
    cones: { low: Cone; high: Cone };
    surface: string;
    standing: { is: StandingIs; for: UseIs | null };
  }[];
  leftOut: number;
  shelf: readonly Material[];
  coverage: readonly CoverageRow[];
  shopping: {
    testGrams: string;
    bucketKilograms: string;
    lines: readonly (Material & { testGrams: string; bucketGrams: string })[];
  };
  noLongerSold: readonly Material[];
};

type FamilyPageProps = {
  family: Family;
  faults: readonly Fault[];
  mayChange: boolean;
  /** Links to its handouts, for who may end them. */
  handouts?: readonly ShownOpenHandout[] | undefined;
};

/** A family: what its recipes are, what they share, and what to buy for all of them. */
export const FamilyPage = ({ family, faults, mayChange, handouts = [] }: FamilyPageProps) => (
  <article id="family">
    <h1>{family.name}</h1>
    <p class="recipe-by">Written up by {family.addedBy.name}</p>
    {family.intro === "" ? null : <p class="about">{family.intro}</p>}
    <p class="actions">
      {family.recipes.length > 0 ? (
        <a class="button quiet" href={`/families/${family.slug}/handout`}>
          Handout
        </a>
      ) : null}{" "}
      {mayChange ? (
        <a class="button quiet" href={`/families/${family.slug}/edit`}>
          Change this family
        </a>
      ) : null}
    </p>
    <NoLongerSold materials={family.noLongerSold} />
    <Recipes family={family} />
    {family.recipes.length === 0 ? null : (
      <>
        <h2>Which material is in which</h2>
        <p>{shelfWords(family.recipes.length, family.shelf.length)}. Percent of each base.</p>
        <CoverageTable rows={family.coverage} recipes={family.recipes} />
        <Shopping family={family} faults={faults} />
      </>
    )}
    <OpenHandouts links={handouts} />
    <p class="actions">
      <a href="/families">All families</a>
    </p>
  </article>
);

const NoLongerSold = ({ materials }: { materials: readonly Material[] }) =>
  materials.length === 0 ? null : (
    <p class="coarse">
      <strong>No longer sold: </strong>
      {materials.map(({ material, name }, at) => (
        <>
          {at > 0 ? ", " : ""}
          <a href={`/materials/${material}`}>{name}</a>
        </>
      ))}
      . What is left of it is all there is; its page says what takes its place.
    </p>
  );

const Recipes = ({ family }: { family: Family }) => (
  <>
    <h2>Recipes</h2>
    {family.recipes.length === 0 ? null : (
      <ul class="family-recipes">
        {family.recipes.map(({ slug, name, owner, number, use, cones, surface, standing }) => (
          <li>
            <a class="kiln-link" href={`/recipes/${slug}`}>
              {name}
            </a>
            <span class="strip-maker">
              {owner.name}, revision {number}
            </span>
            <span class="family-standing">
              <Standing
                is={standing.is}
                for={standing.is === "approved" ? (standing.for ?? undefined) : undefined}
              />{" "}
              <Use use={use} />
            </span>
            <span>{[claimWords(cones), surface].filter((words) => words !== "").join(", ")}</span>
          </li>
        ))}
      </ul>
    )}
    {family.leftOut > 0 ? <p>{leftOutWords(family.leftOut)}</p> : null}
  </>
);

const Shopping = ({ family, faults }: Pick<FamilyPageProps, "family" | "faults">) => {
  const { lines, testGrams, bucketKilograms } = family.shopping;
  return (
    <section id="shopping">
      <h2>What to buy for all of them</h2>
      <FaultSummary faults={faults} />
      <form class="batch-size" method="get" action={`/families/${family.slug}#shopping`}>
        <Field
          label="A bucket of each"
          name="kg"
          value={bucketKilograms}
          inputmode="decimal"
          unit="kg of dry base"
          fault={faults.find(({ path }) => path === "kg")?.says}
        />
        <button type="submit" class="quiet">
          Work it out
        </button>
      </form>
      <p class="screen-only">
        People of the studio find the cheapest packs for what is planned under{" "}
        <a href="/shopping">what to buy</a>.
      </p>
      <table class="lines">
        <caption>Grams of each material, additions and all, rounded up</caption>
        <thead>
          <tr>
            <th scope="col">Material</th>
            <th scope="col" class="number">
              {testGrams} g test of each
            </th>
            <th scope="col" class="number">
              {bucketKilograms} kg of each
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ material, name, testGrams: test, bucketGrams }) => (
            <tr>
              <th scope="row">
                <a href={`/materials/${material}`}>{name}</a>
              </th>
              <td class="number">{test} g</td>
              <td class="number">{bucketGrams} g</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
};
