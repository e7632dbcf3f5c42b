type LayeredProps = { over: { slug: string; name: string; number: number } | null };

/** What a tile lies over, and that it therefore speaks for neither glaze alone. */
export const Layered = ({ over }: LayeredProps) => (
  <>
    {over ? (
      <a href={`/recipes/${over.slug}/revisions/${over.number}`}>
        {over.name}, revision {over.number}
      </a>
    ) : (
      "a glaze that is not shown to you"
    )}
    . It speaks for this pair and counts for neither glaze alone.
  </>
);
