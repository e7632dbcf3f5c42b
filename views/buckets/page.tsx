import { type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { Standing, Use } from "../parts/standing.tsx";
import { When } from "../people/when.tsx";
import { UsedBy, type UsedByProps } from "../scan/used-by.tsx";
import { Additions } from "./additions.tsx";
import type { ShownCare } from "./care-types.ts";
import { type ShownContents, WentIn } from "./contents.tsx";
import { HowToUse } from "./directions.tsx";
import { Mixes, type MixesProps } from "./mixes.tsx";
import { Proofs, type ProofsProps } from "./proofs.tsx";
import { Readings } from "./readings.tsx";
import { Recalls } from "./recalls.tsx";
import { ReportButtons } from "./report-buttons.tsx";
import { approvedFor, type ShownBucket, stateWords, useWords } from "./types.ts";

type BucketPageProps = Pick<ProofsProps, "proofs" | "drift" | "tolerance"> & {
  bucket: ShownBucket;
  contents: ShownContents;
  mixing: MixesProps;
  care: ShownCare;
  used: Omit<UsedByProps, "bucketId">;
  /** What was typed into a form of its care. */
  typed: (path: string) => string;
  /** Makes a key for a form, so that a double tap counts once. */
  newKey: () => string;
  /** Whether the reader may open and empty it; whoever reads may put it on hold. */
  mayKeep: boolean;
  mayRecall: boolean;
  why: string;
  faults: readonly Fault[];
};

/** One shared bucket: whether it may be used, what is in it, and what was said of it. */
export const BucketPage = (props: BucketPageProps) => {
  const { bucket, faults, care, mayKeep } = props;
  const isEmpty = bucket.is === "empty";
  const form = () => ({
    bucketId: bucket.id,
    isEmpty,
    typed: props.typed,
    faults,
    idempotencyKey: props.newKey(),
  });
  return (
    <article>
      <h1>{bucket.name}</h1>
      <FaultSummary faults={faults} />
      <section id="use">
        <h2>May I use it?</h2>
        <Recalls bucket={bucket} mayRecall={props.mayRecall} />
        <p class="answer">{useWords(bucket)}</p>
        {bucket.cautions.map((says) => (
          <p class="answer">{says}</p>
        ))}
        <p>
          <Standing is={bucket.standing.is} for={approvedFor(bucket)} />{" "}
          {bucket.standing.because.join(" ")}
        </p>
        <Use use={bucket.standing.for ?? bucket.use} long />
        {bucket.newer ? <p>{bucket.newer}</p> : null}
      </section>
      {isEmpty ? null : <ReportButtons {...form()} />}
      <HowToUse
        bucketId={bucket.id}
        directions={care.directions}
        hazards={care.powders.hazards}
        mayKeep={mayKeep}
      />
      <Readings care={care} {...form()} />
      <section>
        <h2>What is in it</h2>
        <p>
          {bucket.litres.toFixed()} litres of{" "}
          <a href={`/recipes/${bucket.recipe.slug}/revisions/${bucket.number}`}>
            {bucket.recipe.name}, revision {bucket.number}
          </a>
          . Put on record by {bucket.addedBy}, <When at={bucket.addedAt} />.
        </p>
        <p class="screen-only">
          <a href={`/buckets/${bucket.id}/cost`}>What it cost, and each one's share</a>
        </p>
        <Changes bucket={bucket} />
      </section>
      <WentIn contents={props.contents} />
      <UsedBy bucketId={bucket.id} {...props.used} />
      <Mixes {...props.mixing} />
      <Additions additions={care.additions} dissolves={care.powders.dissolves} {...form()} />
      <Proofs
        bucketId={bucket.id}
        recipe={bucket.recipe}
        number={bucket.number}
        proofs={props.proofs}
        drift={props.drift}
        tolerance={props.tolerance}
      />
      {isEmpty && !mayKeep ? null : <StateForm {...props} />}
    </article>
  );
};

const Changes = ({ bucket: { changes } }: { bucket: ShownBucket }) =>
  changes.length === 0 ? (
    <p>It is on hold until it was mixed and a proof tile came out.</p>
  ) : (
    <ol class="notes">
      {changes.map(({ is, why, by, at }, place) => (
        <li class="note">
          <p class="note-on">
            {place === 0 ? "It is " : "Before that: "}
            {stateWords[is]}
          </p>
          <p class="note-text">{why}</p>
          <p class="note-by">
            {by}, <When at={at} clock />
          </p>
        </li>
      ))}
    </ol>
  );

/** What can be said of a bucket from now on: always with the reason. */
type StateFormProps = Pick<BucketPageProps, "bucket" | "mayKeep" | "why" | "faults">;

const StateForm = ({ bucket, mayKeep, why, faults }: StateFormProps) => (
  <form method="post" action={`/buckets/${bucket.id}/state`}>
    <h2>{mayKeep ? "Change its state" : "Put it on hold"}</h2>
    <TextArea
      label="Why"
      name="why"
      required
      rows={3}
      maxlength={1000}
      value={why}
      hint={
        mayKeep
          ? "Such as: the proof tile came out dull; or: sieved and checked; or: used up."
          : "Such as: it smells, it has set hard, or it came out another colour. It is then on hold until a manager has looked."
      }
      fault={faults.find(({ path }) => path === "why")?.says}
    />
    <p class="actions">
      {bucket.is === "empty" ? null : (
        <button type="submit" name="is" value="hold">
          Put it on hold
        </button>
      )}{" "}
      {mayKeep && bucket.is !== "open" ? (
        <button type="submit" name="is" value="open">
          Open it
        </button>
      ) : null}{" "}
      {mayKeep && bucket.is !== "empty" ? (
        <button type="submit" name="is" value="empty">
          It is empty
        </button>
      ) : null}
    </p>
  </form>
);
