import { check, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { lengthIs, oneOf } from "./columns.ts";
import { people } from "./people.ts";

export const weightUnits = ["g", "lb"] as const;
export const temperatureUnits = ["C", "F"] as const;
export const heatWords = ["cone", "temperature"] as const;
export const themes = ["system", "light", "dark"] as const;
const unityBases = ["fluxes", "fluxes-and-colour"] as const;
const irons = ["Fe2O3", "FeO"] as const;
const borons = ["apart", "with-alumina", "with-silica"] as const;

/** How a person wants to read: units, names, how chemistry is counted, light or dark. */
export const preferences = pgTable(
  "preferences",
  {
    personId: uuid()
      .primaryKey()
      .references(() => people.id),
    /** Whose names of powders come first; the studio's own where empty. */
    region: text().notNull().default(""),
    weight: text({ enum: weightUnits }).notNull().default("g"),
    temperature: text({ enum: temperatureUnits }).notNull().default("C"),
    heat: text({ enum: heatWords }).notNull().default("cone"),
    theme: text({ enum: themes }).notNull().default("system"),
    unity: text({ enum: unityBases }).notNull().default("fluxes"),
    iron: text({ enum: irons }).notNull().default("Fe2O3"),
    boron: text({ enum: borons }).notNull().default("apart"),
  },
  (preference) => [
    check("preferences_region_length", lengthIs(preference.region, 0, 60)),
    check("preferences_weight_known", oneOf(preference.weight, weightUnits)),
    check("preferences_temperature_known", oneOf(preference.temperature, temperatureUnits)),
    check("preferences_heat_known", oneOf(preference.heat, heatWords)),
    check("preferences_theme_known", oneOf(preference.theme, themes)),
    check("preferences_unity_known", oneOf(preference.unity, unityBases)),
    check("preferences_iron_known", oneOf(preference.iron, irons)),
    check("preferences_boron_known", oneOf(preference.boron, borons)),
  ],
);
