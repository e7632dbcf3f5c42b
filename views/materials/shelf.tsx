import type { Analysis } from "../../src/chem/analysis.ts";
import { Field } from "../parts/field.tsx";
import { hazardName, hazards as knownHazards } from "../parts/hazard-words.ts";
import { OxideName } from "../parts/oxide.tsx";
import { LookAlikes, PowderName } from "../parts/powder-name.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { mainOxides } from "./main-oxides.ts";

export type ShelfRow = {
  slug: string;
  name: string;
  kind: string;
  names: readonly { name: string; region: string }[];
  hazards: readonly string[];
  stillSold: boolean;
  inUse: { analysis: Analysis } | null;
};

type ShelfProps = {
  materials: readonly ShelfRow[];
  q: string;
  /** Where the next page is, or null on the last. */
  next: string | null;
  mayAdd: boolean;
  mayTakeIn: boolean;
};

/** The shelf: every material with what it brings, what it is called elsewhere and what to beware of. */
export const Shelf = ({ materials, q, next, mayAdd, mayTakeIn }: ShelfProps) => (
  <section id="shelf">
    <h1>The shelf</h1>
    <p>
      The powders that recipes are made of. A name can mean another powder elsewhere: each page says
      what to buy under which word. <a href="/powder-changes">Today's powders</a> tells which
      recipes a newer analysis changes.
    </p>
    <search>
      <form class="actions" method="get" action="/materials">
        <Field label="Name or kind" name="q" type="search" value={q} maxlength={80} />
        <button type="submit">Find</button>
      </form>
    </search>
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href="/materials/new">
          Add a material
        </a>
        <a class="button quiet" href="/stock">
          What is in stock
        </a>
        <a class="button quiet" href="/suppliers">
          Suppliers
        </a>
        {mayTakeIn ? (
          <a class="button quiet" href="/imports/new">
            Take in recipes or analyses
          </a>
        ) : null}
      </p>
    ) : null}
    {materials.length === 0 ? <Nothing q={q} /> : <Rows materials={materials} q={q} />}
    {next ? (
      <p>
        <a href={next}>Further materials</a>
      </p>
    ) : null}
  </section>
);

const Nothing = ({ q }: { q: string }) =>
  q === "" ? (
    <p>Nothing stands on the shelf yet. People of the studio add the first material.</p>
  ) : (
    <p>
      Nothing on the shelf goes by “{q}”, here or elsewhere. Try a shorter word, or{" "}
      <a href="/materials">look at the whole shelf</a>.
    </p>
  );

// On a narrow screen the rows are laid out as grids, and browsers then forget that this is a
// table; the roles written out keep it one.
const as = {
  table: { role: "table" },
  rowgroup: { role: "rowgroup" },
  row: { role: "row" },
  columnheader: { role: "columnheader" },
  rowheader: { role: "rowheader" },
  cell: { role: "cell" },
} as const;

const Rows = ({ materials, q }: Pick<ShelfProps, "materials" | "q">) => (
  <>
    <table class="strips" {...as.table}>
      <caption>{q === "" ? "Materials by name" : `Materials that go by “${q}”`}</caption>
      <thead class="strips-head" {...as.rowgroup}>
        <tr {...as.row}>
          {["Mainly", "Material", "Kind", "Brings", "Be careful with"].map((head) => (
            <th scope="col" {...as.columnheader}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody {...as.rowgroup}>
        {materials.map((material) => (
          <Row material={material} />
        ))}
      </tbody>
    </table>
    <LookAlikes names={materials.map(({ name }) => name)} />
  </>
);

const Row = ({ material }: { material: ShelfRow }) => {
  const brings = material.inUse ? mainOxides(material.inUse.analysis) : [];
  const [main] = brings;
  return (
    <tr class="strip" {...as.row}>
      <td class="strip-tile" {...as.cell}>
        {main ? <OxideName oxide={main.oxide} /> : "not known"}
      </td>
      <th scope="row" class="strip-name" {...as.rowheader}>
        <a href={`/materials/${material.slug}`}>
          <PowderName name={material.name} />
        </a>
        {material.stillSold ? null : <strong class="strip-maker">No longer sold</strong>}
        {material.names.length > 0 ? (
          <span class="strip-maker">
            {material.names.map(({ name, region }) => `${name} (${region})`).join(", ")}
          </span>
        ) : null}
      </th>
      <td {...as.cell}>{material.kind}</td>
      <td {...as.cell}>{brings.length > 0 ? <Brings brings={brings} /> : "no analysis"}</td>
      <td {...as.cell}>
        <Careful hazards={material.hazards} />
      </td>
    </tr>
  );
};

const Brings = ({ brings }: { brings: ReturnType<typeof mainOxides> }) => (
  <>
    {brings.map(({ oxide, percent }, place) => (
      <>
        {place > 0 ? ", " : ""}
        <span class="quantity">
          <OxideName oxide={oxide} /> {plainNumber(percent, 1)} %
        </span>
      </>
    ))}
  </>
);

/** Hazards in words, in their fixed order; the word before them stands in for the column's head. */
const Careful = ({ hazards }: { hazards: readonly string[] }) => {
  const names = knownHazards
    .filter((hazard) => hazards.includes(hazard))
    .map((hazard) => hazardName[hazard].toLowerCase());
  return names.length === 0 ? null : <>careful: {names.join(", ")}</>;
};
