import { parseArgs } from "node:util";
import { type Config, readConfig } from "../config.ts";
import { studioName } from "./studio-name.ts";

export type Settings = {
  config: Config;
  /** Delete the demo's own database first. */
  fresh: boolean;
};

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
    options: { fresh: { type: "boolean" } },
  });
  const config = readConfig({
    ...variables,
    DATA_DIR: variables.DATA_DIR || "data/demo",
    STUDIO_NAME: studioName,
  });
  const { fresh = false } = values;
  if (fresh && config.databaseUrl) {
    throw new Error(
      "--fresh deletes the demo's own folder and touches no server. Empty the database of DATABASE_URL yourself, or leave DATABASE_URL out.",
    );
  }
  return { config, fresh };
}
