import type { UnityOxide } from "./chemistry-types.ts";
import type { Cone } from "./cones.ts";

/** `KNaO` is K2O + Na2O; all others are as in the unity formula. */
export type Limited = UnityOxide | "KNaO";

/**
 * A published limit formula: the least and the most of each oxide, moles for each mole of flux with
 * B2O3 outside the flux sum, for the cones and the family that it was printed for and no others.
 * `soft` sets are from memory and are shown as such.
 */
export type LimitSet = {
  readonly id: string;
  readonly family: string;
  readonly from: Cone;
  readonly to: Cone;
  readonly printedCones: string;
  readonly limits: Readonly<Partial<Record<Limited, readonly [least: number, most: number]>>>;
  readonly how: "looked up" | "from memory";
  readonly soft: boolean;
  readonly source: string;
};

const rhodes = {
  how: "from memory",
  soft: true,
  source: "D. Rhodes, Clay and Glazes for the Potter (1957, 1973), limit formulas; from memory",
} as const;

const courseGuide = {
  family: "any",
  how: "looked up",
  soft: false,
  source: "H. McWhinnie, online glaze course, lesson 2 (2000), SiO2 by cone; looked up",
} as const;

/** Every set held, coolest first. Tables of other authors were not found in print and are left out. */
export const limitSets: readonly LimitSet[] = [
  {
    id: "rhodes-lead-012-08",
    family: "lead",
    ...{ from: "012", to: "08", printedCones: "012–08", ...rhodes },
    limits: {
      ...{ PbO: [0.7, 1], KNaO: [0, 0.3], ZnO: [0, 0.1], CaO: [0, 0.2] },
      ...{ Al2O3: [0.05, 0.2], SiO2: [1, 1.5] },
    },
  },
  {
    id: "rhodes-lead-08-01",
    family: "lead",
    ...{ from: "08", to: "01", printedCones: "08–01", ...rhodes },
    limits: {
      ...{ PbO: [0.7, 1], KNaO: [0, 0.3], ZnO: [0, 0.2], CaO: [0, 0.3] },
      ...{ Al2O3: [0.1, 0.25], SiO2: [1.5, 2] },
    },
  },
  {
    id: "rhodes-alkaline-08-01",
    family: "alkaline",
    ...{ from: "08", to: "01", printedCones: "08–01", ...rhodes },
    limits: {
      ...{ PbO: [0, 0.5], KNaO: [0.4, 0.8], CaO: [0, 0.3], ZnO: [0, 0.2] },
      ...{ Al2O3: [0.05, 0.25], SiO2: [1.5, 2.5] },
    },
  },
  {
    id: "rhodes-lead-borosilicate-08-01",
    family: "lead borosilicate",
    ...{ from: "08", to: "01", printedCones: "08–01", ...rhodes },
    limits: {
      ...{ PbO: [0.2, 0.6], KNaO: [0.1, 0.25], CaO: [0.3, 0.6], ZnO: [0.1, 0.25] },
      ...{ Al2O3: [0.15, 0.2], B2O3: [0.15, 0.6], SiO2: [1.5, 2.5] },
    },
  },
  {
    id: "mcwhinnie-06-04",
    // Printed as "04-06", hottest first, where its other rows go upwards.
    ...{ from: "06", to: "04", printedCones: "04–06 (as printed)", ...courseGuide },
    limits: { SiO2: [1.6, 1.9] },
  },
  {
    id: "rhodes-lead-calcium-2-5",
    family: "lead-calcium",
    ...{ from: "2", to: "5", printedCones: "2–5", ...rhodes },
    limits: {
      ...{ PbO: [0.4, 0.6], CaO: [0.1, 0.4], ZnO: [0, 0.25], KNaO: [0.1, 0.25] },
      ...{ Al2O3: [0.2, 0.28], SiO2: [2, 3] },
    },
  },
  {
    id: "rhodes-lead-borosilicate-2-5",
    family: "lead borosilicate",
    ...{ from: "2", to: "5", printedCones: "2–5", ...rhodes },
    limits: {
      ...{ PbO: [0.2, 0.3], KNaO: [0.2, 0.3], CaO: [0.35, 0.5], ZnO: [0, 0.1] },
      ...{ Al2O3: [0.25, 0.35], B2O3: [0.2, 0.6], SiO2: [2.5, 3.5] },
    },
  },
  {
    id: "rhodes-colemanite-2-5",
    family: "colemanite",
    ...{ from: "2", to: "5", printedCones: "2–5", ...rhodes },
    limits: {
      ...{ CaO: [0.2, 0.5], ZnO: [0.1, 0.25], BaO: [0.1, 0.25], KNaO: [0.1, 0.25] },
      ...{ Al2O3: [0.2, 0.28], B2O3: [0.3, 0.6], SiO2: [2, 3] },
    },
  },
  {
    id: "mcwhinnie-3-6",
    ...{ from: "3", to: "6", printedCones: "3–6", ...courseGuide },
    limits: { SiO2: [1.9, 2.5] },
  },
  {
    id: "mcwhinnie-8-10",
    ...{ from: "8", to: "10", printedCones: "8–10", ...courseGuide },
    limits: { SiO2: [2.5, 4.5] },
  },
  {
    id: "rhodes-stoneware-8-12",
    family: "stoneware/porcelain",
    ...{ from: "8", to: "12", printedCones: "8–12", ...rhodes },
    limits: {
      ...{ KNaO: [0.2, 0.4], CaO: [0.4, 0.7], MgO: [0, 0.35], ZnO: [0, 0.3], BaO: [0, 0.3] },
      ...{ Al2O3: [0.3, 0.5], B2O3: [0.1, 0.3], SiO2: [3, 5] },
    },
  },
];
