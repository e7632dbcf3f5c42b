import { type WeightUnit, weightUnits } from "../../src/chem/batch-amounts.ts";
import type { Use as UseIs } from "../../src/chem/chemistry-types.ts";
import { Cautions, DustCaution } from "../parts/cautions.tsx";
import { Choice, type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import { hazards } from "../parts/hazard-words.ts";
import { pageReading } from "../parts/reading.ts";
import { Standing, type StandingIs, Use } from "../parts/standing.tsx";
import { BatchWeights, type ShownSheet } from "./batch-weights.tsx";

type BatchSheetProps = {
  recipe: { slug: string; name: string };
  revision: {
    number: number;
    use: UseIs;
    lines: readonly { material: { slug: string; name: string; hazards: readonly string[] } }[];
  };
  standing: { is: StandingIs; for: UseIs | null };
  typed: Readonly<Record<string, string | undefined>>;
  faults: readonly Fault[];
  sheet: ShownSheet | undefined;
  /** What the studio's bucket of this revision says; undefined where there is none. */
  directions?: { sieve: string; stirring: string; keepsMonths: number | null } | undefined;
};

const unitWords: Readonly<Record<WeightUnit, string>> = {
  g: "grams",
  kg: "kilograms",
  lb: "pounds",
};

/** What to weigh for one batch, on one page, to read at arm's length and to tick by hand. */
export const BatchSheetPage = (props: BatchSheetProps) => {
  const { recipe, revision, standing, sheet, directions } = props;
  const approved = standing.is === "approved" ? (standing.for ?? undefined) : undefined;
  return (
    <article class="batch-sheet">
      <h1>{recipe.name}</h1>
      <p>
        <a href={`/recipes/${recipe.slug}/revisions/${revision.number}`}>
          Revision {revision.number}
        </a>{" "}
        <Standing is={standing.is} for={approved} /> <Use use={approved ?? revision.use} />
      </p>
      <Size {...props} />
      <section class="before-weighing">
        <h2>Before you open a bag</h2>
        <Handling revision={revision} />
      </section>
      {sheet ? <BatchWeights sheet={sheet} /> : null}
      <section>
        <h2>Afterwards</h2>
        <ul>
          <li>
            {directions?.sieve
              ? `Sieve: ${directions.sieve}.`
              : "Sieve it, through 80 to 100 mesh unless the recipe says otherwise."}
          </li>
          <li>
            {directions?.stirring ? `Stir: ${directions.stirring}.` : "Stir from the bottom up."}
          </li>
          <li>
            {directions?.keepsMonths
              ? `It keeps for ${directions.keepsMonths} months: write the day on the bucket.`
              : "Gums rot and crystals settle out in time: write the day on the bucket."}
          </li>
          <li>Wash water and what is left over are collected, never poured down the drain.</li>
        </ul>
      </section>
    </article>
  );
};

const Handling = ({ revision }: Pick<BatchSheetProps, "revision">) => {
  const known = new Set(revision.lines.flatMap(({ material }) => material.hazards));
  const named = hazards.filter((hazard) => known.has(hazard));
  return (
    <>
      {known.has("dust") ? null : <DustCaution />}
      <Cautions hazards={named} />
    </>
  );
};

const Size = ({ recipe, revision, typed, faults }: BatchSheetProps) => (
  <form class="screen-only" method="get" action={`/recipes/${recipe.slug}/batch`}>
    <FaultSummary faults={faults} />
    <input type="hidden" name="revision" value={String(revision.number)} />
    <fieldset>
      <legend>How much? One of the three.</legend>
      <Field
        label="Base to weigh"
        name="amount"
        value={typed.amount}
        fault={faultAt(faults, "amount")}
        hint="Additions come on top."
        inputmode="decimal"
      />
      <Choice
        label="In"
        name="unit"
        value={typed.unit ?? (typed.amount ? "g" : pageReading().weight)}
        options={weightUnits.map((unit) => ({ value: unit, label: unitWords[unit] }))}
      />
      <Field
        label="Or a bucket to fill"
        name="litres"
        value={typed.litres}
        fault={faultAt(faults, "litres")}
        inputmode="decimal"
        unit="litres"
      />
      <Field
        label="Specific gravity of it"
        name="gravity"
        value={typed.gravity}
        fault={faultAt(faults, "gravity")}
        hint="Kilograms of one litre, as in 1.45."
        inputmode="decimal"
      />
      <Choice
        label="Or use up"
        name="powder"
        value={typed.powder ?? ""}
        options={[{ value: "", label: "nothing in particular" }, ...powdersOf(revision)]}
      />
      <Field
        label="Of which there are"
        name="have"
        value={typed.have}
        fault={faultAt(faults, "have") ?? faultAt(faults, "powder")}
        inputmode="decimal"
        unit="g"
      />
    </fieldset>
    <Field
      label="Scale shows steps of"
      name="scaleGrams"
      value={typed.scaleGrams}
      fault={faultAt(faults, "scaleGrams")}
      inputmode="decimal"
      unit="g"
    />
    <p class="actions">
      <button type="submit">Weigh this much</button>{" "}
      <button type="button" class="quiet" data-print hidden>
        Print this page
      </button>
    </p>
  </form>
);

const powdersOf = ({ lines }: BatchSheetProps["revision"]) =>
  [...new Map(lines.map(({ material }) => [material.slug, material.name]))].map(
    ([value, label]) => ({ value, label }),
  );
