import { type Chemistry, type Quantity, workOut } from "../chem/chemistry.ts";
import type { ChemistryLine } from "../chem/chemistry-types.ts";
import type { Oxide } from "../chem/oxides.ts";
import { type BaseCost, costOfBase, type Prices } from "./restate-cost.ts";
import { baseLines, type OnShelf, type Target } from "./restate-reading.ts";

/** A figure of the restated base, and of the one that was wanted where that has lines. */
type Beside<Of> = { got: Of; wanted: Of | null };

type ExpansionOfBase = { value: number | null; plusMinus: number | null; outside: Oxide[] };

/** Figures of the bases alone: additions come on top of both alike. */
export type RestatedFigures = {
  loss: Beside<Quantity>;
  expansion: {
    says: string;
    models: ({ model: string; name: string } & Beside<ExpansionOfBase>)[];
  };
  cost?: { currency: string } & Beside<BaseCost>;
};

/** Said with every expansion here: none of them is a word on fit. */
const noWordOnFit =
  "no reference on this body yet: a number like this says nothing of fit by itself";

/** What the restated base loses, how its glass expands and what it costs, beside what was wanted. */
export function figuresOf(
  base: Parameters<typeof baseLines>[0],
  { shelf, target, prices }: { shelf: readonly OnShelf[]; target: Target; prices: Prices | null },
): RestatedFigures {
  const got = workOut({ lines: baseLines(base, shelf) });
  const wanted = target.base.length > 0 ? workOut({ lines: target.base }) : undefined;
  return {
    loss: { got: lossOf(got), wanted: wanted ? lossOf(wanted) : null },
    expansion: {
      says: noWordOnFit,
      models: got.expansion.map((each) => {
        const { model, name = model } = each;
        const other = wanted?.expansion.find((one) => one.model === model);
        return { model, name, got: answered(each), wanted: other ? answered(other) : null };
      }),
    },
    ...(prices && { cost: costBeside(base, shelf, target.base, prices) }),
  };
}

const lossOf = ({ lossOnIgnition: { value, plusMinus } }: Chemistry): Quantity => ({
  value,
  plusMinus,
});

const answered = ({ value, plusMinus, outside }: Chemistry["expansion"][number]) => ({
  value,
  plusMinus,
  outside,
});

function costBeside(
  base: Parameters<typeof baseLines>[0],
  shelf: readonly OnShelf[],
  wanted: readonly (ChemistryLine & { pinned: { materialId: string } | null })[],
  prices: Prices,
) {
  const got = base.map(({ key, amount }) => {
    const { name = key, materialId } = shelf.find((each) => each.key === key) ?? {};
    return { name, amount, materialId };
  });
  const before = wanted.map(({ name, amount, pinned }) => ({
    ...{ name, amount, materialId: pinned?.materialId },
  }));
  return {
    currency: prices.currency,
    got: costOfBase(got, prices),
    wanted: before.length > 0 ? costOfBase(before, prices) : null,
  };
}
