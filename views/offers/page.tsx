import type { Decimal } from "decimal.js";
import { mergedBase } from "../../src/chem/merge-lines.ts";
import { Side } from "../compare/side.tsx";
import { ComparisonTables } from "../compare/tables.tsx";
import type { ShownComparison, ShownSide } from "../compare/types.ts";
import { type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { DayOf } from "../tiles/day.tsx";
import { OfferState } from "./list.tsx";
import { Conflicts, MergeTable, mergeRows } from "./merge.tsx";
import type { ShownMerge, ShownOffer } from "./types.ts";

type OfferPageProps = {
  offer: ShownOffer;
  /** The recipe's head, and what is offered to it. */
  left: ShownSide;
  right: ShownSide;
  comparison: ShownComparison;
  merge: ShownMerge;
  mayAnswer: boolean;
  typed: (path: string) => string;
  faults: readonly Fault[];
  /** Somebody published meanwhile: what they say, and what changed since the head that was looked at. */
  stale: { says: string; left: ShownSide; right: ShownSide; comparison: ShownComparison } | null;
  idempotencyKey: string;
};

/** An offer: what it says, what would come of it, and the answer. */
export const OfferPage = (props: OfferPageProps) => {
  const { offer, left, right, comparison, merge, stale } = props;
  return (
    <article id="offer">
      <h1>
        {offer.from.name} offered to {offer.recipe.name}
      </h1>
      {stale ? <Stale {...stale} /> : null}
      <p>
        {offer.by.name} offered{" "}
        <a href={`/recipes/${offer.from.slug}/revisions/${offer.from.number}`}>
          revision {offer.from.number} of {offer.from.name}
        </a>{" "}
        back to <a href={`/recipes/${offer.recipe.slug}`}>{offer.recipe.name}</a>,{" "}
        <DayOf at={offer.at} />. Both came from{" "}
        <a href={`/recipes/${offer.base.slug}/revisions/${offer.base.number}`}>
          {offer.base.name}, revision {offer.base.number}
        </a>
        .
      </p>
      <p class="about">{offer.why}</p>
      <OfferState offer={offer} />
      {offer.answer ? null : <Open {...props} rows={mergeRows(merge)} />}
      <h2>Side by side</h2>
      <div class="compare-sides">
        <Side side={left} other={right} />
        <Side side={right} other={left} />
      </div>
      <ComparisonTables left={left} right={right} comparison={comparison} />
    </article>
  );
};

const Stale = ({ says, left, right, comparison }: NonNullable<OfferPageProps["stale"]>) => (
  <>
    <div class="faults" role="alert" id="faults" tabindex={-1}>
      <h2>Somebody was first</h2>
      <p>{says}</p>
    </div>
    <h2>
      Revision {right.revision.number}, there now, beside revision {left.revision.number}
    </h2>
    <ComparisonTables left={left} right={right} comparison={comparison} />
  </>
);

/** Both came from a base of 100 and the two changes together may not. */
const BaseTotal = ({ total }: { total: Decimal | null }) => {
  if (total === null) return <p>What the base totals depends on what you choose.</p>;
  return total.eq(100) ? null : <p>The base would total {total.toFixed()}, not 100.</p>;
};

type OpenProps = OfferPageProps & { rows: ReturnType<typeof mergeRows> };

const Open = ({
  offer,
  left,
  merge,
  mayAnswer,
  rows,
  typed,
  faults,
  idempotencyKey,
}: OpenProps) => {
  const faultOf = (path: string) => faults.find((fault) => fault.path === path)?.says;
  return (
    <>
      <h2>If it is taken in</h2>
      <MergeTable rows={rows} />
      <BaseTotal total={mergedBase(merge.lines)} />
      {mayAnswer ? (
        <form method="post" action={`/offers/${offer.id}/answer`}>
          <FaultSummary faults={faults} />
          <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
          <input type="hidden" name="basedOn" value={String(left.revision.number)} />
          <Conflicts rows={rows} chosen={typed} faultOf={faultOf} />
          <TextArea
            label="Why"
            name="why"
            value={typed("why")}
            fault={faultOf("why")}
            hint="Who offered it reads this. Declining needs a reason."
            rows={3}
            maxlength={2000}
          />
          <p class="actions">
            <button type="submit" name="accept" value="true">
              Take it in as revision {left.revision.number + 1}
            </button>
            <button type="submit" name="accept" value="false" class="quiet">
              Decline it
            </button>
          </p>
        </form>
      ) : (
        <p>The recipe's owner or a manager answers it.</p>
      )}
    </>
  );
};
