export type Uses = {
  recipes: readonly {
    slug: string;
    name: string;
    owner: string;
    number: number;
    withdrawn: boolean;
  }[];
  more: boolean;
};

/** Recipes whose newest revision is in question, each with its maker. */
export const UsedIn = ({ uses, nothing }: { uses: Uses; nothing: string }) =>
  uses.recipes.length === 0 ? (
    <p>{nothing}</p>
  ) : (
    <>
      <ul>
        {uses.recipes.map(({ slug, name, owner, number, withdrawn }) => (
          <li>
            <a href={`/recipes/${slug}`}>{name}</a>, {owner}, revision {number}
            {withdrawn ? " (withdrawn)" : ""}
          </li>
        ))}
      </ul>
      {uses.more ? (
        <p>And further ones: these are the first {uses.recipes.length} by name.</p>
      ) : null}
    </>
  );
