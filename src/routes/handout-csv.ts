import type { ShownHandout, ShownPiece, ShownPowder } from "../../views/handouts/types.ts";
import { powderWords } from "../../views/handouts/words.ts";
import { csvText } from "../wire/csv.ts";

/** The lines of a handout for a spreadsheet, each recipe with its totals and what it may be used for. */
export function handoutCsv(handout: ShownHandout): string {
  const { weight, region } = handout;
  const heading = [
    ...["recipe", "maker", "revision", "standing", "part", "powder"],
    region === "" ? "studio's name" : `name in ${region}`,
    ...["not to be confused with", "parts", "percent of base", "test g", `tub ${weight}`],
    ...["analysis", "analysed on"],
  ];
  const powders = new Map(handout.powders.map((powder) => [powder.slug, powder]));
  return csvText([heading, ...handout.pieces.flatMap((piece) => rowsOf(piece, powders))]);
}

function rowsOf(piece: ShownPiece, powders: ReadonlyMap<string, ShownPowder>): string[][] {
  const { recipe, number, standing, test, tub } = piece;
  const lead = [recipe.name, recipe.owner.name, String(number), standing.is];
  const total = [...lead, "total", "", "", "", "", ""];
  return [
    ...piece.lines.map((line) => {
      const powder = powders.get(line.slug);
      const analysis = powder?.analyses.find(({ of }) => of.includes(recipe.name));
      return [
        ...lead,
        ...[line.part, line.name, powder ? thereOf(powder) : line.name],
        powder ? notThis(powder) : "",
        line.amount.toFixed(),
        line.percent.toDecimalPlaces(4).toFixed(),
        line.testGrams.toFixed(),
        line.tub.toFixed(),
        analysis?.source ?? "no analysis",
        analysis?.measuredOn ?? "",
      ];
    }),
    [...total, test.totalGrams.toFixed(), tub.total.toFixed(), "", ""],
    [...lead, "", ...piece.mayUse.says],
  ];
}

const thereOf = (powder: ShownPowder): string =>
  powder.called === null ? `${powder.name} (no name there on record)` : powderWords(powder);

const notThis = ({ called, lookAlikes }: ShownPowder): string =>
  [
    called?.caution ?? "",
    ...lookAlikes.map(({ word, name, caution }) =>
      `“${word}” is also a name of ${name}. ${caution}`.trim(),
    ),
  ]
    .filter(Boolean)
    .join(" ");
