import { shelfWords } from "../families/words.ts";
import { Standing, Use } from "../parts/standing.tsx";
import { Wide } from "../parts/wide.tsx";
import type { ShownHandout } from "./types.ts";
import { powderWords } from "./words.ts";

/** What a family's recipes have in common: the introduction, the contents and the shelf. */
export const FamilyFront = ({ handout }: { handout: ShownHandout }) => {
  const { family, pieces, shelf } = handout;
  return (
    <>
      {family?.intro ? <p class="about">{family.intro}</p> : null}
      <section>
        <h2>In this handout</h2>
        <ol class="handout-contents">
          {pieces.map(({ key, recipe, number, standing, use }) => (
            <li>
              <a href={`#${key}`}>{recipe.name}</a>, revision {number}{" "}
              <Standing
                is={standing.is}
                for={standing.is === "approved" ? (standing.for ?? undefined) : undefined}
              />{" "}
              {standing.is === "approved" && standing.for === "functional" ? null : (
                <Use use={use} />
              )}
            </li>
          ))}
          <li>
            <a href="#powders">What to buy, and what not</a>
          </li>
        </ol>
      </section>
      {pieces.length === 0 ? null : (
        <section>
          <h2>The shelf that they are mixed from</h2>
          <p>{shelfWords(pieces.length, shelf.length)}. Percent of each base.</p>
          <Wide label="Percent of each base">
            <table class="lines">
              <caption class="hidden-words">Percent of base of each material</caption>
              <thead>
                <tr>
                  <th scope="col">Material</th>
                  {pieces.map(({ recipe }) => (
                    <th scope="col" class="number">
                      {recipe.name}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {shelf.map(({ slug, name, percents }) => (
                  <tr>
                    <th scope="row">{nameOf(handout, slug, name)}</th>
                    {percents.map((percent) => (
                      <td class="number">{percent ?? <span class="hidden-words">none</span>}</td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </Wide>
        </section>
      )}
    </>
  );
};

/** What the reader calls a powder of the handout. */
export function nameOf({ powders }: ShownHandout, slug: string, name: string): string {
  const powder = powders.find((each) => each.slug === slug);
  return powder ? powderWords(powder) : name;
}
