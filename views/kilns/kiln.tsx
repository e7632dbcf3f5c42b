import { KilnPages } from "../firings/kiln-pages.tsx";
import { FiringRows } from "../firings/rows.tsx";
import type { Firing } from "../firings/types.ts";
import { KilnCaution } from "../parts/cautions.tsx";
import { When } from "../people/when.tsx";

type KilnPageProps = {
  kiln: { slug: string; name: string; about: string; addedBy: { name: string }; addedAt: Date };
  firings: readonly Firing[];
  /** Where the next page of its firings is, or null on the last. */
  next: string | null;
  /** Whether the reader belongs to the studio. */
  mayAdd: boolean;
};

/** A kiln and what was fired in it, newest first. */
export const KilnPage = ({ kiln, firings, next, mayAdd }: KilnPageProps) => (
  <article id="kiln">
    <h1>{kiln.name}</h1>
    <KilnPages here="/kilns" />
    {kiln.about === "" ? null : <p class="about">{kiln.about}</p>}
    <p class="note-by">
      Put on record by {kiln.addedBy.name}, <When at={kiln.addedAt} />.
    </p>
    <h2>Its firings</h2>
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href={`/firings/new?kiln=${kiln.slug}`}>
          Put a firing of it on record
        </a>
      </p>
    ) : null}
    <FiringRows firings={firings} next={next} />
    <KilnCaution />
  </article>
);
