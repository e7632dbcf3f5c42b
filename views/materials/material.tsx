import type { Analysis } from "../../src/chem/analysis.ts";
import { Cautions, DustCaution, LeachCaution } from "../parts/cautions.tsx";
import { hazards as knownHazards } from "../parts/hazard-words.ts";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { replacementHref } from "../replacement/types.ts";
import { Analyses, type AnalysisRow } from "./analyses.tsx";
import { AnalysisTable } from "./analysis-table.tsx";
import { DataSheet, type ShownSheet } from "./data-sheet.tsx";
import { Day } from "./day.tsx";
import { DryGravity, type DryGravityProps } from "./dry-gravity.tsx";
import { Lots, type ShownLot } from "./lots.tsx";
import { mainOxides } from "./main-oxides.ts";
import { Names, type NamesProps } from "./names.tsx";
import { Prices, type ShownPrice } from "./prices.tsx";
import { Provenance } from "./provenance.tsx";
import { UsedIn, type Uses } from "./used-in.tsx";

export type MaterialProps = NamesProps & {
  kind: string;
  about: string;
  hazards: readonly string[];
  analyses: readonly AnalysisRow[];
  putInUse: { since: Date; why: string } | null;
  discontinued: { since: string; why: string } | null;
  uses: Uses;
  lots: readonly ShownLot[] | null;
  prices: readonly ShownPrice[] | null;
  today: string;
  dryGravity: DryGravityProps["dryGravity"];
  dataSheet: ShownSheet | null;
  /** Whether the reader belongs to the studio. */
  mayAdd: boolean;
};

/** A material: what it is, what to be careful with, what to buy, what is in it, where it is used. */
export const Material = (props: MaterialProps) => {
  const { name, slug, hazards, analyses, mayAdd, mayManage } = props;
  const inUse = analyses.find(({ is }) => is === "in use");
  const others = analyses.filter(({ is }) => is !== "in use");
  return (
    <article id="material">
      <h1>{name}</h1>
      <Kind {...props} inUse={inUse} />
      {props.discontinued ? (
        <NoLongerSold {...props.discontinued} uses={props.uses} replace={mayAdd ? slug : null} />
      ) : null}
      {props.about.split(/\n+/).map((line) => (line === "" ? null : <p>{line}</p>))}
      <Cautions hazards={ownHazards(hazards)} />
      <DustCaution />
      <DataSheet slug={slug} sheet={props.dataSheet} mayManage={mayManage} />
      <Names {...props} />
      <h2>What is in it</h2>
      {inUse ? <InUse row={inUse} putInUse={props.putInUse} /> : <WithoutAnalysis />}
      <Analyses slug={slug} analyses={others} mayManage={mayManage} />
      {mayAdd ? (
        <p class="actions">
          <a class="button quiet" href={`/materials/${slug}/analyses/new`}>
            Add an analysis
          </a>
        </p>
      ) : null}
      <DryGravity slug={slug} dryGravity={props.dryGravity} mayManage={mayManage} />
      <Lots slug={slug} name={name} lots={props.lots} today={props.today} mayManage={mayManage} />
      <Prices name={name} prices={props.prices} />
      {props.discontinued ? null : <WhereUsed uses={props.uses} />}
      {mayManage ? (
        <p class="actions">
          <a class="button quiet" href={`/materials/${slug}/discontinuation`}>
            {props.discontinued ? "Say that it is sold again" : "Say that it is no longer sold"}
          </a>
        </p>
      ) : null}
    </article>
  );
};

/** What to be careful with besides dust, of which every powder's page tells. */
const ownHazards = (hazards: readonly string[]) =>
  knownHazards.filter((hazard) => hazard !== "dust" && hazards.includes(hazard));

const WhereUsed = ({ uses }: { uses: Uses }) => (
  <>
    <h2>Where it is used</h2>
    <UsedIn uses={uses} nothing="No recipe that you may see uses it." />
  </>
);

type KindProps = { kind: string; inUse: AnalysisRow | undefined };

const Kind = ({ kind, inUse }: KindProps) => (
  <p>
    {capital(kind)}
    {inUse ? <Brings analysis={inUse.analysis} /> : null}.
  </p>
);

const Brings = ({ analysis }: { analysis: Analysis }) => (
  <>
    ; mainly{" "}
    {mainOxides(analysis).map(({ oxide, percent }, place) => (
      <>
        {place > 0 ? ", " : ""}
        <span class="quantity">
          <OxideName oxide={oxide} /> {plainNumber(percent, 1)} %
        </span>
      </>
    ))}
  </>
);

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

/** `replace` is the material's slug for whoever may look for what stands in for it. */
type NoLongerSoldProps = { since: string; why: string; uses: Uses; replace: string | null };

const NoLongerSold = ({ since, why, uses, replace }: NoLongerSoldProps) => (
  <section class="caution" aria-label="No longer sold">
    <p>
      <strong>
        No longer sold since <Day on={since} />.
      </strong>{" "}
      {why}
    </p>
    <p>What cannot be mixed once the last of it is gone:</p>
    <UsedIn uses={uses} nothing="No recipe that you may see depends on it." />
    {replace && uses.recipes.length > 0 ? (
      <p class="screen-only">
        <a class="button quiet" href={replacementHref(replace)}>
          What stands in for it
        </a>
      </p>
    ) : null}
  </section>
);

type InUseProps = { row: AnalysisRow; putInUse: MaterialProps["putInUse"] };

const InUse = ({ row, putInUse }: InUseProps) => (
  <>
    <AnalysisTable analysis={row.analysis} caption="The analysis in use" />
    <Provenance {...row} />
    {putInUse ? (
      <p>
        In use since <Day on={putInUse.since} />
        {putInUse.why === "" ? "" : `, because: ${putInUse.why}`.replace(/[.]*$/, "")}. New
        revisions of recipes pin it; published ones keep the analysis that they were published with.
      </p>
    ) : null}
  </>
);

const WithoutAnalysis = () => (
  <>
    <p>
      Nobody has put an analysis of this in use. So it may be an addition to a recipe but no part of
      a base; the chemistry leaves it out and says so; and the rules that look for what can leave a
      glaze cannot judge a recipe that holds it. Ask the supplier what is in it, and a laboratory
      for a leach report before a glaze with it comes near food.
    </p>
    <LeachCaution />
  </>
);
