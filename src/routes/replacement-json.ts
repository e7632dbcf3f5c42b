import { baseTotal } from "../chem/lines.ts";
import type { DraftLine } from "../db/drafts.ts";
import type { Choices } from "./replacement-reading.ts";
import type { ReplacedBeside } from "./replacement-solving.ts";

/** What was asked for, as the request says it. */
export const choicesJson = ({ asked, analysis, offered, material }: Choices) => ({
  material: { slug: material.slug, name: material.name },
  reason: asked.reason,
  with: offered.map(({ slug }) => slug),
  analysis: analysis && {
    id: analysis.id,
    source: analysis.source,
    measuredOn: analysis.measuredOn,
    inUse: analysis.inUse,
  },
  most: asked.most,
});

/** One recipe: its lines now and restated, and what that changes. */
export function replacedJson(item: ReplacedBeside) {
  const { recipe, head, beside, approved } = item;
  const restated = "weighed" in item ? item : null;
  return {
    slug: recipe.slug,
    name: recipe.name,
    owner: recipe.owner,
    basedOn: head.number,
    is: item.is,
    because: "because" in item ? item.because : null,
    lines: {
      before: head.lines.map((line) => lineJson(line, head.lines)),
      after: restated?.weighed.map((line) => lineJson(line, restated.weighed)) ?? null,
    },
    worst: beside?.worst ?? null,
    withinDoubt: beside && beside.toldApart.length === 0,
    toldApart: beside?.toldApart ?? [],
    misses: restated?.misses ?? [],
    moreNewWouldComeNearer: restated?.nearer ?? false,
    figures: beside?.figures ?? [],
    moves: beside?.moves ?? [],
    approved,
  };
}

const lineJson = ({ part, material, amount }: DraftLine, lines: readonly DraftLine[]) => ({
  part,
  material: material.slug,
  name: material.name,
  amount: amount.toFixed(),
  percentOfBase: amount.times(100).div(baseTotal(lines)).toDecimalPlaces(6).toFixed(),
});
