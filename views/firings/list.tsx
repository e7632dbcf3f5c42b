import { KilnCaution } from "../parts/cautions.tsx";
import { KilnPages } from "./kiln-pages.tsx";
import { FiringRows } from "./rows.tsx";
import type { Firing } from "./types.ts";

type FiringsProps = {
  firings: readonly Firing[];
  /** Where the next page is, or null on the last. */
  next: string | null;
  mayAdd: boolean;
};

/** What was fired, newest first: the way to what a tile stood in. */
export const Firings = ({ firings, next, mayAdd }: FiringsProps) => (
  <section id="firings">
    <h1>Firings</h1>
    <KilnPages here="/firings" />
    <p>
      What was fired, newest first. A firing is set for a cone; which cone it came to is what the
      witness cones beside the ware say.
    </p>
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href="/firings/new">
          Put a firing on record
        </a>
      </p>
    ) : null}
    <FiringRows firings={firings} next={next} />
    <KilnCaution />
  </section>
);
