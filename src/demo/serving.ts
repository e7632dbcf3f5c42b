import type { Db } from "../db/client.ts";
import { type Preparation, type Serving, serveStudio } from "../serve.ts";
import { beginAgain, isUnfinished, markFinished, markUnfinished } from "./beginning-again.ts";
import { keepPassword, makeUpPassword, readPassword } from "./password.ts";
import { demoPeople, emailOf, everyone } from "./people.ts";
import { startPreparing } from "./preparing.ts";
import type { Settings } from "./settings.ts";

/** Said when nothing is left to follow. */
export const whole = "The studio's whole year is there.";

/**
 * Serves the demo's studio, made on the first start and kept as it is on every other. On the embedded
 * engine what the first page does not need follows while people look around.
 */
export async function serveDemo({ config, fresh, recipes }: Settings): Promise<Serving> {
  const { dataDir, demoPassword } = config;
  // A server's database is not ours to empty, so there all of it is made in one transaction.
  const embedded = config.databaseUrl === undefined;
  const unfinished = embedded && (await isUnfinished(dataDir));
  const told = unfinished && !fresh ? await readPassword(dataDir) : undefined;
  if (fresh || unfinished) await beginAgain(dataDir);
  const kept = await readPassword(dataDir);
  const password = demoPassword ?? kept ?? told ?? makeUpPassword();
  // Without a password on file this is a first start: hashing goes on beside the opening.
  let preparing = kept === undefined ? startPreparing(password) : undefined;
  const prepared = () => {
    preparing ??= startPreparing(password);
    return preparing;
  };
  const keep = () => keepPassword(dataDir, password);

  const prepare = async (db: Db): Promise<Preparation> => {
    const { beginDemoStudio, openDemoStudio } = await making;
    if (embedded && recipes === 0) {
      const follow = await beginDemoStudio(db, prepared, async () => {
        await keep();
        await markUnfinished(dataDir);
      });
      const finish = () => markFinished(dataDir);
      if (follow) return { says: whoSignsIn(password), follow: () => follow().then(finish) };
    }
    const opened = await openDemoStudio(db, prepared, keep);
    const many = recipes > 0 ? await addMany(db, recipes) : [];
    if (opened === "made") return { says: [...many, ...whoSignsIn(password)] };
    if (demoPassword !== undefined && kept !== undefined && kept !== demoPassword) {
      const { renewPasswords } = await import("./new-password.ts");
      await renewPasswords(db, { from: kept, to: demoPassword, at: new Date() });
      await keep();
    }
    return { says: [...many, ...whoSignsIn(kept === undefined ? demoPassword : password)] };
  };

  const serving = serveStudio(config, ({ db, close }) =>
    prepare(db).catch(async (error) => {
      await close();
      throw error;
    }),
  );
  // Asked for behind the opening: the database is begun before all else is loaded.
  const making = import("./studio.ts");
  // Heard of where it is awaited, with the database closed.
  making.catch(() => {});
  return serving;
}

async function addMany(db: Db, recipes: number): Promise<string[]> {
  const { makeMany } = await import("./making-many.ts");
  const added = await makeMany(db, recipes);
  return added > 0 ? [`${added} made-up recipes were added to the library.`] : [];
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
