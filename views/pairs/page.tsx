import { FoodCaution } from "../parts/cautions.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { Use } from "../parts/standing.tsx";
import { StandingWithReasons } from "../reviews/reviews.tsx";
import { TestList } from "../tests/list.tsx";
import type { ShownTest } from "../tests/types.ts";
import { DayOf } from "../tiles/day.tsx";
import { type GalleryTile, TileGallery } from "../tiles/gallery.tsx";
import { PairReviews, type ShownPairReview, type TypedReview } from "./reviews.tsx";
import { Glaze } from "./rows.tsx";
import { type ShownPair, useOfPair } from "./types.ts";

export type PairPageProps = {
  pair: ShownPair;
  tiles: readonly GalleryTile[];
  tests: readonly ShownTest[];
  reviews: readonly ShownPairReview[];
  /** What it lacks as functional ware. */
  gaps: readonly { says: string }[];
  /** Why it cannot be approved at all now. */
  against: readonly string[];
  mayReview: boolean;
  /** The reader could review, and wrote one of the two glazes. */
  wroteIt: boolean;
  mayAdd: boolean;
  typed?: TypedReview | undefined;
  faults?: readonly Fault[] | undefined;
  idempotencyKey: string;
};

/** A layered pair in the order of the questions that people ask of it. */
export const PairPage = (props: PairPageProps) => {
  const { pair, tiles, tests, faults = [] } = props;
  const { over, under } = pair;
  const use = useOfPair(pair);
  return (
    <article class="recipe">
      <h1>
        {over.name} over {under.name}
      </h1>
      <p class="recipe-by">
        <Glaze glaze={over} /> on top of <Glaze glaze={under} />. Put on record by {pair.by.name},{" "}
        <DayOf at={pair.at} />.
      </p>
      <FaultSummary faults={faults} />
      <section id="use">
        <h2>May I use them together on a mug?</h2>
        <Use use={use} long />
        <StandingWithReasons standing={pair.standing} />
        <p>
          What either glaze is approved for alone says nothing of the two together. This record is
          of this one on top of that one; the other way round is another pair.
        </p>
        <FoodCaution use={use} />
      </section>
      {pair.about === "" ? null : <p class="about">{pair.about}</p>}
      <section>
        <h2>What it looks like</h2>
        {tiles.length === 0 ? (
          <p>
            No tile of this pair has been fired yet, so nobody here has seen what it looks like.
          </p>
        ) : (
          <TileGallery
            tiles={tiles}
            mayAdd={false}
            here={{ slug: over.slug, number: over.number }}
          />
        )}
        {props.mayAdd ? (
          <p>
            <a href={`/recipes/${over.slug}/tiles/new?revision=${over.number}`}>
              Put a tile of {over.name} on record
            </a>{" "}
            and say that it lies over {under.slug}@{under.number}.
          </p>
        ) : null}
      </section>
      <section id="tests">
        <h2>What was tested</h2>
        <TestList tests={tests} addAt={undefined} />
      </section>
      <PairReviews {...props} faults={faults} />
    </article>
  );
};
