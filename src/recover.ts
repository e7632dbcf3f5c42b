import { readConfig } from "./config.ts";
import { openDatabase } from "./db/client.ts";
import { offerRecovery } from "./db/recoveries.ts";

// For whoever is at the machine, where no manager is left who could make a link in the studio.
try {
  const [email] = process.argv.slice(2);
  if (!email) throw new Error("npm run recover -- name@example.org: say whose password is lost.");
  const config = readConfig(process.env);
  const database = await openDatabase(config);
  try {
    const offered = await offerRecovery(database.db, { email, at: new Date() });
    if (offered.kind === "no-person") throw new Error(`Nobody here signs in as ${email}.`);
    console.log(
      `${offered.name} sets a new password at ${config.publicUrl ?? ""}${offered.path} within a day. Whoever holds this link can.`,
    );
  } finally {
    await database.close();
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
