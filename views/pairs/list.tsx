import { PairRows } from "./rows.tsx";
import type { ShownPair } from "./types.ts";

type PairsProps = {
  pairs: readonly ShownPair[];
  /** Where the next page is, or null on the last. */
  next: string | null;
  mayAdd: boolean;
};

/** Glazes laid over others, newest first. */
export const Pairs = ({ pairs, next, mayAdd }: PairsProps) => (
  <section>
    <h1>Layered pairs</h1>
    <p>
      One glaze laid over another is a third: it melts, runs and leaches in its own way. Approval of
      either says nothing of the two together, and a pair that is not here is decorative only.
    </p>
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href="/pairs/new">
          Put a pair on record
        </a>
      </p>
    ) : null}
    {pairs.length === 0 ? <p>No pair is on record.</p> : <PairRows pairs={pairs} />}
    {next === null ? null : (
      <p class="actions">
        <a class="button quiet" href={next}>
          Earlier ones
        </a>
      </p>
    )}
  </section>
);
