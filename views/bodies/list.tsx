import { KilnPages } from "../firings/kiln-pages.tsx";
import { claimWords } from "../tiles/cone-words.ts";
import type { Body } from "./types.ts";

type BodiesProps = { bodies: readonly Body[]; mayAdd: boolean };

/** The clays that the studio fires, each with what its newest sheet says. */
export const Bodies = ({ bodies, mayAdd }: BodiesProps) => (
  <section id="bodies">
    <h1>Bodies</h1>
    <KilnPages here="/bodies" />
    <p>
      The clays that tiles and pots are made of. The same glaze fits one and crazes on another, and
      a body fired below its own cones stays open and soaks up water.
    </p>
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href="/bodies/new">
          Add a body
        </a>
      </p>
    ) : null}
    {bodies.length === 0 ? (
      <p>No body is on record yet. People of the studio add the first one.</p>
    ) : (
      <ul class="history">
        {bodies.map((body) => (
          <Row {...body} />
        ))}
      </ul>
    )}
  </section>
);

const Row = ({ slug, name, sheet }: Body) => (
  <li>
    <a class="kiln-link" href={`/bodies/${slug}`}>
      {name}
    </a>
    <span class="history-message">
      {[
        `Fired to ${claimWords(sheet.cones)}`,
        sheet.absorption
          ? `absorption ${sheet.absorption.percent.toFixed()} %`
          : "absorption not known",
        ...(sheet.colour === "" ? [] : [sheet.colour]),
      ].join("; ")}
      .
    </span>
  </li>
);
