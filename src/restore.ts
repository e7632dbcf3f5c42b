import { parseArgs } from "node:util";
import { readConfig } from "./config.ts";
import { openDatabase } from "./db/client.ts";
import { offerRecovery } from "./db/recoveries.ts";
import { holdsSecrets, restoreLibrary } from "./work/restoring.ts";
import { verify } from "./work/verifying.ts";

try {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { manager: { type: "string" } },
  });
  const [path] = positionals;
  if (!path)
    throw new Error(
      "npm run restore -- library.zip --manager name@example.org: say which file, and of an export which of its managers gets a link to set a new password.",
    );
  if (!values.manager && !(await holdsSecrets({ path })))
    throw new Error(
      "An export has nobody's password. Say which of its managers gets a link to set a new one: --manager name@example.org.",
    );
  const config = readConfig(process.env);
  // The record takes no other than its owner past what keeps it append-only.
  const databaseUrl = config.migrateUrl ?? config.databaseUrl;
  const database = await openDatabase({ ...config, databaseUrl });
  try {
    const { db } = database;
    const now = new Date();
    const restored = await restoreLibrary(db, { path }, { now, manager: values.manager });
    if (restored.kind === "refused") throw new Error(`Nothing was restored. ${restored.says}`);
    const { sound, lines } = await verify(db, { last: restored.head, now });
    for (const line of lines) console.log(line);
    if (!sound) process.exitCode = 1;
    const offered = values.manager && (await offerRecovery(db, { email: values.manager, at: now }));
    if (!offered) console.log("Restored. Everybody signs in as before.");
    else if (offered.kind === "offered")
      console.log(
        `Restored. ${offered.name} sets a new password at ${config.publicUrl ?? ""}${offered.path} within a day, and makes links for the others on their pages.`,
      );
  } finally {
    await database.close();
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
