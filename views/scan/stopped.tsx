import { Mark } from "../labels/mark.tsx";

/** All that is said of a bucket to somebody who may not know what is in it. */
export const StoppedPage = ({ says, next }: { says: string; next: string | null }) => (
  <article class="scan">
    <h1>Do not use this bucket</h1>
    <p>
      <Mark mark="do not use" />
    </p>
    <p>{says}</p>
    {next === null ? null : (
      <p>
        <a href={`/session/new?next=${encodeURIComponent(next)}`}>Sign in</a> to read why.
      </p>
    )}
  </article>
);
