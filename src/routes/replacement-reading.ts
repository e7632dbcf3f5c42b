import { type HeadWith, listHeadsWith } from "../db/heads-with.ts";
import type { MaterialSheet } from "../db/material-sheets.ts";
import { hasAnalysis, type Powder, type Replacing } from "../db/replacing.ts";
import { listShelf } from "../db/shelf.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { type AskedReplacement, replacedPerPage } from "../wire/replacement-body.ts";
import { mostOnShelf } from "../wire/restate-body.ts";

/** What was asked for, as it was found. */
export type Choices = Replacing & {
  asked: AskedReplacement;
  /** The analysis that the material goes on with; null where it ends. */
  analysis: { id: string; source: string; measuredOn: string | null; inUse: boolean } | null;
};

export type ChoicesRead = { shelf: Powder[]; choices: Choices; faults: Fault[] };

/** The powders that may stand in, and the other analysis where the material goes on with one. */
export async function readChoices(
  c: Ctx,
  sheet: MaterialSheet,
  asked: AskedReplacement,
): Promise<ChoicesRead> {
  const { materials } = await listShelf(c.var.db, { limit: mostOnShelf });
  const others = materials.filter(({ id }) => id !== sheet.id);
  const shelf = others.filter(hasAnalysis);
  const faults = asked.with.flatMap((slug, at): Fault[] => {
    if (shelf.some((powder) => powder.slug === slug)) return [];
    return [{ path: `with.${at}`, says: whyNotWith(slug, sheet, others) }];
  });
  const ends = asked.reason === "ends";
  const offered = shelf.filter(({ slug, stillSold }) =>
    asked.with.length > 0 ? asked.with.includes(slug) : ends && stillSold,
  );
  const row = sheet.analyses.find(({ id, is }) =>
    asked.analysis === undefined ? is === "in use" : id === asked.analysis,
  );
  if (!ends && !row) {
    const says = asked.analysis
      ? `${sheet.name} has no such analysis.`
      : `${sheet.name} has no analysis in use.`;
    faults.push({ path: "analysis", says });
  }
  const goesOn = ends || !row ? null : { ...sheet, inUse: row };
  const analysis = goesOn && row ? { ...row, inUse: row.is === "in use" } : null;
  return { shelf, choices: { asked, material: sheet, goesOn, offered, analysis }, faults };
}

function whyNotWith(
  slug: string,
  sheet: MaterialSheet,
  others: readonly { slug: string; name: string }[],
): string {
  if (slug === sheet.slug) return `${sheet.name} cannot stand in for itself.`;
  const other = others.find((material) => material.slug === slug);
  return other
    ? `${other.name} has no analysis: it can be added, no more.`
    : `There is no material “${slug}” on the shelf.`;
}

/** The recipes that the change is about: a page of them, or those that are named. */
export const findHeads = (
  c: Ctx,
  { material, analysis, asked }: Choices,
  slugs?: readonly string[],
): Promise<{ items: HeadWith[]; next: string | null }> =>
  listHeadsWith(c.var.db, {
    materialId: material.id,
    unlessPinnedTo: analysis?.id,
    reader: c.var.viewer,
    ...(slugs ? { slugs, limit: slugs.length } : { after: asked.after, limit: replacedPerPage }),
  });
