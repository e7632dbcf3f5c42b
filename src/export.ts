import { createWriteStream } from "node:fs";
import { rm } from "node:fs/promises";
import { pipeline } from "node:stream/promises";
import { readConfig } from "./config.ts";
import { openDatabase } from "./db/client.ts";
import { exportLibrary } from "./work/exporting.ts";

try {
  const [path] = process.argv.slice(2);
  if (!path) throw new Error("npm run export -- library.zip: say which file to write.");
  const database = await openDatabase(readConfig(process.env)).catch(whileItRuns);
  try {
    const zip = await exportLibrary(database.db, { at: new Date() });
    await pipeline(zip, createWriteStream(path, { flags: "wx", mode: 0o600 })).catch(
      async (error) => {
        // What was there before stays; half an export would be taken for one.
        if (error.code !== "EEXIST") await rm(path, { force: true });
        throw error.code === "EEXIST" ? new Error(`${path} is there already.`) : error;
      },
    );
    console.log(`The library is in ${path}. It holds names and e-mail addresses: keep it safe.`);
  } finally {
    await database.close();
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}

function whileItRuns(error: unknown): never {
  const says = error instanceof Error ? error.message : String(error);
  if (!says.includes("in use by process")) throw error;
  throw new Error(`${says} While the studio runs, a manager fetches the same file at /export.`);
}
