import { HyperFormula } from "hyperformula";
import type { ChemistryLine } from "../../src/chem/chemistry-types.ts";
import { expansionModels } from "../../src/chem/expansion-models.ts";
import { alkalis, fluxes, molarMass, type Oxide, oxides } from "../../src/chem/oxides.ts";
import { powderOf } from "../../src/chem/powder.ts";

/** A computed cell by the name that the answer's quantities have, its ± in the next column. */
export type Sheet = {
  work: (amounts: readonly number[]) => void;
  read: () => Map<string, { value: number | null; plusMinus: number | null }>;
  cells: number;
};

type Column = { oxide: Oxide; letter: string };

/**
 * The chemistry of some analysed lines as a person would lay it out in a spreadsheet: amounts in
 * column A, analyses beside them, then masses, moles, percents, unity formula, ratios, loss and
 * four models of expansion, each with its ± to first order. The model whose factors depend on the
 * whole glass is left out, as are findings, which are no cells.
 */
export function contractSheet(lines: readonly ChemistryLine[]): Sheet {
  const powders = lines.map(({ analysis }) => {
    if (!analysis || analysis.basis === "calcined") throw new Error("Only analyses as received.");
    return powderOf(analysis);
  });
  const present = oxides.filter((oxide) => powders.some(({ listed }) => listed.includes(oxide)));
  const columns = present.map((oxide, at): Column => ({ oxide, letter: letterOf(at + 1) }));
  const [first, last] = [columns[0]?.letter ?? "", columns.at(-1)?.letter ?? ""];
  const lossColumn = letterOf(present.length + 1);
  const count = lines.length;
  const rows: (string | number | null)[][] = [];
  const add = (row: (string | number | null)[]): number => rows.push(row);
  const across = (row: number) => `${first}${row}:${last}${row}`;
  const pinned = (row: number) => `$${first}$${row}:$${last}$${row}`;

  for (const [line, powder] of powders.entries()) {
    const percents = present.map((oxide) => powder.percent[powder.listed.indexOf(oxide)] ?? 0);
    const { loss, lossIs } = powder;
    const row = line + 1;
    add([
      lines[line]?.amount.toNumber() ?? 0,
      ...percents,
      lossIs === "rest" ? `=100-SUM(${across(row)})` : loss,
    ]);
  }
  for (const [line, powder] of powders.entries()) {
    const spreads = present.map((oxide) => powder.ownPlusMinus[powder.listed.indexOf(oxide)] ?? 0);
    const row = count + line + 1;
    add([
      null,
      ...spreads,
      powder.lossIs === "rest" ? `=SQRT(SUMSQ(${across(row)}))` : powder.lossPlusMinus,
    ]);
  }
  const squares = (letter: string) =>
    powders.map((_, line) => `($A$${line + 1}*${letter}${count + line + 1}/100)^2`).join("+");
  const weighed = (letter: string) =>
    `SUMPRODUCT($A$1:$A$${count},${letter}1:${letter}${count})/100`;
  const fill = (formula: (column: Column) => string | number) =>
    add([null, ...columns.map(formula)]);

  const mass = fill(({ letter }) => `=${weighed(letter)}`);
  const massSquares = fill(({ letter }) => `=${squares(letter)}`);
  const molar = fill(({ oxide }) => molarMass[oxide]);
  const inFluxes = fill(({ oxide }) => ((fluxes as readonly Oxide[]).includes(oxide) ? 1 : 0));
  const inAlkalis = fill(({ oxide }) => ((alkalis as readonly Oxide[]).includes(oxide) ? 1 : 0));
  const everything = fill(() => 1);
  const moles = fill(({ letter }) => `=${letter}${mass}/${letter}${molar}`);
  const moleSquares = fill(({ letter }) => `=${letter}${massSquares}/${letter}${molar}^2`);

  const named = new Map<string, { row: number; column: number; plusMinusRow: number }>();
  const share = (of: string, scale: number, [part, spread, member]: [number, number, number]) => {
    const sums = add([
      `=SUMPRODUCT(${pinned(part)},${pinned(member)})`,
      `=SUMPRODUCT(${pinned(spread)},${pinned(member)})`,
    ]);
    const values = fill(({ letter }) => `=${scale}*${letter}${part}/$A$${sums}`);
    const plusMinusRow = fill(({ letter }) => {
      const [value, own, isMember] = [
        `${letter}${values}/${scale}`,
        `${letter}${spread}`,
        `${letter}${member}`,
      ];
      const others = `($B$${sums}-${isMember}*${own})*(${value})^2`;
      return `=${scale}*SQRT(${own}*(1-${isMember}*${value})^2+${others})/$A$${sums}`;
    });
    for (const [at, { oxide }] of columns.entries())
      named.set(`${of} ${oxide}`, { row: values, column: at + 1, plusMinusRow });
    return values;
  };
  const weight = share("weight", 100, [mass, massSquares, everything]);
  share("mole", 100, [moles, moleSquares, everything]);
  share("unity", 1, [moles, moleSquares, inFluxes]);

  const single = (name: string, value: string, plusMinus: (self: string) => string) => {
    const row = rows.length + 1;
    add([`=${value}`, `=${plusMinus(`A${row}`)}`]);
    named.set(name, { row, column: 0, plusMinusRow: -row });
    return row;
  };
  const total = `SUM($A$1:$A$${count})`;
  single(
    "loss",
    `100*${weighed(lossColumn)}/${total}`,
    () => `100*SQRT(${squares(lossColumn)})/${total}`,
  );
  const letters = new Map(columns.map(({ oxide, letter }) => [oxide, letter]));
  const [silica, alumina] = [letters.get("SiO2"), letters.get("Al2O3")];
  single(
    "ratio silicaToAlumina",
    `${silica}${moles}/${alumina}${moles}`,
    (self) => `SQRT(${silica}${moleSquares}+${self}^2*${alumina}${moleSquares})/${alumina}${moles}`,
  );
  const fluxSum = `SUMPRODUCT(${across(moles)},${across(inFluxes)})`;
  const fluxSquares = `SUMPRODUCT(${across(moleSquares)},${across(inFluxes)})`;
  const alkaliSquares = `SUMPRODUCT(${across(moleSquares)},${across(inAlkalis)})`;
  single(
    "ratio alkaliShare",
    `SUMPRODUCT(${across(moles)},${across(inAlkalis)})/${fluxSum}`,
    (self) =>
      `SQRT((1-${self})^2*${alkaliSquares}+${self}^2*(${fluxSquares}-${alkaliSquares}))/${fluxSum}`,
  );
  for (const { id, kind, factors } of expansionModels.filter(({ basis }) => basis === "weight")) {
    const scale = kind === "cubical" ? 1 / 30 : 1 / 10;
    const factor = fill(({ oxide }) => 100 * scale * (factors[oxide] ?? 0));
    const outside = fill(({ oxide }) => (factors[oxide] === undefined ? 1 : 0));
    const leftOut = `SUMPRODUCT(${across(weight)},${across(outside)})>2`;
    const pull = fill(
      ({ letter }) => `=${letter}${massSquares}*(${letter}${factor}-$A$${rows.length + 2})^2`,
    );
    single(
      `expansion ${id}`,
      `SUMPRODUCT(${across(weight)},${across(factor)})/100`,
      () => `IF(${leftOut},"",SQRT(SUM(${across(pull)}))/SUM(${across(mass)}))`,
    );
  }

  const engine = HyperFormula.buildFromArray(rows, { licenseKey: "gpl-v3" });
  const number = (row: number, col: number): number | null => {
    const value = engine.getCellValue({ sheet: 0, row: row - 1, col });
    return typeof value === "number" ? value : null;
  };
  return {
    cells: rows.flat().filter((cell) => typeof cell === "string").length,
    work: (amounts) =>
      engine.batch(() => {
        for (const [row, amount] of amounts.entries())
          engine.setCellContents({ sheet: 0, row, col: 0 }, amount);
      }),
    read: () => {
      const answer = new Map<string, { value: number | null; plusMinus: number | null }>();
      for (const [name, { row, column, plusMinusRow }] of named) {
        const plusMinus = plusMinusRow < 0 ? number(row, 1) : number(plusMinusRow, column);
        answer.set(name, { value: plusMinus === null ? null : number(row, column), plusMinus });
      }
      return answer;
    },
  };
}

/** The letters of a column, counted from 0. */
const letterOf = (column: number): string =>
  (column >= 26 ? letterOf(Math.floor(column / 26) - 1) : "") +
  String.fromCharCode(65 + (column % 26));
