import { Decimal } from "decimal.js";
import { readAmount } from "../chem/amount-text.ts";
import { isOxide } from "../chem/oxides.ts";
import type { MaterialInFile, RefusedInFile } from "../db/import-types.ts";
import { foldName } from "../db/names.ts";
import { analysisInFile } from "../wire/analysis-body.ts";
import { check } from "../wire/body.ts";
import type { CsvTable } from "../wire/csv-table.ts";
import { line } from "../wire/fields.ts";
import type { Fault } from "../wire/problems.tsx";
import { mostMaterials } from "./import-body.ts";
import { cellPlace, hasDecimalComma, type RowByWord, rowsByWord } from "./import-columns.ts";
import type { ReadOutcome } from "./import-json.ts";

const texts = ["material", "region", "kind", "source", "measuredOn", "basis", "formula"] as const;
const loss = "lossOnIgnition";
const words = new Map([...texts, loss].map((word) => [word.toLowerCase(), word]));

/** An oxide as a heading has it, `SiO2` or `SiO₂`; `± SiO2` is how well it is known. */
function oxideOf(heading: string): string | undefined {
  const plain = heading.replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080));
  const [, doubt, oxide = ""] = /^(±|\+\/-)?\s*(\S+)$/.exec(plain) ?? [];
  const named = words.get(oxide.toLowerCase()) === loss ? loss : isOxide(oxide) ? oxide : undefined;
  return named && (doubt ? `± ${named}` : named);
}

const wordOf = (heading: string): string | undefined =>
  words.get(heading.toLowerCase().replace(/[\s_-]+/g, "")) ?? oxideOf(heading);

/** Whether this heading is that of analyses, one a row. */
export const isAnalysesHeading = (header: readonly string[]): boolean =>
  header.some((heading) => wordOf(heading) === "material");

/**
 * Analyses as CSV: each row a material with its source, and a column for each oxide in percent of the
 * powder, or a formula. Rows of one name are analyses of one material.
 */
export function readAnalysesCsv(table: Extract<CsvTable, { kind: "table" }>): ReadOutcome {
  const read = rowsByWord(table, wordOf);
  if (read.kind === "faulty") return { kind: "faulty", faults: read.faults.map(withOxideWord) };
  const figures = table.header.flatMap((heading) => {
    const word = wordOf(heading);
    return word && !(texts as readonly string[]).includes(word) ? [word] : [];
  });
  const decimalComma = hasDecimalComma(read.rows, figures);
  const materials = new Map<string, MaterialInFile>();
  const refused: RefusedInFile[] = [];
  for (const row of read.rows) {
    const made = materialOf(row, figures, decimalComma);
    if ("faults" in made) {
      refused.push(made);
      continue;
    }
    const key = foldName(made.name);
    const before = materials.get(key);
    materials.set(
      key,
      before ? { ...before, analyses: [...before.analyses, ...made.analyses] } : made,
    );
  }
  if (materials.size > mostMaterials) {
    const says = `At most ${mostMaterials} materials a file.`;
    return { kind: "faulty", faults: [{ path: "", says }] };
  }
  const file = {
    kind: "analyses as csv",
    materials: [...materials.values()],
    recipes: [],
    refused,
    leftBehind: [],
  } as const;
  return { kind: "read", file };
}

const withOxideWord = ({ path, says }: Fault): Fault => ({
  path,
  says: says.startsWith("No column")
    ? `${says} An oxide is written as it is reported: SiO2, Fe2O3 for iron, MnO for manganese.`
    : says,
});

function materialOf(
  { row, cells }: RowByWord,
  figures: readonly string[],
  decimalComma: boolean,
): MaterialInFile | RefusedInFile {
  const place = `row ${row}`;
  const faults: Fault[] = [];
  const percent = (word: string) => {
    const typed = cells.get(word);
    if (typed === undefined) return undefined;
    const gained = word === loss && /^[-−]/.test(typed);
    const read = readAmount(gained ? typed.slice(1) : typed, { decimalComma });
    if (read.kind === "unreadable") {
      faults.push({ path: cellPlace(row, word), says: read.says });
      return undefined;
    }
    return (gained ? read.amount.neg() : new Decimal(read.amount)).toFixed();
  };
  const figureOf = (word: string) => {
    const [value, doubt] = [percent(word), percent(`± ${word}`)];
    if (value === undefined && doubt !== undefined)
      faults.push({ path: cellPlace(row, word), says: "A ± needs the percent that it is of." });
    return value === undefined
      ? undefined
      : { percent: value, ...(doubt !== undefined && { plusMinus: doubt }) };
  };
  const given = [...new Set(figures.map((word) => word.replace(/^± /, "")))].flatMap((word) => {
    const figure = figureOf(word);
    return figure ? [[word, figure] as const] : [];
  });
  const oxides = Object.fromEntries(given.filter(([word]) => word !== loss));
  const lost = given.find(([word]) => word === loss)?.[1];
  const read = check(analysisInFile, {
    source: cells.get("source"),
    measuredOn: cells.get("measuredOn"),
    basis: cells.get("basis"),
    formula: cells.get("formula"),
    ...(Object.keys(oxides).length > 0 && { oxides }),
    ...(lost && { lossOnIgnition: lost }),
  });
  if (read.kind === "refused") {
    faults.push(
      ...read.faults.map(({ path, says }) => {
        const word = path.replace(/^oxides\.?/, "").split(".")[0] ?? "";
        return { path: word ? cellPlace(row, word) : place, says };
      }),
    );
  }
  const texted = (word: string, schema: ReturnType<typeof line>) => {
    const said = check(schema, cells.get(word) ?? "");
    if (said.kind === "read") return said.value;
    faults.push(...said.faults.map(({ says }) => ({ path: cellPlace(row, word), says })));
    return "";
  };
  const name = texted("material", line(80));
  const region = texted("region", line(60, 0));
  const kind = texted("kind", line(40, 0)) || "powder";
  if (read.kind === "refused" || faults.length > 0)
    return { noun: "analysis", place, name: name.slice(0, 80), faults };
  const analyses = [{ place, given: read.value }];
  return { place, name, region, kind, about: "", hazards: [], names: [], analyses };
}
