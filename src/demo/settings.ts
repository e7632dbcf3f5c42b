import { parseArgs } from "node:util";
import { type Config, readConfig } from "../config.ts";
import { studioName } from "./studio-name.ts";

export type Settings = {
  config: Config;
  /** Delete the demo's own database first. */
  fresh: boolean;
  /** How many made-up recipes the library holds besides the demo's own. */
  recipes: number;
};

/** The most that anybody has asked of it; past this the embedded engine runs out of memory. */
const mostRecipes = 1_000_000;

/**
 * What the demo was started with. It has a folder of its own, so that it never mixes with a studio.
 *
 * @throws a sentence for the person at the terminal where something cannot be used.
 */
export function readSettings(
  given: readonly string[],
  variables: Record<string, string | undefined>,
): Settings {
  const { values } = parseArgs({
    args: [...given],
    options: { fresh: { type: "boolean" }, recipes: { type: "string" } },
  });
  const read = readConfig({
    ...variables,
    DATA_DIR: variables.DATA_DIR || "data/demo",
    STUDIO_NAME: studioName,
    // Who tries it out reads what the terminal says, not a line for every request.
    LOG_LEVEL: variables.LOG_LEVEL || "warn",
  });
  const config = { ...read, isDemo: true };
  const { fresh = false, recipes = "0" } = values;
  if (fresh && config.databaseUrl) {
    throw new Error(
      "--fresh deletes the demo's own folder and touches no server. Empty the database of DATABASE_URL yourself, or leave DATABASE_URL out.",
    );
  }
  if (!/^\d{1,7}$/.test(recipes) || Number(recipes) > mostRecipes) {
    throw new Error(`--recipes is a whole number up to ${mostRecipes}, such as 10000.`);
  }
  return { config, fresh, recipes: Number(recipes) };
}
