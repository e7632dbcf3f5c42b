import { DayOf } from "../tiles/day.tsx";
import type { ShownOffer } from "./types.ts";

type OfferListProps = {
  offers: readonly ShownOffer[];
  /** The recipe on whose page they stand. */
  slug: string;
};

/** What was offered back to a recipe, and where it was offered itself, with what came of each. */
export const OfferList = (props: OfferListProps) =>
  props.offers.length === 0 ? null : (
    <>
      <h3>Offers</h3>
      <Listed {...props} />
    </>
  );

const Listed = ({ offers, slug }: OfferListProps) => (
  <ul class="notes offers">
    {offers.map((offer) => (
      <li class="note">
        <p>
          <a href={`/offers/${offer.id}`}>
            {offer.recipe.slug === slug
              ? `${offer.from.name}, revision ${offer.from.number}, offered to it`
              : `Revision ${offer.from.number} offered back to ${offer.recipe.name}`}
          </a>{" "}
          by {offer.by.name}, <DayOf at={offer.at} />: {offer.why}
        </p>
        <OfferState offer={offer} />
      </li>
    ))}
  </ul>
);

/** What came of an offer; nobody's answer is an answer too. */
export const OfferState = ({ offer: { answer, recipe } }: { offer: ShownOffer }) => {
  if (!answer) return <p>Open: nobody has answered it yet.</p>;
  const { accepted, by, at, why, revision } = answer;
  return (
    <p>
      {accepted ? (
        <>
          <strong>Taken in</strong> by {by.name}, <DayOf at={at} />, as{" "}
          <a href={`/recipes/${recipe.slug}/revisions/${revision}`}>revision {revision}</a>
        </>
      ) : (
        <>
          <strong>Declined</strong> by {by.name}, <DayOf at={at} />
        </>
      )}
      {why === "" ? "." : `: ${why}`}
    </p>
  );
};

type OffersPageProps = { recipe: { slug: string; name: string }; offers: readonly ShownOffer[] };

/** Everything that was ever offered back to a recipe. */
export const OffersPage = ({ recipe, offers }: OffersPageProps) => (
  <section>
    <h1>Offers to {recipe.name}</h1>
    <p>
      Who forked it can offer a revision of theirs back. Its owner or a manager takes it in or says
      why not.
    </p>
    {offers.length === 0 ? (
      <p>Nothing was offered to it yet.</p>
    ) : (
      <Listed offers={offers} slug={recipe.slug} />
    )}
    <p>
      <a href={`/recipes/${recipe.slug}#lineage`}>Back to {recipe.name}</a>
    </p>
  </section>
);
