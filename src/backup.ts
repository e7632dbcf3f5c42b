import { readConfig } from "./config.ts";
import { openDatabase } from "./db/client.ts";
import { backUp } from "./work/backing-up.ts";

try {
  const config = readConfig(process.env);
  const folder = process.argv[2] ?? config.backupDir;
  if (!folder)
    throw new Error("npm run backup -- folder: say where to write it, or set BACKUP_DIR.");
  const database = await openDatabase(config);
  try {
    const path = await backUp(database.db, folder, new Date());
    console.log(`Everything is in ${path}, passwords' hashes too: keep it as you keep keys.`);
  } finally {
    await database.close();
  }
} catch (error) {
  const says = error instanceof Error ? error.message : String(error);
  const running = says.includes("in use by process");
  console.error(
    running
      ? `${says} While the studio runs it backs itself up into BACKUP_DIR, once a day.`
      : says,
  );
  process.exitCode = 1;
}
