import { Decimal } from "decimal.js";
import { bringBaseTo100 } from "../chem/lines.ts";
import { readRecipeText } from "../chem/recipe-text.ts";
import type { Fault } from "./problems.tsx";
import type { FormLine } from "./worksheet-form.ts";

export type Changed = { lines: FormLine[]; pasted: string; faults: Fault[] };

/**
 * Carries out what a button beside the worksheet asks for, on what is typed; nothing is stored.
 * `to-100`, `read-text`, `drop-3`, `choose-3-quartz`; anything else (`work-out`) only shows the
 * worksheet again.
 *
 * @param prefix the path of the lines' parent in the form, with its dot: `revision.` or nothing.
 */
export function changeWorksheet(
  change: string,
  lines: FormLine[],
  pasted: string,
  prefix = "",
): Changed {
  if (change === "to-100") return { ...broughtTo100(lines, prefix), pasted };
  if (change === "read-text") return readText(lines, pasted);
  const [, chosen, slug] = /^choose-(\d{1,3})-([a-z0-9-]{1,80})$/.exec(change) ?? [];
  if (slug) {
    const choose = (line: FormLine, row: number) =>
      row === Number(chosen) ? { ...line, material: slug } : line;
    return { lines: lines.map(choose), pasted, faults: [] };
  }
  const dropped = /^drop-(\d{1,3})$/.exec(change)?.[1];
  if (dropped === undefined) return { lines, pasted, faults: [] };
  return { lines: lines.filter((_, row) => row !== Number(dropped)), pasted, faults: [] };
}

function broughtTo100(lines: FormLine[], prefix: string): Omit<Changed, "pasted"> {
  const faults = lines.flatMap(({ amount }, row) =>
    /^\d{1,9}(\.\d{1,9})?$/.test(amount)
      ? []
      : [{ path: `${prefix}lines.${row}.amount`, says: "Give this line a number first." }],
  );
  if (faults.length > 0) return { lines, faults };
  const weighed = bringBaseTo100(
    lines.map((line) => ({ ...line, amount: new Decimal(line.amount) })),
  );
  if (!weighed) {
    return {
      lines,
      faults: [
        {
          path: `${prefix}lines.0.amount`,
          says: "The base totals 0: there is nothing to bring to 100.",
        },
      ],
    };
  }
  return { lines: weighed.map((line) => ({ ...line, amount: line.amount.toFixed() })), faults: [] };
}

/** Read rows are added below what is there; what could not be read stays in the box to be put right. */
function readText(lines: FormLine[], pasted: string): Changed {
  const read = readRecipeText(pasted);
  const added = read.lines.map(
    ({ part, name, amount }): FormLine => ({
      part,
      material: name,
      amount: amount.toFixed(),
      formula: "",
    }),
  );
  const all = [...lines, ...added];
  return {
    lines: [
      ...all.filter(({ part }) => part === "base"),
      ...all.filter(({ part }) => part === "addition"),
    ],
    pasted: read.faults.map(({ text }) => text).join("\n"),
    faults: read.faults.map(({ row, says }) => ({ path: "pasted", says: `Row ${row}: ${says}` })),
  };
}
