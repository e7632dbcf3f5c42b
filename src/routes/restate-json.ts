import { Decimal } from "decimal.js";
import { additionsOn100 } from "../chem/restate-additions.ts";
import { cannotBeToldApart, isWithinOwnDoubt } from "../chem/restate-doubt.ts";
import type { Miss } from "../chem/restate-reasons.ts";
import type { Moles } from "../chem/restating.ts";
import type { NameThere } from "../db/names-in-region.ts";
import type { Restated, RestatedBase } from "../work/restate.ts";
import type { Prices } from "./restate-cost.ts";
import { figuresOf, type RestatedFigures } from "./restate-figures.ts";
import { baseLines, type ShelfRead, type Target, type UsedAnalysis } from "./restate-reading.ts";

/** A line of a restated recipe; `material` is what the request calls it. */
export type RestatedLine = {
  material: string;
  name: string;
  part: "base" | "addition";
  amount: string;
  /** Which analysis of a base powder counts; not there for one that was sent along. */
  analysis?: UsedAnalysis;
  /** What to ask for in the region that was named; null where no name there is on record. */
  called?: NameThere | null;
};

export type RestatedAnswer = {
  status: "exact" | "nearest" | "none";
  lines: RestatedLine[];
  unity: Moles | null;
  misses: Miss[];
  sum: number | null;
  worst: number | null;
  withinDoubt: boolean | null;
  because?: string;
  /** Where there is a mix. */
  figures?: RestatedFigures;
  stopped?: "nodes" | "clock";
  others: { status: "exact" | "nearest"; lines: RestatedLine[]; sum: number; worst: number }[];
  leftOut: ShelfRead["leftOut"];
  seconds: number;
};

type Answering = {
  target: Target;
  read: ShelfRead & { prices?: Prices | null };
  keepAdditions: boolean;
  seconds: number;
  /** By what the request calls a powder, where a region was named. */
  called?: ReadonlyMap<string, NameThere | null> | undefined;
};

/** What a restating comes to, as the wire says it. */
export function restatedAnswer(
  restated: Exclude<Restated, { kind: "late" }>,
  { target, read, keepAdditions, seconds, called }: Answering,
): RestatedAnswer {
  const { leftOut, shelf, prices = null } = read;
  if (restated.kind === "none") {
    const nothing = { unity: null, sum: null, worst: null, withinDoubt: null };
    const { because } = restated;
    return {
      status: "none",
      lines: [],
      misses: [],
      ...nothing,
      because,
      others: [],
      leftOut,
      seconds,
    };
  }
  const named = (key: string) => (called ? { called: called.get(key) ?? null } : {});
  const kept = keepAdditions
    ? additionsOn100(target.additions, target.base).map(({ material, name, amount }) => ({
        ...{ material, name, part: "addition" as const },
        amount: amount.toFixed(),
        ...named(material),
      }))
    : [];
  const linesOf = ({ base }: RestatedBase): RestatedLine[] => [
    ...base.map(({ key, amount }) => {
      const { name = key, used } = shelf.find((each) => each.key === key) ?? {};
      return {
        ...{ material: key, name, part: "base" as const, amount },
        ...(used && { analysis: used }),
        ...named(key),
      };
    }),
    ...kept,
  ];
  const base = restated.base.map(({ key, amount }) => ({ key, amount: new Decimal(amount) }));
  const mixed = baseLines(base, shelf);
  const { status, unity, misses, sum, worst, stopped, others } = restated;
  return {
    status,
    lines: linesOf(restated),
    unity,
    misses,
    sum,
    worst,
    withinDoubt:
      target.base.length > 0
        ? cannotBeToldApart(target.base, mixed)
        : isWithinOwnDoubt(target.wanted, target.counted, mixed),
    figures: figuresOf(base, { shelf, target, prices }),
    ...(stopped ? { stopped } : {}),
    others: others.map((other) => ({
      ...{ status: other.status, lines: linesOf(other), sum: other.sum, worst: other.worst },
    })),
    leftOut,
    seconds,
  };
}
