import type { Chemistry, Conventions } from "../../src/chem/chemistry-types.ts";
import type { ShownOpenHandout } from "../handouts/open-links.tsx";
import type { ShownOffer } from "../offers/types.ts";
import { PairsOfRecipe } from "../pairs/of-recipe.tsx";
import type { ShownPair } from "../pairs/types.ts";
import { Cautions, DustCaution, FoodCaution } from "../parts/cautions.tsx";
import { ChemistryTables } from "../parts/chemistry.tsx";
import { ConventionChoices, type Counted, CountedBy } from "../parts/conventions.tsx";
import type { ShownFit } from "../parts/expansion-beside.tsx";
import { Findings } from "../parts/findings.tsx";
import { type Hazard, hazards } from "../parts/hazard-words.ts";
import { powderName } from "../parts/powder-name.tsx";
import { Use } from "../parts/standing.tsx";
import type { ShownReviewable } from "../reviews/form.tsx";
import {
  Reviews,
  type ShownReview,
  type ShownStanding,
  StandingWithReasons,
} from "../reviews/reviews.tsx";
import type { ShownLink } from "../shared/links.tsx";
import { TestList } from "../tests/list.tsx";
import type { ShownTest } from "../tests/types.ts";
import { type GalleryTile, TileGallery } from "../tiles/gallery.tsx";
import { Weighing } from "./batch.tsx";
import { HowToFire } from "./how-to-fire.tsx";
import { InStock, type ShownStock } from "./in-stock.tsx";
import { Keeping } from "./keeping.tsx";
import { Lineage } from "./lineage.tsx";
import { MugAnswer, type ShownApproved } from "./mug-answer.tsx";
import { News } from "./news.tsx";
import { Notes } from "./notes.tsx";
import { type ShownPowderChange, Today } from "./today.tsx";
import type { Batch, ShownNote, ShownRecipe, ShownRevision } from "./types.ts";

export type RecipePageProps = {
  recipe: ShownRecipe;
  revision: ShownRevision;
  standing: ShownStanding;
  /** The newest revision of the recipe that is approved now, this one or another. */
  approved: ShownApproved | null;
  /** null for a visitor. */
  stock: readonly ShownStock[] | null;
  reviews: readonly ShownReview[];
  reviewers: readonly { id: string; name: string; wroteEarlier: boolean }[];
  reviewable: ShownReviewable | null;
  tiles: readonly GalleryTile[];
  tests: readonly ShownTest[];
  fits: readonly ShownFit[];
  /** Where any of its revisions lies over or under another glaze. */
  pairs: readonly ShownPair[];
  notes: readonly ShownNote[];
  today: ShownPowderChange | null;
  forks: readonly { slug: string; name: string; number: number; owner: { name: string } }[];
  /** Links to its revisions that still work, for who may end them. */
  links: readonly ShownLink[];
  /** Handouts with a revision of it, for who may end them. */
  handouts: readonly ShownOpenHandout[];
  offers: readonly ShownOffer[];
  mayOffer: boolean;
  /** The point of a trial that it was. */
  trial: { id: string; name: string; n: number } | null;
  trialsOn: readonly { id: string; name: string }[];
  batch: Batch;
  viewer: { id: string; role: string } | undefined;
  /** As the reader asked for it: by which conventions, and with which batch's weighing. */
  chemistry: Chemistry;
  conventions: Conventions;
  counted: Counted;
  /** What was asked beside what is usual, for links that ask the same. */
  asked: Readonly<Record<string, string>>;
  idempotencyKey: string;
  /** The latest event that the page knows of. */
  since: number;
};

