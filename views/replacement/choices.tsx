import { Choice, Field } from "../parts/field.tsx";
import { type ReplacementPageProps, replacementHref } from "./types.ts";

type ChoicesProps = Pick<ReplacementPageProps, "material" | "analyses" | "shelf" | "choices">;

/** Why, from what, and how many new powders a recipe may get. */
export const Choices = ({ material, analyses, shelf, choices }: ChoicesProps) => {
  const { asked, offered, analysis } = choices;
  const isOffered = (slug: string) => offered.some((powder) => powder.slug === slug);
  return (
    <form class="sheet screen-only" method="get" action={replacementHref(material.slug)}>
      <Choice
        label="Why"
        name="reason"
        value={asked.reason}
        options={[
          { value: "ends", label: `${material.name} is not to be had any more` },
          { value: "lot", label: `${material.name} comes with another analysis` },
        ]}
      />
      <Choice
        label="The other analysis"
        name="analysis"
        value={asked.analysis ?? analysis?.id ?? ""}
        options={[
          { value: "", label: "the one in use" },
          ...analyses.map(({ id, source, measuredOn, is }) => ({
            value: id,
            label: `${measuredOn ? `${source}, ${measuredOn}` : source} (${is})`,
          })),
        ]}
        hint="Counts only where it comes with another analysis."
      />
      <Field
        label="New powders in a recipe, at most"
        name="most"
        value={String(asked.most)}
        hint="Few are easier to keep; more come nearer."
        inputmode="numeric"
        autocomplete="off"
      />
      <details>
        <summary>What may stand in: {offeredWords(offered.length)}</summary>
        <fieldset class="firing-units">
          <legend>Powders that a recipe may get</legend>
          {shelf.map(({ slug, name, stillSold }) => (
            <label>
              <input type="checkbox" name="with" value={slug} checked={isOffered(slug)} />
              {name}
              {stillSold ? "" : " (no longer sold)"}
            </label>
          ))}
        </fieldset>
        <p>
          A recipe keeps its other powders as well. With nothing ticked it is all that are still
          sold, or for another analysis none.
        </p>
      </details>
      <div class="buttons">
        <button type="submit">Look again</button>
      </div>
    </form>
  );
};

const offeredWords = (count: number): string =>
  count === 0 ? "nothing new" : count === 1 ? "one powder" : `${count} powders`;
