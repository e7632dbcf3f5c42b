import { writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { chemistryChecks } from "./check-chemistry.ts";
import { colourChecks } from "./check-colour.ts";
import { type CheckFamily, worst } from "./check-family.ts";
import { leachChecks } from "./check-leach.ts";
import { measureChecks } from "./check-measures.ts";

/** Every check against something outside this program, by kind. */
export const families: readonly CheckFamily[] = [
  ...chemistryChecks,
  ...measureChecks,
  ...leachChecks,
  ...colourChecks,
];

/** Where the page of checks is kept. */
export const checksFile = new URL("../../docs/checks.md", import.meta.url);

/** docs/checks.md, worked out anew. */
export function checksPage(): string {
  const count = families.reduce((sum, { checks }) => sum + checks.length, 0);
  return [
    "# What the arithmetic is checked against",
    `Every figure below came from outside this program: ${count} checks of ${families.length} kinds. The deviations were found by running the chemistry on the printed records; the tests hold each to its tolerance. Written by \`node --import tsx tests/reference/checks.ts\`; a test says when it is out of date.`,
    "How a figure is known: _looked up_ was seen in print, _computed_ follows from figures that were, _from memory_ was not seen again. What is from memory or not sure is no check, and is named as left out.",
    table(
      ["What", "Source", "How known", "Checks", "Tolerance", "Largest deviation", "Of what"],
      families.map((family) => [
        `[${family.name}](#${anchor(family.name)})`,
        family.source,
        family.how,
        String(family.checks.length),
        tolerances(family),
        figure(worst(family.checks.map(({ deviation }) => deviation))),
        family.unit,
      ]),
    ),
    "Beside these the program is checked against itself, written a second time: values and ± against a run in 40-digit decimals, ± against small steps of each unknown, and against 200,000 draws of them all (JCGM 101:2008).",
    ...families.flatMap(section),
    "",
  ]
    .join("\n\n")
    .trimEnd()
    .concat("\n");
}

const section = ({ name, source, how, unit, checks, leftOut }: CheckFamily): string[] => [
  `## ${name}`,
  `Source: ${source}. Known: ${how}. In ${unit}.${leftOut ? ` Left out: ${leftOut}` : ""}`,
  table(
    ["What", "Tolerance", "Deviation found"],
    checks.map(({ what, tolerance, deviation }) => [what, figure(tolerance), figure(deviation)]),
  ),
];

const anchor = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N} -]/gu, "")
    .replaceAll(" ", "-");

function tolerances({ checks }: CheckFamily): string {
  const all = checks.map(({ tolerance }) => tolerance);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  return least === most ? figure(least) : `${figure(least)} to ${figure(most)}`;
}

const noise = 1e-9;

/** Two digits; what is smaller than float64's own noise is 0. */
function figure(value: number): string {
  if (Math.abs(value) <= noise) return value === noise ? "0.000000001" : "0";
  const decimals = Math.max(0, 1 - Math.floor(Math.log10(Math.abs(value))));
  return String(Number(value.toFixed(Math.min(decimals, 9)))).replace("-", "−");
}

/** A table whose columns line up, as the formatter of this tree has it. */
function table(head: readonly string[], body: readonly (readonly string[])[]): string {
  const widths = head.map((_, at) =>
    Math.max(...[head, ...body].map((cells) => [...(cells[at] ?? "")].length)),
  );
  const row = (cells: readonly string[], filler = " ") => {
    const filled = cells.map(
      (cell, at) => cell + filler.repeat((widths[at] ?? 0) - [...cell].length),
    );
    return `| ${filled.join(" | ")} |`;
  };
  const rule = head.map(() => "");
  return [row(head), row(rule, "-"), ...body.map((cells) => row(cells))].join("\n");
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  writeFileSync(checksFile, checksPage());
}
