import postgres from "postgres";
import type { Db } from "../../src/db/client.ts";
import { openPostgres } from "../../src/db/postgres.ts";
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
 * The name of a database that may hold such a library already, so that it is made once for several
 * benches: a hundred thousand recipes take minutes.
 */
export const libraryOf = (recipes: number): string => `bucket_library_${recipes}`;

/**
 * The demo's studio with so many recipes besides, one in twenty of them approved, of all cones,
 * atmospheres and surfaces, and up to ten thousand tiles with a picture and a colour. A copy of such a
 * library, of which the tiles come last, is left as it is.
 */
export async function fillLibrary(db: Db, client: postgres.Sql, recipes: number): Promise<void> {
  const hung = Math.min(10_000, recipes);
  const [found] = await client<{ tiles: number }[]>`select count(*)::int as tiles from tiles`;
  if (found && found.tiles >= hung) return;
  await fillDemo(db);
  await makeMany(db, recipes);
  await approveSome(client, 20);
  await spreadHeads(client);
  await hangMany(client, hung);
}

/** Makes `libraryOf` on a server unless it is there. @returns takes it away again where it was made. */
export async function keepLibrary(server: string, recipes: number): Promise<() => Promise<void>> {
  const name = libraryOf(recipes);
  const admin = postgres(server, { max: 1, onnotice: () => {} });
  const found = await admin`select 1 from pg_database where datname = ${name}`;
  if (found.length === 0) await admin`create database ${admin(name)}`;
  const url = new URL(server);
  url.pathname = `/${name}`;
  const database = await openPostgres(url.href);
  const client = postgres(url.href, { max: 1, onnotice: () => {} });
  await fillLibrary(database.db, client, recipes);
  await client.end();
  await database.close();
  return async () => {
    if (found.length === 0) await admin`drop database ${admin(name)} with (force)`;
    await admin.end();
  };
}
