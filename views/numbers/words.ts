import { readNumberName } from "../../src/chem/account-names.ts";

/** A number's name as people say it; as it stands where it is none that we know. */
export function numberWords(name: string): string {
  const named = readNumberName(name);
  switch (named?.kind) {
    case undefined:
      return name;
    case "unity":
      return `${named.oxide} in the unity formula`;
    case "weight":
      return `${named.oxide}, percent by weight`;
    case "mole":
      return `${named.oxide}, percent by moles`;
    case "expansion":
      return `Expansion by ${named.model.name}`;
    case "loss":
      return "Loss on ignition";
    case "unaccounted":
      return "Not accounted for";
    case "silica-to-alumina":
      return "SiO2 to Al2O3, in moles";
    case "silica-to-r2o3":
      return "SiO2 to Al2O3 and B2O3, in moles";
    case "glass-formers-to-alumina":
      return "SiO2 and B2O3 to Al2O3, in moles";
    case "alkali-share":
      return "Alkali share";
  }
}

/** A line's powder by name; one that stands in the recipe twice is told apart by its place. */
export const nameOfLine = (names: readonly string[], line: number): string => {
  const name = names[line];
  if (name === undefined) return `Line ${line + 1}`;
  const twice = names.indexOf(name) !== names.lastIndexOf(name);
  return twice ? `${name} (line ${line + 1})` : name;
};
