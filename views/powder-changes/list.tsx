import { type ShownPowderChange, Today } from "../recipes/today.tsx";

type PowderChangesProps = {
  items: readonly { slug: string; name: string; number: number; change: ShownPowderChange }[];
  next: string | undefined;
};

/** The recipes that were published with other analyses than the shelf has in use now. */
export const PowderChanges = ({ items, next }: PowderChangesProps) => (
  <section>
    <h1>Today's powders</h1>
    <p>
      A revision keeps the analyses that it was published with. These recipes have a powder with
      another analysis in use now: what that does to each, and whether it matters.
    </p>
    {items.length === 0 ? <p>No recipe is affected: all are pinned to what is in use.</p> : null}
    {items.map(({ slug, name, number, change }) => (
      <section>
        <h2>
          <a href={`/recipes/${slug}`}>{name}</a>, revision {number}
        </h2>
        <Today change={change} of={name} />
      </section>
    ))}
    {next ? (
      <p>
        <a class="button" href={`/powder-changes?after=${next}`} rel="next">
          More recipes
        </a>
      </p>
    ) : null}
  </section>
);
