import type { Child } from "hono/jsx";
import { type Band, bandWords } from "../../src/chem/bands.ts";
import { Cautions } from "../parts/cautions.tsx";
import { type Hazard, hazards } from "../parts/hazard-words.ts";
import { When } from "../people/when.tsx";
import type { ShownDirections } from "./care-types.ts";

type DirectionsProps = {
  bucketId: string;
  directions: ShownDirections | null;
  /** Of the recipe's powders. */
  hazards: readonly string[];
  mayKeep: boolean;
};

/** How to use a bucket, for whoever stands before it. */
export const HowToUse = ({ bucketId, directions, hazards: named, mayKeep }: DirectionsProps) => (
  <section id="directions">
    <h2>How to use it</h2>
    {directions ? (
      <Said directions={directions} />
    ) : (
      <p>Nobody has said how to use it. Ask a manager before you dip.</p>
    )}
    <Cautions hazards={wet(named)} />
    <p class="screen-only">
      <a href={`/buckets/${bucketId}/directions`}>
        {mayKeep ? "Say how to use it" : "What was said before"}
      </a>
    </p>
  </section>
);

/** What can hurt who dips: dust is for who opens a bag. */
const wet = (named: readonly string[]): readonly Hazard[] =>
  hazards.filter((hazard) => hazard !== "dust" && named.includes(hazard));

/** Everything that directions say, each with its name. */
export const Said = ({ directions }: { directions: ShownDirections }) => {
  const { gravity, flow, coat, body, bisqueCone, dipSeconds, coats, footMm } = directions;
  return (
    <>
      <dl class="directions">
        <Row name="Dip for">{dipSeconds && `${dipSeconds.toFixed()} seconds`}</Row>
        <Row name="Coats">{coats}</Row>
        <Row name="Keep clear of the foot">{footMm && `${footMm.toFixed()} mm`}</Row>
        <Row name="Catch dish">
          {directions.catchDish ? "Yes: it can run. Put one under every piece." : null}
        </Row>
        <Row name="Body">{body && <a href={`/bodies/${body.slug}`}>{body.name}</a>}</Row>
        <Row name="Bisque">{bisqueCone && `cone ${bisqueCone}`}</Row>
        <Row name="Sieve">{directions.sieve}</Row>
        <Row name="Stirring">{directions.stirring}</Row>
        <Row name="Specific gravity">{wordsOf(gravity)}</Row>
        <Row name="Flow">{flow && `${bandWords(flow)} s`}</Row>
        <Row name="Dried coat">{coat && `${bandWords(coat)} mm`}</Row>
        <Row name="Keeps for">
          {directions.keepsMonths &&
            `${directions.keepsMonths} months: gums rot, and crystals can settle out`}
        </Row>
        <Row name="Whom to ask">{directions.ask}</Row>
      </dl>
      <p class="note-by">
        Said by {directions.by}, <When at={directions.at} />.
      </p>
    </>
  );
};

const wordsOf = (band: Band | null): string | null => band && bandWords(band);

const Row = ({ name, children }: { name: string; children?: Child }) =>
  children === null || children === undefined || children === "" ? null : (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
