import type { Child } from "hono/jsx";
import { KilnPages } from "../firings/kiln-pages.tsx";
import { ConeHeat } from "../parts/cone-heat.tsx";
import { Term } from "../parts/term.tsx";
import { When } from "../people/when.tsx";
import { capital, claimWords } from "../tiles/cone-words.ts";
import type { Body, Sheet } from "./types.ts";

type BodyPageProps = {
  body: Body & { earlier: readonly Sheet[] };
  /** Whether the reader may put a new sheet on it. */
  maySayAnew: boolean;
};

/** A body: what is known of it now, whose word that is, and what was said before. */
export const BodyPage = ({ body, maySayAnew }: BodyPageProps) => (
  <article id="body">
    <h1>{body.name}</h1>
    <KilnPages here="/bodies" />
    <SheetFacts sheet={body.sheet} heat />
    {maySayAnew ? (
      <p class="actions">
        <a class="button quiet" href={`/bodies/${body.slug}/sheets/new`}>
          Put a new sheet on it
        </a>
      </p>
    ) : null}
    {body.earlier.length === 0 ? null : (
      <>
        <h2>What was said before</h2>
        <p>The newest sheet counts. These stay readable, since tiles were judged by them.</p>
        {body.earlier.map((sheet) => (
          <details>
            <summary>
              The sheet of <When at={sheet.at} />, by {sheet.by.name}
            </summary>
            <SheetFacts sheet={sheet} />
          </details>
        ))}
      </>
    )}
  </article>
);

const SheetFacts = ({ sheet, heat }: { sheet: Sheet; heat?: boolean }) => (
  <>
    <dl class="tile-facts">
      <Fact name="Fired to">
        {capital(claimWords(sheet.cones))}.{" "}
        {heat ? <ConeHeat cones={[sheet.cones.low, sheet.cones.high]} /> : null}
      </Fact>
      <Fact name={heat ? <Absorption /> : "Absorption"}>
        {sheet.absorption ? (
          <>
            <span class="quantity">{sheet.absorption.percent.toFixed()} %</span>{" "}
            <span class="note-by">Source: {sheet.absorption.source}</span>
          </>
        ) : (
          "not known"
        )}
      </Fact>
      <Fact name={heat ? <Expansion /> : "Linear expansion"}>
        {sheet.expansion ? (
          <>
            <span class="quantity">{sheet.expansion.value.toFixed()} × 10⁻⁶/K</span>, from{" "}
            {degrees(sheet.expansion.fromCelsius)} to {degrees(sheet.expansion.toCelsius)}{" "}
            <span class="note-by">Source: {sheet.expansion.source}</span>
          </>
        ) : (
          "not known"
        )}
      </Fact>
      <Fact name="Colour when fired">{sheet.colour === "" ? "not told" : sheet.colour}</Fact>
      <Fact name="Put on record by">
        {sheet.by.name}, <When at={sheet.at} />
      </Fact>
    </dl>
    {sheet.about === "" ? null : <p class="about">{sheet.about}</p>}
  </>
);

const Absorption = () => (
  <Term
    guide="reading-a-tile#body"
    means="How much water the fired, unglazed body soaks up, as a share of its dry weight. The lower it is, the tighter the body."
  >
    Absorption
  </Term>
);

const Expansion = () => (
  <Term
    guide="crazing#expansion"
    means="By how much it grows in length for each degree, in millionths. A figure means something only beside the range of temperature that it was measured over."
  >
    Linear expansion
  </Term>
);

const degrees = (celsius: number): string => `${celsius < 0 ? "−" : ""}${Math.abs(celsius)} °C`;

const Fact = ({ name, children }: { name: Child; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
