import { When } from "../people/when.tsx";

export type UsedByProps = {
  bucketId: string;
  counted: { times: number; people: number };
  /** Newest first; null for whoever keeps no buckets. */
  uses: readonly { id: string; what: string; by: { name: string }; at: Date }[] | null;
};

/** How many glazed with a bucket; for its keepers, who. */
export const UsedBy = ({ bucketId, counted: { times, people }, uses }: UsedByProps) => (
  <section id="uses">
    <h2>Who used it</h2>
    <p>
      {times === 0
        ? "Nobody has ticked that they used it."
        : `${people === 1 ? "One person" : `${people} people`} used it, ${times === 1 ? "once" : `${times} times`}.`}{" "}
      <a href={`/b/${bucketId}`}>The page that its code opens</a> has the tick.
    </p>
    {uses && uses.length > 0 ? (
      <details>
        <summary>Who, newest first</summary>
        <ul class="notes">
          {uses.map(({ id, what, by, at }) => (
            <li class="note">
              <p class="note-by">
                {by.name}, <When at={at} clock />
              </p>
              {what === "" ? null : <p class="note-text">{what}</p>}
              <form method="post" action={`/bucket-uses/${id}/undoing`} class="screen-only">
                <button type="submit" class="quiet">
                  Take it back
                  <span class="hidden-words">
                    {" "}
                    ({by.name}, {at.toISOString()})
                  </span>
                </button>
              </form>
            </li>
          ))}
        </ul>
      </details>
    ) : null}
    <p class="actions">
      <a class="button quiet" href={`/buckets/${bucketId}/label`}>
        Print its label
      </a>
    </p>
  </section>
);
