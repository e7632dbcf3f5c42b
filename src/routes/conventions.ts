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
import { wantsJson } from "../wire/answers.tsx";
import { conventionFields } from "../wire/chemistry-body.ts";
import type { Ctx } from "../wire/context.ts";
import { batchBox } from "./batch-box.ts";

const chosen = z.object(conventionFields);

/** How things are counted where nobody chose. */
export const usualConventions: Conventions = chosen.parse({});
const usual = usualConventions;

/** Who chose how things are counted: the address, the reader's settings, or nobody. */
export type CountedBy = "address" | "settings" | "usual";

/** How a page's address asks for a revision's chemistry: by which conventions, and weighed how. */
export type ReadAs = {
  chemistry: Chemistry;
  conventions: Conventions;
  counted: { by: CountedBy; usual: string };
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
  const conventions = conventionsOf(c, query);
  const counted = { by: countedByOf(c, query), usual: usualAddress(c) };
  const batch = batchBox(revision, {
    grams: query.grams,
    pounds: query.pounds,
    usual: wantsJson(c) ? "g" : c.var.reading.weight,
    scaleGrams: query.scaleGrams ?? c.var.studio.scaleGrams.toFixed(),
  });
  const asked = {
    ...(isUsual(conventions) && isUsual(ownOf(c)) ? {} : conventions),
    ...((query.grams ?? query.pounds) !== undefined && batch.sheet
      ? { grams: batch.grams, scaleGrams: batch.scaleGrams }
      : {}),
  };
  const request = requestOf(c, revision, asked);
  const chemistry =
    !isUsual(conventions) || "grams" in asked
      ? workOut({ ...request, explain: true })
      : withAges(revision.chemistry, request);
  return { chemistry, conventions, counted, batch, asked };
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
    ...conventionsOf(c, query),
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

/** What the reader's settings say; programs get the same whoever asks. */
function ownOf(c: Ctx): Conventions {
  const { unity, iron, boron } = wantsJson(c) ? usual : c.var.reading;
  return { unity, iron, boron };
}

/**
 * What an address or a form says of how to count, and where it says nothing, the reader's settings.
 * What cannot be read counts as not said.
 */
export function conventionsOf(c: Ctx, typed: unknown): Conventions {
  const own = ownOf(c);
  const said = saidOf(typed);
  const read = chosen.safeParse(Object.keys(said).length > 0 ? { ...own, ...said } : own);
  return read.success ? read.data : own;
}

export function countedByOf(c: Ctx, typed: unknown): CountedBy {
  if (chosen.safeParse(typed).success && Object.keys(saidOf(typed)).length > 0) return "address";
  return isUsual(ownOf(c)) ? "usual" : "settings";
}

/** The address of this page with all counted the usual way, whatever the reader's settings say. */
export function usualAddress(c: Ctx): string {
  const { pathname, searchParams } = new URL(c.req.url);
  for (const [word, is] of Object.entries(usual)) searchParams.set(word, is);
  return `${pathname}?${searchParams}`;
}

const saidOf = (typed: unknown): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(typed ?? {}).filter(([word, is]) => word in conventionFields && is),
  );
