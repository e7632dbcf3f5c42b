import type { ShownReading } from "./care-types.ts";
import { ReadingTable } from "./reading-table.tsx";

type ReadingsPageProps = {
  bucket: { id: string; name: string };
  readings: readonly ShownReading[];
  next: string | null;
};

/** Everything that was measured of a bucket. */
export const ReadingsPage = ({ bucket, readings, next }: ReadingsPageProps) => (
  <article>
    <h1>Readings of {bucket.name}</h1>
    {readings.length === 0 ? <p>Nobody has measured it yet.</p> : null}
    {readings.length > 0 ? <ReadingTable readings={readings} /> : null}
    {next === null ? null : (
      <p>
        <a class="button quiet" href={`/buckets/${bucket.id}/readings?after=${next}`} rel="next">
          Earlier readings
        </a>
      </p>
    )}
    <p>
      <a href={`/buckets/${bucket.id}`}>Back to {bucket.name}</a>
    </p>
  </article>
);
