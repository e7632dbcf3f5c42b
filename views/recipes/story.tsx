import { When } from "../people/when.tsx";

type StoryProps = {
  recipe: { slug: string; name: string };
  lines: readonly {
    seq: number;
    at: Date;
    by: string | null;
    says: string;
    why: string | null;
    href: string;
  }[];
  /** Whether the story begins here: further pages begin where the one before ended. */
  fromStart: boolean;
  next: string | null;
};

/** A recipe's history from its beginning: who did what, when and why. */
export const StoryPage = ({ recipe, lines, fromStart, next }: StoryProps) => {
  const address = `/recipes/${recipe.slug}`;
  return (
    <section>
      <h1>The history of {recipe.name}</h1>
      <p>
        <a href={address}>Back to {recipe.name}</a>
      </p>
      {lines.length === 0 ? <p>Nothing more happened.</p> : null}
      <ol class="notes">
        {lines.map(({ seq, at, by, says, why, href }) => (
          <li class="note" id={`event-${seq}`}>
            <p class="note-on">
              {by ?? "The program"} <a href={href}>{says}</a>
            </p>
            {why === null ? null : <p class="note-text">{why}</p>}
            <p class="note-by">
              <When at={at} clock />
            </p>
          </li>
        ))}
      </ol>
      <p class="actions">
        {fromStart ? null : (
          <a class="button quiet" href={`${address}/history`}>
            From the beginning
          </a>
        )}{" "}
        {next === null ? null : (
          <a class="button" href={`${address}/history?after=${next}`} rel="next">
            What came then
          </a>
        )}
      </p>
    </section>
  );
};
