import type { Database } from "../../src/db/client.ts";
import type { Prepared } from "../../src/demo/diary.ts";
import { startPreparing } from "../../src/demo/preparing.ts";
import { openDemoStudio } from "../../src/demo/studio.ts";
import { openFilledDatabase } from "../engines/open.ts";

export const demoPassword = "kept by a test";

/** What a second start would never ask for. */
export const nothingPrepared = (): Prepared => {
  throw new Error("the demo was made a second time");
};

/** The demo's studio, made once a worker, in a database of its own; close it when the file is done. */
export const openMadeDemo = (): Promise<Database> =>
  openFilledDatabase("demo", async (db) => {
    await openDemoStudio(
      db,
      () => startPreparing(demoPassword),
      async () => {},
    );
  });
