import { faultsOfRequest, type Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import {
  type MergeableLine,
  type Merged,
  mergeLines,
  mergeValue,
  resolve,
  type Side,
} from "../chem/merge-lines.ts";
import type { Db } from "./client.ts";
import { type Atmosphere, chemistryLines, type Draft } from "./drafts.ts";
import type { FoundOffer } from "./offers.ts";
import { type FoundLine, type FoundRevision, findRevision, findRevisions } from "./revisions.ts";

export type MergedLine = MergeableLine & { line: FoundLine };

/** What else a revision says, each merged as one. */
export type MergedFields = {
  use: Merged<Use>;
  cones: Merged<{ low: Cone; high: Cone }>;
  atmosphere: Merged<Atmosphere>;
  surface: Merged<string>;
  about: Merged<string>;
};

/** What comes of a recipe's head and an offer, with what has to be chosen where both changed. */
export type OfferMerge = {
  base: FoundRevision;
  head: FoundRevision;
  offered: FoundRevision;
  lines: Merged<MergedLine>[];
  fields: MergedFields;
};

/** An offer merged into a revision of its recipe, the head for one. */
export async function findMerge(
  db: Db,
  { offer, number }: { offer: FoundOffer; number: number },
): Promise<OfferMerge | undefined> {
  const head = await findRevision(db, { recipeId: offer.recipe.id, number });
  const found = await findRevisions(db, [offer.base.revisionId, offer.from.revisionId]);
  const base = found.find(({ id }) => id === offer.base.revisionId);
  const offered = found.find(({ id }) => id === offer.from.revisionId);
  if (!head || !base || !offered) return undefined;
  const three = <Value>(of: (revision: FoundRevision) => Value): [Value, Value, Value] => [
    of(base),
    of(head),
    of(offered),
  ];
  return {
    base,
    head,
    offered,
    lines: mergeLines(...three(mergeable)),
    fields: {
      use: mergeValue(
        "use",
        three(({ use }) => use),
        equal,
      ),
      cones: mergeValue(
        "cones",
        three(({ cones }) => cones),
        sameCones,
      ),
      atmosphere: mergeValue(
        "atmosphere",
        three(({ atmosphere }) => atmosphere),
        equal,
      ),
      surface: mergeValue(
        "surface",
        three(({ surface }) => surface),
        equal,
      ),
      about: mergeValue(
        "about",
        three(({ about }) => about),
        equal,
      ),
    },
  };
}

const equal = (a: unknown, b: unknown): boolean => a === b;

const sameCones = (a: FoundRevision["cones"], b: FoundRevision["cones"]): boolean =>
  a.low === b.low && a.high === b.high;

const mergeable = ({ lines }: FoundRevision): MergedLine[] =>
  lines.map((line) => ({
    part: line.part,
    material: line.material.slug,
    analysis: line.analysis?.id ?? null,
    amount: line.amount,
    line,
  }));

/** What somebody chose where both sides changed: key of a line, or name of a field, → side. */
export type Choices = {
  lines: Readonly<Partial<Record<string, Side>>>;
  fields: Readonly<Partial<Record<string, Side>>>;
};

export type MergedDraft =
  | { kind: "draft"; draft: Draft }
  | { kind: "open"; lines: string[]; fields: string[] }
  | { kind: "unmixable"; says: string[] };

/** The revision that a merge becomes once all is chosen. */
export function mergedDraft(
  { lines: merged, fields }: OfferMerge,
  choices: Choices,
  message: string,
): MergedDraft {
  const lines = resolve(merged, choices.lines);
  const open = Object.values(fields).filter(({ key, take }) => !take && !choices.fields[key]);
  if (lines.kind === "open" || open.length > 0) {
    const keys = lines.kind === "open" ? lines.keys : [];
    return { kind: "open", lines: keys, fields: open.map(({ key }) => key) };
  }
  const taken = lines.values.map(({ line }) => line);
  const faults = faultsOfRequest({ lines: chemistryLines(taken) });
  if (faults.length > 0) return { kind: "unmixable", says: faults.map(({ says }) => says) };
  const said = <Value>(field: Merged<Value>): Value =>
    ((field.take ?? choices.fields[field.key]) === "offer" ? field.offer : field.recipe) as Value;
  return {
    kind: "draft",
    draft: {
      lines: taken,
      use: said(fields.use),
      cones: said(fields.cones),
      atmosphere: said(fields.atmosphere),
      surface: said(fields.surface),
      about: said(fields.about),
      message,
    },
  };
}
