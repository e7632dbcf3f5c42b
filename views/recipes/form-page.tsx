import { DustCaution } from "../parts/cautions.tsx";
import { RecipeForm, type RecipeFormProps } from "./form.tsx";
import { LineTable } from "./lines.tsx";
import type { ShownRevision } from "./types.ts";

type RecipeFormPageProps = { title: string; form: RecipeFormProps };

export const RecipeFormPage = ({ title, form }: RecipeFormPageProps) => (
  <article id="sheet">
    <h1>{title}</h1>
    <RecipeForm {...form} />
    <DustCaution />
  </article>
);

type StaleRevisionProps = RecipeFormPageProps & {
  says: string;
  slug: string;
  head: ShownRevision;
  base: ShownRevision | undefined;
};

/** Two people revised at once: what the other published beside what was typed, which is all kept. */
export const StaleRevision = ({ title, says, slug, head, base, form }: StaleRevisionProps) => (
  <article id="sheet">
    <h1>{title}</h1>
    <div class="faults" role="alert" id="faults" tabindex={-1}>
      <h2>Somebody was first</h2>
      <p>{says}</p>
    </div>
    <div class="versions">
      <section>
        <h2>Revision {head.number}, there now</h2>
        <p>
          {head.author.name}: {head.message || "no message"}
        </p>
        <LineTable lines={head.lines} caption={`Lines of revision ${head.number}`} />
      </section>
      {base ? (
        <section>
          <h2>Revision {base.number}, which you began from</h2>
          <LineTable lines={base.lines} caption={`Lines of revision ${base.number}`} />
        </section>
      ) : null}
    </div>
    {base && base.number !== head.number ? (
      <p>
        <a href={`/compare?left=${slug}@${base.number}&right=${slug}@${head.number}`}>
          What revision {head.number} changed since revision {base.number}
        </a>
      </p>
    ) : null}
    <h2>Yours, as you typed it</h2>
    <RecipeForm {...form} />
  </article>
);
