import { existsSync } from "node:fs";
import { getContainerRuntimeClient } from "testcontainers";

export const chromiumPath = process.env.CHROMIUM_PATH ?? "/usr/bin/chromium";

export type Engines = {
  postgres: { from: "url"; url: string } | { from: "container" } | undefined;
  chromium: boolean;
  /** What the run leaves out, each with the reason, for one line at its start. */
  leftOut: string[];
};

/** What this machine can test on, besides the embedded engine that is always there. */
export async function findEngines(): Promise<Engines> {
  const url = process.env.TEST_DATABASE_URL;
  const container = url ? undefined : await getContainerRuntimeClient().catch(() => undefined);
  const postgres = url
    ? { from: "url" as const, url }
    : container
      ? { from: "container" as const }
      : undefined;
  const chromium = existsSync(chromiumPath);
  const leftOut = [
    ...(postgres ? [] : ["Postgres (no TEST_DATABASE_URL and no container runtime)"]),
    ...(chromium ? [] : [`the browser (no Chromium at ${chromiumPath})`]),
  ];
  return { postgres, chromium, leftOut };
}
