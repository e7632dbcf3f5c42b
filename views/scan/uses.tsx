import { When } from "../people/when.tsx";

type ShownOwnUse = {
  id: string;
  what: string;
  at: Date;
  bucket: { id: string; name: string };
  recalls: readonly { id: string; why: string }[];
};

type UsesPageProps = { uses: readonly ShownOwnUse[]; next: string | null };

/** What a person glazed, so that they know which pots to look for after a recall. */
export const UsesPage = ({ uses, next }: UsesPageProps) => (
  <article>
    <h1>What you used</h1>
    <p>
      Tick “I used it” on the page that a bucket's code opens. If the bucket is recalled, you are
      told, and find here what you made with it.
    </p>
    {uses.length === 0 ? <p>You have ticked nothing yet.</p> : null}
    <ul class="notes">
      {uses.map(({ id, what, at, bucket, recalls }) => (
        <li class="note" id={`use-${id}`}>
          <p class="note-on">
            <a href={`/b/${bucket.id}`}>{bucket.name}</a>
          </p>
          {recalls.map((recall) => (
            <p>
              <strong>Recalled:</strong> {recall.why}{" "}
              <a href={`/recalls/${recall.id}`}>What was affected</a>
            </p>
          ))}
          {what === "" ? null : <p class="note-text">{what}</p>}
          <p class="note-by">
            <When at={at} clock />
          </p>
        </li>
      ))}
    </ul>
    {next === null ? null : (
      <p>
        <a class="button quiet" href={`/uses?after=${next}`} rel="next">
          Earlier
        </a>
      </p>
    )}
    <p>
      <a href="/account">Back to your account</a>
    </p>
  </article>
);
