import { Decimal } from "decimal.js";
import type { LineRead, PreviewProps } from "../../views/recipes/preview.tsx";
import { accountOf } from "../chem/account.ts";
import type { Analysis } from "../chem/analysis.ts";
import {
  type Chemistry,
  type ChemistryLine,
  type Conventions,
  faultsOfRequest,
  workOut,
} from "../chem/chemistry.ts";
import { analysisOfFormula } from "../chem/worked-out.ts";
import type { Db } from "../db/client.ts";
import { type LineReading, readLines } from "../db/line-reading.ts";
import type { MaterialOnShelf } from "../db/materials.ts";
import type { FormLine } from "../wire/worksheet-form.ts";

/** What typed rows come to as they stand; whatever is still open is said, nothing is refused. */
export async function previewOf(
  db: Db,
  lines: readonly FormLine[],
  { conventions = {}, change = "", today }: Asking = {},
): Promise<PreviewProps> {
  const readings = await readLines(db, lines);
  const read = readings.map(readingOf);
  const waitsFor = read.flatMap(({ row, amount, open }) => [
    ...(open ? [`Row ${row + 1} waits for its material.`] : []),
    ...(amount ? [] : [`Row ${row + 1} waits for an amount.`]),
  ]);
  const chemistry =
    waitsFor.length === 0 && read.length > 0
      ? chemistryOf(read, { ...conventions, today })
      : undefined;
  const asked = /^ask-(.+)$/.exec(change)?.[1];
  return {
    lines: read.map(({ shown }) => shown),
    asked: asked && typeof chemistry === "object" ? accountIn(read, conventions, asked) : undefined,
    chemistry: typeof chemistry === "string" ? undefined : chemistry,
    waitsFor: typeof chemistry === "string" ? [chemistry] : waitsFor,
  };
}

/** By which conventions, and the button that was pressed: `ask-unity.SiO2` asks for a number. */
type Asking = {
  conventions?: Partial<Conventions>;
  change?: string;
  /** The day to judge an analysis's age by, such as 2026-03-01. */
  today?: string;
};

function accountIn(read: readonly RowRead[], conventions: Partial<Conventions>, name: string) {
  const lines = weighed(read);
  const account = accountOf({ lines, ...conventions }, name);
  if (!account) return undefined;
  const named = read.map(({ line, shown: { says, material } }) => ({
    name: line.name,
    analysis: says,
    href: material && `/materials/${encodeURIComponent(material.slug)}`,
  }));
  return { account, lines: named };
}

const weighed = (read: readonly RowRead[]): ChemistryLine[] =>
  read.map(({ line, amount }) => ({ ...line, amount: amount ?? new Decimal(0) }));

type RowRead = {
  row: number;
  open: boolean;
  amount: Decimal | undefined;
  line: Omit<ChemistryLine, "amount">;
  shown: LineRead;
};

function readingOf(line: LineReading<FormLine>, row: number): RowRead {
  const amount = /^\d{1,9}(\.\d{1,9})?$/.test(line.amount) ? new Decimal(line.amount) : undefined;
  const typed = `${line.material || line.formula} ${line.amount}`.trim();
  const start = { row, amount };
  const shown = { row, typed, choices: [], material: undefined };
  if (line.formula) {
    const worked = analysisOfFormula(line.formula);
    const open = worked.kind === "unreadable";
    const name = line.material || line.formula;
    const analysis = open ? null : worked.analysis;
    const says = open
      ? worked.says
      : `worked out from ${line.formula}: ${inBrief(worked.analysis)}`;
    return {
      ...start,
      open,
      line: { key: `formula ${line.formula}`, name, part: line.part, analysis },
      shown: { ...shown, says },
    };
  }
  const { match } = line;
  const bare = { key: line.material, name: line.material, part: line.part, analysis: null };
  if (match.kind === "sure") {
    const { material } = match;
    const { inUse } = material;
    return {
      ...start,
      open: false,
      line: {
        ...bare,
        key: inUse?.id ?? material.id,
        name: material.name,
        analysis: inUse?.analysis ?? null,
        analysedOn: inUse?.measuredOn ?? undefined,
      },
      shown: { ...shown, material, says: saysOf(material) },
    };
  }
  const choices =
    match.kind === "ask"
      ? match.candidates.map(({ material, because }) => ({
          slug: material.slug,
          name: material.name,
          because,
        }))
      : [];
  const says = match.kind === "ask" ? "may be one of these. Choose:" : "is not on the shelf.";
  return { ...start, open: true, line: bare, shown: { ...shown, says, choices } };
}

/** The chemistry, or what is wrong with the lines as a whole. */
function chemistryOf(
  read: readonly RowRead[],
  asked: Partial<Conventions> & { today?: string | undefined },
): Chemistry | string {
  const lines = weighed(read);
  const faults = faultsOfRequest({ lines });
  return faults.length > 0
    ? faults.map(({ says }) => says).join(" ")
    : workOut({ lines, explain: true, ...asked });
}

const saysOf = ({ inUse, stillSold }: MaterialOnShelf): string => {
  const sold = stillSold ? "" : " No longer sold.";
  if (!inUse) return `has no analysis: the chemistry leaves it out and cannot judge it.${sold}`;
  const dated = inUse.measuredOn ? `, ${inUse.measuredOn}` : "";
  return `${inBrief(inUse.analysis)} (${inUse.source}${dated}).${sold}`;
};

/** The largest oxides and the loss, in percent of the powder. */
function inBrief({ oxides, lossOnIgnition }: Analysis): string {
  const largest = Object.entries(oxides)
    .sort(([, a], [, b]) => b.percent.cmp(a.percent))
    .slice(0, 4)
    .map(([oxide, { percent }]) => `${oxide} ${percent.toDecimalPlaces(1)}`);
  const loss = lossOnIgnition ? [`loss ${lossOnIgnition.percent.toDecimalPlaces(1)}`] : [];
  return `${[...largest, ...loss].join(", ")} %`;
}
