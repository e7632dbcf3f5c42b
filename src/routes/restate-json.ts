import { Decimal } from "decimal.js";
import { additionsOn100 } from "../chem/restate-additions.ts";
import { cannotBeToldApart, isWithinOwnDoubt } from "../chem/restate-doubt.ts";
import type { Miss } from "../chem/restate-reasons.ts";
import type { Moles } from "../chem/restating.ts";
import type { Restated, RestatedBase } from "../work/restate.ts";
import type { Prices } from "./restate-cost.ts";
import { figuresOf, type RestatedFigures } from "./restate-figures.ts";
import { baseLines, type ShelfRead, type Target } from "./restate-reading.ts";

/** A line of a restated recipe; `material` is what the request calls it. */
export type RestatedLine = {
  material: string;
  name: string;
  part: "base" | "addition";
  amount: string;
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
};

/** What a restating comes to, as the wire says it. */
export function restatedAnswer(
  restated: Exclude<Restated, { kind: "late" }>,
  { target, read, keepAdditions, seconds }: Answering,
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
  const kept = keepAdditions
    ? additionsOn100(target.additions, target.base).map(({ material, name, amount }) => ({
        ...{ material, name, part: "addition" as const },
        amount: amount.toFixed(),
      }))
    : [];
  const linesOf = ({ base }: RestatedBase): RestatedLine[] => [
    ...base.map(({ key, amount }) => {
      const name = shelf.find((each) => each.key === key)?.name ?? key;
      return { material: key, name, part: "base" as const, amount };
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
