import { Standing, Use } from "../parts/standing.tsx";
import { approvedFor, type ShownBucket, stateWords } from "./types.ts";

type BucketsProps = {
  buckets: readonly ShownBucket[];
  next: string | null;
  mayAdd: boolean;
};

/** The studio's shared buckets, each with what may be done with it. */
export const BucketsPage = ({ buckets, next, mayAdd }: BucketsProps) => (
  <section>
    <h1>Buckets</h1>
    <p>
      The studio's shared glazes. Each follows one revision of a recipe, and says here whether that
      revision is approved.
    </p>
    {buckets.length === 0 ? (
      <p>No bucket is on record yet.</p>
    ) : (
      <p>
        <a href="/rounds">Go round them</a>: each with what to look at, and a tick for having
        stirred it.
      </p>
    )}
    <ul class="waiting">
      {buckets.map((bucket) => (
        <BucketLine bucket={bucket} />
      ))}
    </ul>
    {next === null ? null : (
      <p>
        <a class="button quiet" href={`/buckets?after=${next}`} rel="next">
          Further buckets
        </a>
      </p>
    )}
    <p class="actions">
      {mayAdd ? (
        <a class="button" href="/buckets/new">
          Add a bucket
        </a>
      ) : null}{" "}
      <a class="button quiet" href="/plans">
        What is to be mixed
      </a>
    </p>
  </section>
);

const BucketLine = ({ bucket }: { bucket: ShownBucket }) => (
  <li>
    <a href={`/buckets/${bucket.id}`}>{bucket.name}</a>
    <span>
      {bucket.recipe.name}, revision {bucket.number}; {bucket.litres.toFixed()} l,{" "}
      {stateWords[bucket.is]}
    </span>
    <Standing is={bucket.standing.is} for={approvedFor(bucket)} />
    {(bucket.standing.for ?? bucket.use) === "decorative" ? <Use use="decorative" /> : null}
    {bucket.is === "empty" && !bucket.forTest
      ? null
      : bucket.cautions.map((says) => <strong class="bucket-caution">{says}</strong>)}
  </li>
);
