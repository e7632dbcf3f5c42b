type HistoryPageProps = {
  recipe: { slug: string; name: string };
  revisions: readonly {
    number: number;
    basedOn: number | null;
    author: string;
    message: string;
    use: string;
    publishedAt: Date;
  }[];
  next: string | null;
};

/** A recipe's revisions, newest first: nothing is overwritten. */
export const HistoryPage = ({ recipe, revisions, next }: HistoryPageProps) => (
  <section>
    <h1>Revisions of {recipe.name}</h1>
    <p>
      <a href={`/recipes/${recipe.slug}`}>Back to {recipe.name}</a>
    </p>
    <ol class="history" reversed>
      {revisions.map(({ number, author, message, use, publishedAt }) => (
        <li value={number}>
          <a href={`/recipes/${recipe.slug}/revisions/${number}`}>Revision {number}</a> by {author},{" "}
          <time datetime={publishedAt.toISOString()}>{publishedAt.toISOString().slice(0, 10)}</time>
          , {use === "decorative" ? "decorative only" : "meant for functional ware"}
          {message ? <span class="history-message">{message}</span> : null}
          {number > 1 ? (
            <a class="history-compare" href={compareAddress(recipe.slug, number)}>
              What changed since revision {number - 1}
            </a>
          ) : null}
        </li>
      ))}
    </ol>
    {next ? (
      <p>
        <a class="button" href={`/recipes/${recipe.slug}/revisions?after=${next}`} rel="next">
          Earlier revisions
        </a>
      </p>
    ) : null}
  </section>
);

const compareAddress = (slug: string, number: number): string =>
  `/compare?left=${slug}@${number - 1}&right=${slug}@${number}`;
