import type { Conventions } from "../../src/chem/chemistry-types.ts";
import { Choice } from "./field.tsx";
import { pageReading } from "./reading.ts";

/** How the reader wants things counted. */
export const ConventionChoices = ({ conventions }: { conventions: Conventions }) => (
  <div class="field-pair">
    <Choice label="Unity is over" name="unity" value={conventions.unity} options={unities} />
    <Choice label="Iron counts as" name="iron" value={conventions.iron} options={irons} />
    <Choice label="Boron in the ratios" name="boron" value={conventions.boron} options={borons} />
  </div>
);

const unities = [
  { value: "fluxes", label: "the fluxes" },
  { value: "fluxes-and-colour", label: "fluxes and colouring oxides" },
];
const irons = [
  { value: "Fe2O3", label: "Fe₂O₃" },
  { value: "FeO", label: "FeO, two for each Fe₂O₃" },
];
const borons = [
  { value: "apart", label: "stands apart" },
  { value: "with-alumina", label: "goes with the alumina" },
  { value: "with-silica", label: "goes with the silica" },
];

/** Who chose how things are counted, and the address where they are counted the usual way. */
export type Counted = { by: "address" | "settings" | "usual"; usual: string };

/** By whose choice things are not counted the usual way, said where they are. */
export const CountedBy = ({ by, usual }: Counted) =>
  by === "usual" ? null : (
    <p class="counted-by">
      {by === "settings" ? (
        <>
          Counted by your <a href={pageReading().setAt}>settings</a>, since this address asks for
          nothing else.
        </>
      ) : (
        "Counted as this address asks."
      )}{" "}
      <a href={usual}>Count it the usual way</a>
    </p>
  );

/** What the figures depend on, said beside them. */
export const ConventionWords = ({ conventions }: { conventions: Conventions }) => (
  <p class="finding-source">
    {conventions.unity === "fluxes"
      ? "Unity is over Li₂O, Na₂O, K₂O, MgO, CaO, SrO, BaO, ZnO and PbO."
      : "Unity is over the fluxes with FeO, MnO, CoO, CuO and NiO."}{" "}
    Iron counts as{" "}
    {conventions.iron === "FeO" ? "FeO in the unity formula, Fe₂O₃ elsewhere" : "Fe₂O₃"}.{" "}
    {boronWords[conventions.boron]}
  </p>
);

const boronWords: Record<Conventions["boron"], string> = {
  apart: "Boron is in neither side of a ratio.",
  "with-alumina": "Boron is counted with the alumina in the ratio marked so.",
  "with-silica": "Boron is counted with the silica in the ratio marked so.",
};
