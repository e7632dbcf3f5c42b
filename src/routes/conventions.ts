import { z } from "zod";
import {
  type Chemistry,
  type ChemistryRequest,
  type Conventions,
  workOut,
} from "../chem/chemistry.ts";
import { oldAnalyses } from "../chem/findings-analyses.ts";
import { chemistryLines } from "../db/drafts.ts";
import type { FoundRevision } from "../db/revisions.ts";
import { conventionFields } from "../wire/chemistry-body.ts";
import type { Ctx } from "../wire/context.ts";
import { batchBox } from "./batch-box.ts";

const chosen = z.object(conventionFields);
const usual: Conventions = chosen.parse({});

/** How a page's address asks for a revision's chemistry: by which conventions, and weighed how. */
export type ReadAs = {
  chemistry: Chemistry;
  conventions: Conventions;
  batch: ReturnType<typeof batchBox>;
  /** What the address asks beside what is usual, for links that have to ask the same. */
  asked: Record<string, string>;
};

/**
 * A revision's chemistry for its page, counted as the address asks, with the batch to weigh. Once
 * somebody chose a batch, its weighing counts in every ±; analyses that have grown old are told as of
 * today.
 */
export function readAs(c: Ctx, revision: FoundRevision): ReadAs {
  const query = c.req.query();
  const conventions = conventionsOf(query);
  const batch = batchBox(revision, {
    grams: query.grams,
    scaleGrams: query.scaleGrams ?? c.var.studio.scaleGrams.toFixed(),
  });
  const asked = {
    ...(isUsual(conventions) ? {} : conventions),
    ...(query.grams !== undefined && batch.sheet
      ? { grams: batch.grams, scaleGrams: batch.scaleGrams }
      : {}),
  };
  const request = requestOf(c, revision, asked);
  const chemistry =
    Object.keys(asked).length > 0
      ? workOut({ ...request, explain: true })
      : withAges(revision.chemistry, request);
  return { chemistry, conventions, batch, asked };
}

/** What the chemistry is asked for a revision, by the conventions and the weighing in an address. */
export function requestOf(
  c: Ctx,
  revision: FoundRevision,
  query: Record<string, string>,
): ChemistryRequest & { today: string } {
  const { sheet } = batchBox(revision, query);
  const { use, cones, lines } = revision;
  return {
    lines: chemistryLines(lines),
    use,
    cone: cones.high,
    today: c.var.now.toISOString().slice(0, 10),
    ...conventionsOf(query),
    ...(query.grams !== undefined &&
      sheet && { grams: sheet.baseGrams, scaleGrams: sheet.scaleGrams }),
  };
}

/** What is kept knows no day; how old its analyses are is said when it is read. */
function withAges(
  chemistry: Chemistry,
  { lines, today }: ChemistryRequest & { today: string },
): Chemistry {
  const ages = oldAnalyses(lines, today);
  return ages.length === 0
    ? chemistry
    : { ...chemistry, findings: [...chemistry.findings, ...ages] };
}

const isUsual = ({ unity, iron, boron }: Conventions): boolean =>
  unity === usual.unity && iron === usual.iron && boron === usual.boron;

/** What a reader chose to count how; what cannot be read is the usual. */
export function conventionsOf(typed: unknown): Conventions {
  const read = chosen.safeParse(typed);
  return read.success ? read.data : usual;
}
