import { DustCaution } from "../parts/cautions.tsx";
import { FaultSummary, faultAt, idOfField, TextArea } from "../parts/field.tsx";
import { Choices } from "./choices.tsx";
import { ReplacedRecipe } from "./recipe.tsx";
import { type ReplacementPageProps, replacementHref, type ShownReplaced } from "./types.ts";

/** What becomes of the recipes that a material is in, when it ends or comes with another analysis. */
export const ReplacementPage = (props: ReplacementPageProps) => {
  const { material, choices, items, next, mayAct, faults } = props;
  const { reason, most } = choices.asked;
  const can = items.some(({ weighed }) => weighed);
  const recipes = items.map((item) => (
    <ReplacedRecipe
      item={item}
      most={most}
      tick={mayAct ? { checked: isTicked(props, item), id: idOfBox(props, item) } : undefined}
    />
  ));
  return (
    <article id="replacement">
      <h1>{material.name}: what stands in for it</h1>
      <p>
        {reason === "ends"
          ? `Every recipe with ${material.name} in it, restated without it: the same unity formula from what there is, or the nearest to it.`
          : `Every recipe that is pinned to another analysis of ${material.name}, restated for this one: ${analysisWords(choices.analysis)}.`}{" "}
        <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
      </p>
      <p class="caution">
        A restated glaze is a new tile. What was fired, tested and approved of a recipe counts for
        the revision that it was done with, which keeps it, and for nothing that is published here.
      </p>
      <FaultSummary faults={faults} />
      <Choices {...props} />
      {items.length === 0 ? <p>{nothing(props)}</p> : null}
      {mayAct && can ? (
        <form method="post" action={replacementHref(material.slug)} id={idOfField("recipes")}>
          <Hidden {...props} />
          {recipes}
          <Acting {...props} />
        </form>
      ) : (
        recipes
      )}
      {!mayAct && can ? (
        <p>A manager can publish these, and the reviewers are asked to look at each.</p>
      ) : null}
      {next ? (
        <p>
          <a class="button" href={`${replacementHref(material.slug)}${next}`} rel="next">
            More recipes
          </a>
        </p>
      ) : null}
      <DustCaution />
    </article>
  );
};

/** As somebody left it; at first what is as good as the same, and nothing that is another glaze. */
const isTicked = ({ ticked }: ReplacementPageProps, { recipe, is, beside }: ShownReplaced) =>
  ticked ? ticked.includes(recipe.slug) : is === "exact" || beside?.toldApart.length === 0;

/** The place that it had among those that were sent. */
const idOfBox = ({ ticked = [] }: ReplacementPageProps, { recipe }: ShownReplaced) =>
  ticked.includes(recipe.slug) ? idOfField(`recipes.${ticked.indexOf(recipe.slug)}`) : undefined;

const analysisWords = (analysis: ReplacementPageProps["choices"]["analysis"]): string =>
  analysis?.measuredOn ? `${analysis.source}, ${analysis.measuredOn}` : (analysis?.source ?? "");

const nothing = ({ material, choices }: ReplacementPageProps): string =>
  choices.asked.reason === "ends"
    ? `No recipe that you may see has ${material.name} in its newest revision.`
    : `No recipe that you may see is pinned to another analysis of ${material.name}.`;

/** What was chosen, sent along as it was. */
const Hidden = ({ choices: { asked }, idempotencyKey }: ReplacementPageProps) => (
  <>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <input type="hidden" name="reason" value={asked.reason} />
    <input type="hidden" name="most" value={String(asked.most)} />
    {asked.analysis ? <input type="hidden" name="analysis" value={asked.analysis} /> : null}
    {asked.after ? <input type="hidden" name="after" value={asked.after} /> : null}
    {asked.with.map((slug) => (
      <input type="hidden" name="with" value={slug} />
    ))}
  </>
);

const Acting = ({ material, choices, message, faults }: ReplacementPageProps) => (
  <section class="screen-only">
    <h2>Publish them</h2>
    {choices.analysis && !choices.analysis.inUse ? (
      <p>
        New revisions pin the analysis in use, and this one is not.{" "}
        <a href={`/materials/${material.slug}/analysis-in-use?analysis=${choices.analysis.id}`}>
          Put it in use first
        </a>
        .
      </p>
    ) : (
      <>
        <p>
          Each ticked recipe gets its next revision, in review: all of them, or none where somebody
          revised one meanwhile. Earlier revisions stay as they are.
        </p>
        <TextArea
          label="What else to say"
          name="message"
          value={message}
          fault={faultAt(faults, "message")}
          hint="Each message says by itself which powder went and what stands in."
          rows={2}
          maxlength={300}
        />
        <div class="buttons">
          <button type="submit" class="main">
            Publish what is ticked, for review
          </button>
        </div>
      </>
    )}
  </section>
);
