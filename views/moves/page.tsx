import { DustCaution } from "../parts/cautions.tsx";
import { pageReading } from "../parts/reading.ts";
import { Term } from "../parts/term.tsx";
import { MovedGlaze } from "./answer.tsx";
import { MovesForm } from "./form.tsx";
import { Neighbours } from "./neighbours.tsx";
import type { MovesPageProps } from "./types.ts";

/** A recipe's unity formula with a press for each oxide, and the recipe that a press leads to. */
export const MovesPage = (props: MovesPageProps) => {
  const { recipe, revision, moved, neighbours, member, idempotencyKey } = props;
  const source = { ...recipe, number: revision.number, cones: revision.cones };
  return (
    <article class="moves">
      <h1>Move an oxide of {recipe.name}</h1>
      <p>
        From{" "}
        <a href={`/recipes/${recipe.slug}/revisions/${revision.number}`}>
          {recipe.name}, revision {revision.number}
        </a>
        . Move an oxide of its{" "}
        <Term
          guide="unity-formula#moles"
          means="The glaze counted in moles, with all its fluxes together set to one. Two glazes are alike when these figures are, whatever powders they came from."
        >
          unity formula
        </Term>{" "}
        and read what to weigh for it. Nothing is stored: the address of this page holds all of it,
        so that you can send it on, and go back with your browser.{" "}
        {moved ? <a href="#moves">Move it further</a> : null}
      </p>
      {moved ? (
        <MovedGlaze
          moved={moved}
          rows={props.rows}
          source={source}
          member={member}
          idempotencyKey={idempotencyKey}
        />
      ) : null}
      {props.leftOut.length > 0 ? (
        <ul>
          {props.leftOut.map(({ because }) => (
            <li>{because}</li>
          ))}
        </ul>
      ) : null}
      <CountedUsually />
      <MovesForm {...props} />
      <section id="nearest">
        <h2>
          Nearest in chemistry to{" "}
          {neighbours.to === "moved" ? "what comes of it" : `${recipe.name} as it is`}
        </h2>
        <Neighbours neighbours={neighbours} from={`${recipe.slug}@${revision.number}`} />
      </section>
      <DustCaution />
    </article>
  );
};

/** A move in an address means the same to everybody, so settings do not change it. */
const CountedUsually = () => {
  const { unity, iron, boron, setAt } = pageReading();
  if (unity === "fluxes" && iron === "Fe2O3" && boron === "apart") return null;
  return (
    <p class="counted-by">
      Counted the usual way here, whatever your <a href={setAt}>settings</a> say: unity over the
      fluxes, iron as Fe₂O₃. A move in the address of this page then means the same to everybody.
    </p>
  );
};