/** A recipe in the order of the questions that people ask of it. */
export const RecipePage = (props: RecipePageProps) => {
  const { recipe, revision, standing, tiles, batch, viewer } = props;
  const address = `/recipes/${recipe.slug}`;
  const isHead = revision.number === recipe.head;
  const warnings = warningsOf(props.chemistry);
  // What was approved as decorative is shown as that, whatever it is meant for.
  const use = (standing.is === "approved" && standing.for) || revision.use;
  const isAsked = Object.keys(props.asked).length > 0;
  // Settings alone open nothing: they are always there.
  const isOpen = props.counted.by === "address" || "grams" in props.asked;
  const here = isHead ? address : `${address}/revisions/${revision.number}`;
  return (
    <article class="recipe" data-kept-as={keptAs(props)}>
      <h1>{recipe.name}</h1>
      <p class="recipe-by">
        {recipe.owner.name}, revision {revision.number}
        {isHead ? null : (
          <>
            , not the newest: <a href={address}>revision {recipe.head}</a>
          </>
        )}
      </p>
      <section id="use">
        <h2>May I use it on a mug?</h2>
        <p class="answer">
          <MugAnswer
            recipe={recipe}
            revision={revision}
            standing={standing}
            approved={props.approved}
          />
        </p>
        <InStock stock={props.stock ?? []} />
        <Use use={use} long />
        <StandingWithReasons standing={standing} />
        {warnings.length > 0 ? <Findings findings={warnings} /> : null}
        <FoodCaution use={use} />
      </section>
      <section>
        <h2>What it looks like</h2>
        <TileGallery
          tiles={tiles}
          mayAdd={viewer !== undefined}
          here={{ slug: recipe.slug, number: revision.number }}
        />
      </section>
      <section id="tests">
        <h2>What was tested</h2>
        <TestList
          tests={props.tests}
          addAt={viewer ? `${address}/tests/new?revision=${revision.number}` : undefined}
          here={{ slug: recipe.slug, number: revision.number }}
        />
      </section>
      <section>
        <h2>What to weigh</h2>
        <Weighing slug={recipe.slug} revision={revision} batch={batch} action={here} />
        {viewer ? (
          <p class="screen-only">
            <a href={`${address}/cost?revision=${revision.number}`}>What it costs</a>
            {viewer.role === "manager" ? (
              <>
                , <a href={planHref(recipe.slug, revision.number)}>plan a batch</a>
              </>
            ) : null}
          </p>
        ) : null}
        {hazardsOf(revision).includes("dust") ? null : <DustCaution />}
        <Cautions hazards={hazardsOf(revision)} />
      </section>
      <HowToFire revision={revision} tiles={tiles} />
      <PairsOfRecipe
        recipe={recipe}
        number={revision.number}
        pairs={props.pairs}
        mayAdd={viewer !== undefined}
      />
      <section id="chemistry">
        <h2>What it is made of</h2>
        <details class="fold" open={isOpen}>
          <summary>The chemistry of revision {revision.number}</summary>
          <form class="conventions" method="get" action={`${here}#chemistry`}>
            <ConventionChoices conventions={props.conventions} />
            {"grams" in props.asked ? (
              <>
                <input type="hidden" name="grams" value={batch.grams} />
                <input type="hidden" name="scaleGrams" value={batch.scaleGrams} />
              </>
            ) : null}
            <button type="submit">Count it so</button>
          </form>
          <CountedBy {...props.counted} />
          <p>
            {"grams" in props.asked
              ? `Weighing ${batch.grams} g of base in steps of ${batch.scaleGrams} g counts in every ± here.`
              : "The ± is that of the analyses; weigh a batch above, and its weighing counts too."}
          </p>
          <ChemistryTables
            chemistry={props.chemistry}
            lineNames={revision.lines.map((line) => powderName(line.material.name))}
            cone={revision.cones.high}
            fit={{ fits: props.fits, tests: props.tests }}
            ask={{
              address: `${address}/revisions/${revision.number}/numbers`,
              query: isAsked ? `?${new URLSearchParams(props.asked)}` : undefined,
            }}
          />
        </details>
        <h3>With the powders in use now</h3>
        {props.today ? (
          <Today change={props.today} of={recipe.name} />
        ) : (
          <p>Every line is worked out with the analysis that is in use now.</p>
        )}
      </section>
      <Reviews
        recipe={recipe}
        revision={revision}
        standing={standing}
        reviews={props.reviews}
        reviewers={props.reviewers}
        reviewable={props.reviewable}
        idempotencyKey={props.idempotencyKey}
      />
      <Notes
        recipe={recipe}
        revision={revision}
        tiles={tiles}
        notes={props.notes}
        viewer={viewer}
        idempotencyKey={props.idempotencyKey}
      />
      <Lineage
        recipe={recipe}
        revision={revision}
        forks={props.forks}
        mayFork={viewer !== undefined}
        offers={props.offers}
        mayOffer={props.mayOffer}
        trial={props.trial}
        trialsOn={props.trialsOn}
      />
      {recipe.mayRevise ? (
        <Keeping
          recipe={recipe}
          number={revision.number}
          links={props.links}
          handouts={props.handouts}
          mayFill={viewer?.role === "manager"}
        />
      ) : null}
      <News slug={recipe.slug} since={props.since} />
    </article>
  );
};

/** How a copy of it is told of where there is no network; of what not everybody may see there is none. */
const keptAs = ({ recipe, revision, standing }: RecipePageProps): string | undefined =>
  recipe.shownTo === "public"
    ? `${recipe.name}, revision ${revision.number}: ${standing.is}`
    : undefined;

const planHref = (slug: string, number: number): string =>
  `/plans?${new URLSearchParams({ recipe: slug, revision: String(number) })}`;

/** What the chemistry holds against it. It never folds, and finding nothing is no answer here. */
const warningsOf = ({ findings }: Chemistry) => findings.filter(({ level }) => level !== "note");

const hazardsOf = ({ lines }: ShownRevision): Hazard[] => {
  const known = new Set(lines.flatMap(({ material }) => material.hazards));
  return hazards.filter((hazard) => known.has(hazard));
};
