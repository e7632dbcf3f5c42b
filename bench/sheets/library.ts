import type postgres from "postgres";
import type { Db } from "../../src/db/client.ts";
import { makeMany } from "../../src/demo/making-many.ts";
import { startPreparing } from "../../src/demo/preparing.ts";
import { openDemoStudio } from "../../src/demo/studio.ts";
import { approveSome, spreadHeads } from "./find.ts";
import { hangMany } from "./wall.ts";

/** The demo's studio alone, as somebody would find it who starts it. */
export async function fillDemo(db: Db): Promise<void> {
  await openDemoStudio(
    db,
    () => startPreparing("only for a bench"),
    async () => {},
  );
}

/**
 * The demo's studio with so many recipes besides, one in twenty of them approved, of all cones,
 * atmospheres and surfaces, and up to ten thousand tiles with a picture and a colour.
 */
export async function fillLibrary(db: Db, client: postgres.Sql, recipes: number): Promise<void> {
  await fillDemo(db);
  await makeMany(db, recipes);
  await approveSome(client, 20);
  await spreadHeads(client);
  await hangMany(client, Math.min(10_000, recipes));
}
