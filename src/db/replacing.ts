import { Decimal } from "decimal.js";
import { type ChemistryRequest, faultsOfRequest } from "../chem/chemistry.ts";
import { bringBaseTo100 } from "../chem/lines.ts";
import type { Oxide } from "../chem/oxides.ts";
import { additionsOn100 } from "../chem/restate-additions.ts";
import { countedOxides, type Moles, restatable, unityOfMix } from "../chem/restating.ts";
import type { PinnedAnalysis } from "./analyses.ts";
import { chemistryLines, type DraftLine } from "./drafts.ts";
import type { MaterialOnShelf } from "./materials.ts";
import type { FoundRevision } from "./revisions.ts";

/** A powder by the analysis that it is to be counted with from now on. */
export type Powder = MaterialOnShelf & { inUse: PinnedAnalysis };

/** What becomes of a material: it ends, or it goes on with another analysis. */
export type Replacing = {
  material: { id: string; slug: string; name: string };
  /** The material itself by its other analysis; null where it ends. */
  goesOn: Powder | null;
  /** What may stand in. */
  offered: readonly Powder[];
};

export type ReplacingTarget =
  | { kind: "target"; wanted: Moles; counted: Oxide[]; kept: Powder[] }
  | { kind: "by hand"; because: string };

/**
 * What a head is to be restated to, by the analyses that it was published with, and which of its
 * powders it keeps: those that are still sold or are offered. An addition is there for what it does
 * and not for its oxides, so one that has to go is left to a person.
 */
export function targetOf(
  head: FoundRevision,
  { material, goesOn, offered }: Replacing,
): ReplacingTarget {
  if (head.lines.some(({ part, material: { id } }) => part === "addition" && id === material.id))
    return {
      kind: "by hand",
      because: `${material.name} is an addition here, for what it does and not for its share of the formula. Whoever knows the glaze has to say what becomes of it.`,
    };
  const base = head.lines.filter(({ part }) => part === "base");
  const wanted = unityOfMix(
    base.flatMap(({ material: { slug, name }, analysis, amount }) =>
      analysis
        ? [
            {
              ...restatable({ key: slug, name, analysis: analysis.analysis }),
              amount: amount.toNumber(),
            },
          ]
        : [],
    ),
  );
  if (!wanted) return { kind: "by hand", because: "Its base has no flux to be counted by." };
  const known = new Map(offered.map((powder) => [powder.id, powder]));
  const kept = base.flatMap((line): Powder[] => {
    if (line.material.id === material.id) return goesOn ? [goesOn] : [];
    const powder = known.get(line.material.id) ?? line.material;
    return hasAnalysis(powder) && (powder.stillSold || known.has(powder.id)) ? [powder] : [];
  });
  const once = new Map(kept.map((powder) => [powder.id, powder]));
  return {
    kind: "target",
    wanted,
    counted: countedOxides("lines", wanted),
    kept: [...once.values()],
  };
}

export const hasAnalysis = <Material extends MaterialOnShelf>(
  material: Material,
): material is Material & Powder => material.inUse !== null;

/**
 * The lines of a head with another base: its additions in the same percent of it, everything pinned
 * to today's analyses. `exact` has eight decimals, `weighed` hundredths of the base, as people weigh.
 *
 * @param base slugs and percents of the base, as restating gives them.
 */
export function restatedLines(
  head: FoundRevision,
  base: readonly { key: string; amount: string }[],
  powders: readonly Powder[],
): { exact: DraftLine[]; weighed: DraftLine[] } {
  const bySlug = new Map(powders.map((powder) => [powder.slug, powder]));
  const restated = base.flatMap(({ key, amount }): DraftLine[] => {
    const powder = bySlug.get(key);
    if (!powder) return [];
    return [
      { part: "base", material: powder, analysis: powder.inUse, amount: new Decimal(amount) },
    ];
  });
  const additions = additionsOn100(
    head.lines.filter(({ part }) => part === "addition"),
    head.lines.filter(({ part }) => part === "base"),
  ).map(
    ({ material, analysis, amount }): DraftLine => ({
      ...{ part: "addition", material, amount },
      analysis: bySlug.get(material.slug)?.inUse ?? material.inUse ?? analysis,
    }),
  );
  const weighed = [
    ...(bringBaseTo100(restated) ?? restated),
    ...additions.map((line) => ({ ...line, amount: line.amount.toDecimalPlaces(6) })),
  ];
  return {
    exact: [...restated, ...additions],
    weighed: weighed.filter(({ amount }) => amount.gt(0)),
  };
}

/** What chemistry is asked of a head, or of other lines in its place. */
export const requestOf = (
  { use, cones }: FoundRevision,
  lines: readonly DraftLine[],
): ChemistryRequest => ({ lines: chemistryLines(lines), use, cone: cones.high });

/** Whether lines can be published: they may have become too many, for one. */
export const arePublishable = (lines: readonly DraftLine[]): boolean =>
  faultsOfRequest({ lines: chemistryLines(lines) }).length === 0;
