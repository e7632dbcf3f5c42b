import { When } from "../people/when.tsx";
import type { ShownDirections } from "./care-types.ts";
import { Said } from "./directions.tsx";
import { DirectionsForm, type DirectionsFormProps } from "./directions-form.tsx";

type DirectionsPageProps = DirectionsFormProps & {
  /** Newest first: the first counts. */
  said: readonly ShownDirections[];
  mayKeep: boolean;
};

/** How to use a bucket and what was said of that before; for who keeps it, the form. */
export const DirectionsPage = ({ said, mayKeep, ...form }: DirectionsPageProps) => {
  const [now, ...earlier] = said;
  const { bucket } = form;
  return (
    <article>
      <h1>How to use {bucket.name}</h1>
      {mayKeep ? <DirectionsForm {...form} /> : null}
      {!mayKeep && now ? <Said directions={now} /> : null}
      {!mayKeep && !now ? <p>Nobody has said how to use it. Ask a manager.</p> : null}
      {earlier.length > 0 ? <h2>What was said before</h2> : null}
      {earlier.map((directions) => (
        <details>
          <summary>
            By {directions.by}, <When at={directions.at} />
          </summary>
          <Said directions={directions} />
        </details>
      ))}
      <p>
        <a href={`/buckets/${bucket.id}`}>Back to {bucket.name}</a>
      </p>
    </article>
  );
};
