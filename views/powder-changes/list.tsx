import { type ShownPowderChange, Today } from "../recipes/today.tsx";
import { replacementHref } from "../replacement/types.ts";

type PowderChangesProps = {
  items: readonly { slug: string; name: string; number: number; change: ShownPowderChange }[];
  next: string | undefined;
  /** Whether the reader belongs to the studio. */
  member: boolean;
};

/** The recipes that were published with other analyses than the shelf has in use now. */
export const PowderChanges = ({ items, next, member }: PowderChangesProps) => (
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
        {member ? <Restated powders={change.powders} /> : null}
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

/** The way to recipes with corrected amounts, by each powder that has another analysis now. */
const Restated = ({ powders }: Pick<ShownPowderChange, "powders">) => (
  <p class="screen-only">
    {powders.flatMap(({ material: { slug, name }, inUse }) =>
      inUse
        ? [<a href={`${replacementHref(slug)}?reason=lot`}>Recipes restated for {name}</a>, " "]
        : [],
    )}
  </p>
);
