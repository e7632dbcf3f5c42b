import type { Database } from "../db/client.ts";
import { type Serving, serveStudio } from "../serve.ts";
import { beginAgain } from "./beginning-again.ts";
import { makeMany } from "./making-many.ts";
import { renewPasswords } from "./new-password.ts";
import { keepPassword, makeUpPassword, readPassword } from "./password.ts";
import { demoPeople, emailOf, everyone } from "./people.ts";
import { startPreparing } from "./preparing.ts";
import type { Settings } from "./settings.ts";
import { openDemoStudio } from "./studio.ts";

/** Serves the demo's studio, made on the first start and kept as it is on every other. */
export async function serveDemo({ config, fresh, recipes }: Settings): Promise<Serving> {
  const { dataDir, demoPassword } = config;
  if (fresh) await beginAgain(dataDir);
  const kept = await readPassword(dataDir);
  const password = demoPassword ?? kept ?? makeUpPassword();
  // Without a password on file this is a first start: hashing and drawing go on beside the opening.
  let preparing = kept === undefined ? startPreparing(password) : undefined;
  const prepared = () => {
    preparing ??= startPreparing(password);
    return preparing;
  };

  const prepare = async (database: Database): Promise<string[]> => {
    const { db } = database;
    const keep = () => keepPassword(dataDir, password);
    try {
      const opened = await openDemoStudio(db, prepared, keep);
      const added = recipes > 0 ? await makeMany(db, recipes) : 0;
      const many = added > 0 ? [`${added} made-up recipes were added to the library.`] : [];
      if (opened === "made") return [...many, ...whoSignsIn(password)];
      if (demoPassword !== undefined && kept !== undefined && kept !== demoPassword) {
        await renewPasswords(db, { from: kept, to: demoPassword, at: new Date() });
        await keep();
      }
      return [...many, ...whoSignsIn(kept === undefined ? demoPassword : password)];
    } catch (error) {
      await database.close();
      throw error;
    }
  };
  return serveStudio(config, prepare);
}

function whoSignsIn(password: string | undefined): string[] {
  return [
    "Sign in as",
    ...everyone.map((who) => {
      const { name, role } = demoPeople[who];
      return `  ${emailOf(who).padEnd(28)}${name}, ${who === "marta" ? "a newcomer" : role}`;
    }),
    password === undefined
      ? "with the password that the demo's first start printed; its file is not in this folder."
      : `with the password ${password}`,
    "or look around as a visitor, without signing in.",
  ];
}
