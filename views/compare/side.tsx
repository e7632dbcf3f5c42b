import type { Child } from "hono/jsx";
import { Standing, Use } from "../parts/standing.tsx";
import { claimWords } from "../tiles/cone-words.ts";
import { TileFigure } from "../tiles/gallery.tsx";
import { type ShownSide, sideName } from "./types.ts";
import { costWords } from "./words.ts";

type SideProps = { side: ShownSide; other: ShownSide };

/** One of two revisions: what it is for, how it is fired, what it costs and where it stands. */
export const Side = ({ side, other }: SideProps) => {
  const { recipe, revision, standing, cost } = side;
  const by = [revision.author, ...revision.coauthors].map(({ name }) => name).join(" and ");
  const fact = (of: (of: ShownSide) => string) => ({
    says: of(side),
    differs: of(side) !== of(other),
  });
  return (
    <section class="compare-side">
      <h2>
        <a href={`/recipes/${recipe.slug}/revisions/${revision.number}`}>
          {recipe.name}, revision {revision.number}
        </a>
      </h2>
      <p>by {by}</p>
      {standing ? (
        <>
          <p>
            <Standing is={standing.is} for={standing.for ?? undefined} />
          </p>
          <p>{standing.because.join(" ")}</p>
        </>
      ) : null}
      <dl class="tile-facts">
        <Fact name="Use" differs={revision.use !== other.revision.use}>
          <Use use={revision.use} />
        </Fact>
        <Said name="Cones" {...fact((of) => claimWords(of.revision.cones))} />
        <Said name="Atmosphere" {...fact((of) => of.revision.atmosphere)} />
        <Said name="Surface" {...fact((of) => of.revision.surface || "not said")} />
        {cost ? (
          <Said
            name="Cost of 1 kg of base"
            {...fact((of) => (of.cost ? costWords(of.cost) : ""))}
          />
        ) : null}
      </dl>
    </section>
  );
};

type FactProps = { name: string; differs: boolean; children?: Child };

const Fact = ({ name, differs, children }: FactProps) => (
  <div>
    <dt>{name}</dt>
    <dd>
      {children}
      {differs ? <strong class="compare-differs">differs</strong> : null}
    </dd>
  </div>
);

const Said = ({ says, ...fact }: { name: string; says: string; differs: boolean }) => (
  <Fact {...fact}>{says}</Fact>
);

/** The tiles of one of the two, so that a picture stands beside a picture. */
export const SideTiles = ({ side }: { side: ShownSide }) => {
  const here = { slug: side.recipe.slug, number: side.revision.number };
  return (
    <section class="compare-side">
      <h3>{sideName(side)}</h3>
      {side.tiles.length === 0 ? (
        <p>No tile of this melt has been fired yet.</p>
      ) : (
        <ul class="gallery-tiles">
          {side.tiles.map((tile) => (
            <li>
              <TileFigure tile={tile} here={here} first={false} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
};
