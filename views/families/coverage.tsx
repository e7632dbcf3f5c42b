import { PowderName } from "../parts/powder-name.tsx";

export type CoverageRow = {
  material: string;
  name: string;
  part: "base" | "addition";
  percents: readonly { recipe: string; percent: string }[];
};

type CoverageProps = {
  rows: readonly CoverageRow[];
  recipes: readonly { slug: string; name: string }[];
};

// On a narrow screen each row becomes a list, and browsers then forget that this is a table; the
// roles written out keep it one.
const as = {
  table: { role: "table" },
  group: { role: "rowgroup" },
  row: { role: "row" },
  columnHead: { role: "columnheader" },
  rowHead: { role: "rowheader" },
  cell: { role: "cell" },
} as const;

/** Which material is in which recipe, percent of base; on a phone a list under each material. */
export const CoverageTable = ({ rows, recipes }: CoverageProps) => {
  const additions = rows.filter(({ part }) => part === "addition");
  return (
    <table class="lines coverage" {...as.table}>
      <caption class="hidden-words">Percent of base of each material in each recipe</caption>
      <thead {...as.group}>
        <tr {...as.row}>
          <th scope="col" {...as.columnHead}>
            Material
          </th>
          {recipes.map(({ name }) => (
            <th scope="col" class="number" {...as.columnHead}>
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody {...as.group}>
        {rows
          .filter(({ part }) => part === "base")
          .map((row) => (
            <Row row={row} recipes={recipes} />
          ))}
      </tbody>
      {additions.length === 0 ? null : (
        <tbody {...as.group}>
          <tr {...as.row}>
            <th scope="rowgroup" colspan={recipes.length + 1} class="group" {...as.rowHead}>
              Additions, on top of the base
            </th>
          </tr>
          {additions.map((row) => (
            <Row row={row} recipes={recipes} />
          ))}
        </tbody>
      )}
    </table>
  );
};

type RowProps = { row: CoverageRow; recipes: CoverageProps["recipes"] };

const Row = ({ row, recipes }: RowProps) => (
  <tr {...as.row}>
    <th scope="row" {...as.rowHead}>
      <a href={`/materials/${row.material}`}>
        <PowderName name={row.name} />
      </a>
    </th>
    {recipes.map(({ slug, name }) => {
      const percent = row.percents.find(({ recipe }) => recipe === slug)?.percent;
      return (
        <td class={percent ? "number" : "number coverage-none"} {...as.cell}>
          <span class="coverage-recipe">{name}</span>
          {percent ? percent : <span class="hidden-words">none</span>}
        </td>
      );
    })}
  </tr>
);
