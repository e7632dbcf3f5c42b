import type { Move } from "../../src/chem/moves.ts";
import { MoveList } from "../recipes/today.tsx";

type RecomputationsProps = {
  engine: string;
  stale: number;
  items: readonly {
    slug: string;
    name: string;
    number: number;
    from: string;
    moves: readonly Move[];
  }[];
  next: string | undefined;
};

/** What the engine of today sees otherwise than the one before it. */
export const Recomputations = ({ engine, stale, items, next }: RecomputationsProps) => (
  <section>
    <h1>What a new engine sees otherwise</h1>
    <p>
      Chemistry is stored with the version of the engine that worked it out. This is engine {engine}
      .{" "}
      {stale === 0
        ? "Every revision has been worked out by it."
        : `${stale} revisions still show what an earlier engine made of them; they are worked out anew beside the requests.`}
    </p>
    {items.length === 0 ? <p>Nothing that matters moved in any revision.</p> : null}
    {items.map(({ slug, name, number, from, moves }) => (
      <section>
        <h2>
          <a href={`/recipes/${slug}/revisions/${number}`}>
            {name}, revision {number}
          </a>
        </h2>
        <p>From engine {from}:</p>
        <MoveList moves={moves} />
      </section>
    ))}
    {next ? (
      <p>
        <a class="button" href={`/recomputations?after=${next}`} rel="next">
          More revisions
        </a>
      </p>
    ) : null}
  </section>
);
