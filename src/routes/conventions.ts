import { z } from "zod";
import { type Chemistry, type Conventions, workOut } from "../chem/chemistry.ts";
import { chemistryLines } from "../db/drafts.ts";
import type { FoundRevision } from "../db/revisions.ts";
import { conventionFields } from "../wire/chemistry-body.ts";
import type { Ctx } from "../wire/context.ts";

const chosen = z.object(conventionFields);
const usual: Conventions = chosen.parse({});

/** A revision's chemistry for its page, counted as the address asks. */
export function readAs(c: Ctx, revision: FoundRevision) {
  const conventions = conventionsOf(c.req.query());
  const chemistry = chemistryBy(revision, conventions);
  return { chemistry, conventions, chosen: chemistry !== revision.chemistry };
}

/** What a reader chose to count how; what cannot be read is the usual. */
export function conventionsOf(typed: unknown): Conventions {
  const read = chosen.safeParse(typed);
  return read.success ? read.data : usual;
}

/** As it is stored, or worked out anew where the reader chose otherwise. */
function chemistryBy(revision: FoundRevision, conventions: Conventions): Chemistry {
  const { unity, iron, boron } = conventions;
  if (unity === usual.unity && iron === usual.iron && boron === usual.boron) {
    return revision.chemistry;
  }
  const { use, cones, lines } = revision;
  return workOut({
    lines: chemistryLines(lines),
    use,
    cone: cones.high,
    explain: true,
    ...conventions,
  });
}
