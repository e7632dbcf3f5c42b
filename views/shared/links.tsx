import { When } from "../people/when.tsx";

export type ShownLink = { id: string; number: number; madeBy: string; madeAt: Date };

type LinksProps = { recipe: { slug: string }; number: number; links: readonly ShownLink[] };

/** The links by which somebody without an account reads a revision, and the way to make or end one. */
export const Links = ({ recipe, number, links }: LinksProps) => (
  <section id="links">
    <h3>Links for somebody outside</h3>
    <p>
      A link shows one revision to whoever holds it, even of a private recipe, until you end it.
    </p>
    {links.length === 0 ? null : (
      <ul class="findings">
        {links.map((link) => (
          <li class="finding">
            <span>revision {link.number}</span>
            <form method="post" action={`/links/${link.id}/end`}>
              <p>
                Made by {link.madeBy}, <When at={link.madeAt} clock />
              </p>
              <button type="submit" class="quiet">
                End this link
                <span class="hidden-words">
                  {" "}
                  to revision {link.number}, made {link.madeAt.toISOString()}
                </span>
              </button>
            </form>
          </li>
        ))}
      </ul>
    )}
    <form method="post" action={`/recipes/${recipe.slug}/revisions/${number}/links`}>
      <button type="submit">Make a link to revision {number}</button>
    </form>
  </section>
);
