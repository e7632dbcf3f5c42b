import { FaultSummary } from "../parts/field.tsx";
import { LookAlikes } from "../parts/powder-name.tsx";
import { When } from "../people/when.tsx";
import { Before } from "./before.tsx";
import { Correction } from "./correction.tsx";
import { Ends } from "./ends.tsx";
import { MixLineItem } from "./line.tsx";
import type { MixPageProps } from "./types.ts";

/** A mix as it is worked from at the scale: one line after another, and what is in of each. */
export const MixPage = (props: MixPageProps) => {
  const { mix, lines, cautions, faults, typedLine, person, asOf } = props;
  const open = mix.end === null;
  return (
    <article
      class="mix"
      data-mix={`/mixes/${mix.id}`}
      data-is={mix.end?.is ?? "open"}
      data-person={person}
      data-as-of={asOf.toISOString()}
    >
      <h1>Mix: {mix.bucket.name}</h1>
      <FaultSummary faults={faults} />
      <p>
        <a href={`/recipes/${mix.recipe.slug}/revisions/${mix.revision}`}>
          {mix.recipe.name}, revision {mix.revision}
        </a>
        , {mix.baseGrams.toFixed()} g of base, for{" "}
        <a href={`/buckets/${mix.bucket.id}`}>the bucket {mix.bucket.name}</a>. Opened by{" "}
        {mix.by.name}, <When at={mix.at} clock />.
      </p>
      <HowItEnded {...props} />
      <div id="mix-cautions" data-live={cautions.join(" ")}>
        {cautions.map((says) => (
          <p class="answer">{says}</p>
        ))}
      </div>
      <Before {...props} />
      <h2>What to weigh</h2>
      <p class="answer" id="mix-without-tls" hidden>
        Without TLS this page must stay open: it cannot be loaded anew without a network.
      </p>
      <div
        id="mix-progress"
        data-live={mix.putGrams.toFixed()}
        data-total={mix.totalGrams.toFixed()}
      >
        <p class="mix-progress">
          <strong>
            In: {lines.filter(({ put }) => put !== null).length} of {lines.length} lines,{" "}
            {mix.putGrams.toFixed()} g of {mix.totalGrams.toFixed()} g.
          </strong>
        </p>
      </div>
      <LookAlikes names={lines.map(({ material }) => material.name)} />
      <ol class="mix-lines">
        {lines.map((line) => (
          <MixLineItem
            mixId={mix.id}
            line={line}
            open={open}
            undoable={mix.end?.is !== "finished"}
            faults={faults}
            typed={typedLine?.n === line.n ? typedLine : undefined}
          />
        ))}
      </ol>
      <div id="mix-correction" data-live={correctionState(props)}>
        <Correction {...props} />
      </div>
      <Ends {...props} />
      <p class="mix-status" id="mix-status" role="status" aria-live="polite" />
      <script type="module" src="/assets/mix.js" />
    </article>
  );
};

/** What is to be put right follows from what is in. */
const correctionState = ({ lines }: MixPageProps): string =>
  lines.map(({ put }) => put?.toFixed() ?? "-").join(" ");

const HowItEnded = ({ mix: { end } }: MixPageProps) => {
  if (!end) return null;
  const { is, waterGrams, why, by, at } = end;
  return (
    <p class="notice">
      {is === "finished" ? "Finished" : "Given up"} by {by}, <When at={at} clock />
      {waterGrams ? `, with ${waterGrams.toFixed()} g of water` : null}.{why ? ` ${why}` : null}
      {is === "finished"
        ? " Its bucket is on hold until a manager has seen a proof tile."
        : " What went in stays taken from its lots, unless it is undone below."}
    </p>
  );
};
