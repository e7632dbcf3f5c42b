import { When } from "../people/when.tsx";

/** A link that hands something out and still works. */
export type ShownOpenHandout = {
  id: string;
  family: { slug: string; name: string } | null;
  recipes: readonly { slug: string; name: string; number: number }[];
  madeBy: string;
  madeAt: Date;
};

/** The links by which somebody outside reads handouts, for who may end them. */
export const OpenHandouts = ({ links }: { links: readonly ShownOpenHandout[] }) =>
  links.length === 0 ? null : (
    <section id="handouts" class="screen-only">
      <h3>Handouts that are out</h3>
      <ul class="findings">
        {links.map(({ id, family, recipes, madeBy, madeAt }) => (
          <li class="finding">
            <span>
              {family ? `${family.name}: ` : ""}
              {recipes.map(({ name, number }) => `${name}, revision ${number}`).join("; ")}
            </span>
            <form method="post" action={`/handouts/${id}/end`}>
              <p>
                Made by {madeBy}, <When at={madeAt} clock />
              </p>
              <button type="submit" class="quiet">
                End this handout
                <span class="hidden-words">, made {madeAt.toISOString()}</span>
              </button>
            </form>
          </li>
        ))}
      </ul>
    </section>
  );
