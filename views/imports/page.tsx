import { type Fault, FaultSummary, faultAt, TextArea } from "../parts/field.tsx";
import { DayOf } from "../tiles/day.tsx";
import type { Brings } from "./types.ts";
import { bringsWords } from "./words.ts";

type ImportPageProps = {
  id: string;
  fileName: string;
  by: { name: string };
  at: Date;
  brought: Brings;
  takenBack: { why: string; at: Date; by: string } | null;
  recipes: readonly {
    slug: string;
    name: string;
    withdrawn: boolean;
    since: readonly string[];
  }[];
  materials: readonly { slug: string; name: string; offered: boolean }[];
  analyses: readonly { slug: string; material: string; source: string; inUse: boolean }[];
  notes: readonly { id: string; slug: string; recipe: string; text: string | null }[];
  faults: readonly Fault[];
  typed: Record<string, unknown>;
};

/** What one import brought and what became of it; and the way to take it back as one. */
export const ImportPage = (props: ImportPageProps) => {
  const { fileName, by, at, brought, takenBack, recipes, materials, analyses, notes } = props;
  return (
    <section>
      <h1>Import of {fileName || "a file"}</h1>
      <p>
        Taken in by {by.name}, <DayOf at={at} />. It brought {bringsWords(brought)}.
      </p>
      {takenBack ? (
        <p>
          <strong>Taken back</strong> by {takenBack.by}, <DayOf at={takenBack.at} />:{" "}
          {takenBack.why} What it brought stays on record and counts no more.
        </p>
      ) : null}
      {recipes.length > 0 ? (
        <>
          <h2>Recipes</h2>
          <ul>
            {recipes.map(({ slug, name, withdrawn, since }) => (
              <li>
                <a href={`/recipes/${slug}`}>{name}</a>
                {withdrawn ? ", withdrawn" : ""}
                {since.length > 0 ? `; since then ${since.join(", ")}` : ""}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {materials.length > 0 ? (
        <>
          <h2>Materials</h2>
          <ul>
            {materials.map(({ slug, name, offered }) => (
              <li>
                <a href={`/materials/${slug}`}>{name}</a>
                {offered ? "" : ", offered to nobody any more"}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {analyses.length > 0 ? (
        <>
          <h2>Analyses</h2>
          <ul>
            {analyses.map(({ slug, material, source, inUse }) => (
              <li>
                <a href={`/materials/${slug}`}>{material}</a>: {source}
                {inUse ? ", in use" : ""}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      {notes.length > 0 ? (
        <>
          <h2>Quoted notes</h2>
          <details>
            <summary>{notes.length === 1 ? "One note" : `${notes.length} notes`}</summary>
            <ul>
              {notes.map(({ id, recipe, text }) => (
                <li>
                  <a href={`/notes/${id}`}>On {recipe}</a>: {text ?? "removed"}
                </li>
              ))}
            </ul>
          </details>
        </>
      ) : null}
      {takenBack ? null : <TakingBack {...props} />}
      <p>
        <a href="/imports">All imports</a>
      </p>
    </section>
  );
};

const TakingBack = ({ id, recipes, faults, typed }: ImportPageProps) => {
  const changed = recipes.filter(({ withdrawn, since }) => !withdrawn && since.length > 0);
  return (
    <section>
      <h2>Take it back</h2>
      <p>
        Every recipe that it brought is withdrawn with your words, its analyses are not put in use
        any more, and its new materials are offered to nobody where nothing else has come to use
        them. All of it stays on record.
      </p>
      <FaultSummary faults={faults} />
      <form method="post" action={`/imports/${id}/withdrawal`}>
        <TextArea
          label="Why"
          name="why"
          value={typeof typed.why === "string" ? typed.why : ""}
          fault={faultAt(faults, "why")}
          rows={3}
          maxlength={1000}
          required
        />
        {changed.length > 0 ? (
          <fieldset id="field-anyway" tabindex={-1}>
            <legend>
              Somebody went on with {changed.map(({ name }) => name).join(", ")}: what about these?
            </legend>
            <label>
              <input type="radio" name="anyway" value="false" checked={typed.anyway === "false"} />
              Leave them as they are
            </label>
            <label>
              <input type="radio" name="anyway" value="true" checked={typed.anyway === "true"} />
              Withdraw them too
            </label>
          </fieldset>
        ) : null}
        <p class="actions">
          <button type="submit">Take the import back</button>
        </p>
      </form>
    </section>
  );
};
