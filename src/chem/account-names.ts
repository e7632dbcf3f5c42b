import type { Chemistry, Quantity, UnityOxide } from "./chemistry-types.ts";
import { expansionModels } from "./expansion-models.ts";
import { isOxide, type Oxide } from "./oxides.ts";

const simpleNames = [
  "loss",
  "unaccounted",
  "silica-to-alumina",
  "silica-to-r2o3",
  "glass-formers-to-alumina",
  "alkali-share",
] as const;

type SimpleName = (typeof simpleNames)[number];

/** What a computed number is called: `unity.SiO2`, `weight.SiO2`, `loss`, `expansion.appen`. */
export type NumberName =
  | `unity.${UnityOxide}`
  | `weight.${Oxide}`
  | `mole.${Oxide}`
  | `expansion.${string}`
  | SimpleName;

/** A name taken apart. */
export type Named =
  | { kind: "unity"; oxide: UnityOxide; name: NumberName }
  | { kind: "weight" | "mole"; oxide: Oxide; name: NumberName }
  | { kind: "expansion"; model: (typeof expansionModels)[number]; name: NumberName }
  | { kind: SimpleName; name: NumberName };

/** Reads a number's name, letter for letter; undefined where there is no such number in any glaze. */
export function readNumberName(text: string): Named | undefined {
  const simple = simpleNames.find((name) => name === text);
  if (simple) return { kind: simple, name: simple };
  const [kind = "", which = "", more] = text.split(".");
  if (more !== undefined) return undefined;
  const oxide = isOxide(which) ? which : undefined;
  if (kind === "unity" && (oxide || which === "FeO")) {
    const held = oxide ?? "FeO";
    return { kind, oxide: held, name: `${kind}.${held}` };
  }
  if ((kind === "weight" || kind === "mole") && oxide) {
    return { kind, oxide, name: `${kind}.${oxide}` };
  }
  const model = expansionModels.find(({ id }) => id === which);
  return kind === "expansion" && model ? { kind, model, name: `${kind}.${model.id}` } : undefined;
}

/** The number of that name in a chemistry, or undefined where this glaze has none. */
export function quantityNamed(of: Chemistry, named: Named): Quantity | undefined {
  switch (named.kind) {
    case "unity":
      return of.unity?.[named.oxide];
    case "weight":
      return of.weightPercent[named.oxide];
    case "mole":
      return of.molePercent[named.oxide];
    case "expansion": {
      const { value, plusMinus } = of.expansion.find((e) => e.model === named.model.id) ?? none;
      return value === null || plusMinus === null ? undefined : { value, plusMinus };
    }
    case "loss":
      return plain(of.lossOnIgnition);
    case "unaccounted":
      return of.unaccounted && plain(of.unaccounted);
    case "silica-to-alumina":
      return of.ratios.silicaToAlumina ?? undefined;
    case "silica-to-r2o3":
      return of.ratios.silicaToR2O3 ?? undefined;
    case "glass-formers-to-alumina":
      return of.ratios.glassFormersToAlumina ?? undefined;
    case "alkali-share":
      return of.ratios.alkaliShare ?? undefined;
  }
}

const none = { value: null, plusMinus: null } as const;

const plain = ({ value, plusMinus }: Quantity): Quantity => ({ value, plusMinus });
