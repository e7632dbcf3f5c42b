import { OfferList } from "../offers/list.tsx";
import type { ShownOffer } from "../offers/types.ts";
import type { ShownRecipe, ShownRevision } from "./types.ts";

type LineageProps = {
  recipe: ShownRecipe;
  revision: ShownRevision;
  forks: readonly { slug: string; name: string; number: number; owner: { name: string } }[];
  mayFork: boolean;
  /** Made to it, and those in which it was offered itself. */
  offers: readonly ShownOffer[];
  /** Whether the reader may offer this revision back to where it came from. */
  mayOffer: boolean;
  /** The point of a trial that it was. */
  trial: { id: string; name: string; n: number } | null;
  /** Those that start from it. */
  trialsOn: readonly { id: string; name: string }[];
};

/** Where a recipe comes from, what came of it, and the way to take it further. */
export const Lineage = ({
  recipe,
  revision,
  forks,
  mayFork,
  offers,
  mayOffer,
  trial,
  trialsOn,
}: LineageProps) => (
  <section id="lineage">
    <h2>Where it comes from</h2>
    <p>
      Revision {revision.number} by {revision.author.name}
      {revision.coauthors.length > 0
        ? ` with ${revision.coauthors.map(({ name }) => name).join(" and ")}`
        : null}
      ,{" "}
      <time datetime={revision.publishedAt.toISOString()}>
        {revision.publishedAt.toISOString().slice(0, 10)}
      </time>
      {revision.message ? `: ${revision.message}` : "."}
    </p>
    {recipe.forkedFrom ? (
      <p>
        A fork of{" "}
        <a href={`/recipes/${recipe.forkedFrom.slug}/revisions/${recipe.forkedFrom.number}`}>
          {recipe.forkedFrom.name}, revision {recipe.forkedFrom.number}
        </a>
        .{" "}
        <a
          href={`/compare?left=${recipe.forkedFrom.slug}@${recipe.forkedFrom.number}&right=${recipe.slug}@${revision.number}`}
        >
          Compare with where it came from
        </a>
      </p>
    ) : null}
    {trial ? (
      <p>
        It was{" "}
        <a href={`/trials/${trial.id}/points/${trial.n}`}>
          point {trial.n} of the trial {trial.name}
        </a>
        . What was seen there does not count for it: it needs tiles of its own.
      </p>
    ) : null}
    {trialsOn.length > 0 ? (
      <>
        <h3>Trials that start from it</h3>
        <ul>
          {trialsOn.map(({ id, name }) => (
            <li>
              <a href={`/trials/${id}`}>{name}</a>
            </li>
          ))}
        </ul>
      </>
    ) : null}
    {forks.length > 0 ? (
      <>
        <h3>Forks of it</h3>
        <ul>
          {forks.map((fork) => (
            <li>
              <a href={`/recipes/${fork.slug}`}>{fork.name}</a> by {fork.owner.name}, from revision{" "}
              {fork.number}
            </li>
          ))}
        </ul>
      </>
    ) : null}
    <OfferList offers={offers} slug={recipe.slug} />
    <p class="actions">
      <a class="button" href={`/recipes/${recipe.slug}/revisions`}>
        All {recipe.head === 1 ? "" : recipe.head} revisions
      </a>{" "}
      <a class="button" href={`/recipes/${recipe.slug}/history`}>
        What became of it
      </a>{" "}
      {recipe.mayRevise ? (
        <a class="button" href={`/recipes/${recipe.slug}/revisions/new`}>
          Revise it
        </a>
      ) : null}{" "}
      {mayFork ? (
        <a class="button" href={`/recipes/${recipe.slug}/forks/new?revision=${revision.number}`}>
          Fork it
        </a>
      ) : null}{" "}
      <a class="button quiet" href={`/compare?left=${recipe.slug}@${revision.number}`}>
        Compare it with another
      </a>{" "}
      <a class="button quiet" href={`/restate?recipe=${recipe.slug}@${revision.number}`}>
        Restate it from your shelf
      </a>{" "}
      <a
        class="button quiet"
        href={`/recipes/${recipe.slug}/moves${recipe.head === revision.number ? "" : `?revision=${revision.number}`}`}
      >
        Move an oxide
      </a>{" "}
      <a
        class="button quiet"
        href={`/recipes/${recipe.slug}/nearest${recipe.head === revision.number ? "" : `?revision=${revision.number}`}`}
      >
        Nearest in chemistry
      </a>{" "}
      {mayOffer && recipe.forkedFrom ? (
        <a
          class="button"
          href={`/recipes/${recipe.forkedFrom.slug}/offers/new?from=${recipe.slug}@${revision.number}`}
        >
          Offer it back to {recipe.forkedFrom.name}
        </a>
      ) : null}
    </p>
  </section>
);
