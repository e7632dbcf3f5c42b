import type { Named } from "./account-names.ts";
import type { Chemistry, ChemistryRequest, Conventions } from "./chemistry-types.ts";

/** What a number is, in one sentence with its unit, and the unit by itself. */
export function definitionOf(named: Named): { definition: string; unit: string } {
  switch (named.kind) {
    case "unity":
      return {
        unit: "moles for each mole of flux",
        definition: `The moles of ${named.oxide} in the melt, divided by the moles of all its fluxes together.`,
      };
    case "weight":
      return {
        unit: "percent of the fired glass by weight",
        definition: `The weight of ${named.oxide} in percent of the weight of the fired glass.`,
      };
    case "mole":
      return {
        unit: "percent of the fired glass by moles",
        definition: `The moles of ${named.oxide} in percent of the moles of all oxides of the fired glass.`,
      };
    case "expansion":
      return {
        unit: "10⁻⁶/K, linear",
        definition: `How far a length of the glass grows for each degree, in millionths: the sum over its oxides of the ${named.model.basis} percent of each, times the factor that ${named.model.name} printed for it.`,
      };
    case "loss":
      return {
        unit: "percent of the batch as weighed",
        definition:
          "What leaves the kiln as gas, in percent of the weight of the batch; below zero where oxygen is taken up.",
      };
    case "unaccounted":
      return {
        unit: "percent of the batch as weighed",
        definition:
          "What is neither glass nor loss, in percent of the weight of the batch: what analyses with a given loss leave open, and lines without an analysis.",
      };
    case "silica-to-alumina":
      return {
        unit: "moles for each mole",
        definition: "The moles of SiO2 divided by the moles of Al2O3.",
      };
    case "silica-to-r2o3":
      return {
        unit: "moles for each mole",
        definition: "The moles of SiO2 divided by the moles of Al2O3 and B2O3 together.",
      };
    case "glass-formers-to-alumina":
      return {
        unit: "moles for each mole",
        definition: "The moles of SiO2 and B2O3 together, divided by the moles of Al2O3.",
      };
    case "alkali-share":
      return {
        unit: "moles of alkali for each mole of flux",
        definition: "The moles of Li2O, Na2O and K2O, divided by the moles of all fluxes.",
      };
  }
}

/** The conventions that a number depends on, and what its ± holds and leaves out, in sentences. */
export function countedAs(named: Named, request: ChemistryRequest, of: Chemistry): string[] {
  return [...conventionsOf(named, of), ...aboutPlusMinus(request)];
}

function conventionsOf(named: Named, { conventions, expansion }: Chemistry): string[] {
  switch (named.kind) {
    case "unity":
      return [fluxWords(conventions), ironWords(conventions), boronApart];
    case "alkali-share":
      return [fluxWords(conventions), boronApart];
    case "weight":
    case "mole":
      return ["Loss, and what is not accounted for, are not part of the glass.", ironAsFe2O3];
    case "expansion": {
      const left = expansion.find(({ model }) => model === named.model.id)?.outside ?? [];
      const { source, kind } = named.model;
      return [
        `The factors are those of ${source}.`,
        ...(kind === "cubical" ? ["They are of the volume: a third of that is of a length."] : []),
        ...(named.model.basis === "mole"
          ? [
              "Some factors depend on the whole glass, so no line's part stands alone; the ± is that of the tangent at this glass.",
            ]
          : []),
        ...(left.length > 0 ? [`Left out, for want of a factor: ${left.join(", ")}.`] : []),
        ironAsFe2O3,
        "The ± is the analyses' part alone. The model's own error comes on top of it, and is never less than what the models lie apart.",
      ];
    }
    case "loss":
    case "unaccounted":
      return [
        "Fired masses are counted in the reporting oxides: iron as Fe2O3, manganese as MnO, cobalt as CoO, copper as CuO.",
        "Where an analysis has no loss, it is taken as what its oxides leave of 100.",
      ];
    case "silica-to-alumina":
      return ["B2O3 is counted with neither side."];
    case "silica-to-r2o3":
      return ["B2O3 is counted with the alumina, as R2O3."];
    case "glass-formers-to-alumina":
      return ["B2O3 is counted with the silica, as a glass-former."];
  }
}

const fluxWords = ({ unity, iron }: Conventions): string =>
  unity === "fluxes"
    ? "Fluxes are Li2O, Na2O, K2O, MgO, CaO, SrO, BaO, ZnO and PbO; colouring oxides are outside."
    : `Fluxes are Li2O, Na2O, K2O, MgO, CaO, SrO, BaO, ZnO and PbO, and with them ${iron === "FeO" ? "FeO, " : ""}MnO, CoO, CuO and NiO.`;

const ironAsFe2O3 = "Iron is counted as Fe2O3.";

const ironWords = ({ iron }: Conventions): string =>
  iron === "FeO" ? "Iron is counted as FeO: each Fe2O3 as two." : ironAsFe2O3;

const boronApart = "B2O3 stands apart: it is not counted as a flux.";

function aboutPlusMinus({ grams, scaleGrams }: ChemistryRequest): string[] {
  return [
    "The ± is expanded, k = 2: it holds 95 times in 100.",
    "The oxides of one analysis are taken as independent of each other; one analysis in several lines is one.",
    grams && scaleGrams
      ? `Weighing is counted in, for a base of ${grams.toFixed()} g on a scale of ${scaleGrams.toFixed()} g.`
      : "Weighing is left out: no batch and no scale were given.",
  ];
}
