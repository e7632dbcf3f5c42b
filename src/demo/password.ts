import { randomInt } from "node:crypto";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";

/** Beside the demo's database; that it is there is also what tells the folder from a studio's. */
export const passwordFile = "demo-password";

/** Letters and digits that nobody takes for one another. */
const letters = "abcdefghjkmnpqrstuvwxyz23456789";

/** Fourteen letters and digits, easily typed. */
export const makeUpPassword = (): string =>
  Array.from({ length: 14 }, () => letters[randomInt(letters.length)]).join("");

/** The password of the demo in a folder, or undefined where there is none yet. */
export async function readPassword(folder: string): Promise<string | undefined> {
  const written = await readFile(join(folder, passwordFile), "utf8").catch(() => undefined);
  return written?.replace(/\n$/, "") || undefined;
}

/** Keeps the password where its owner can read it again, and nobody else on the machine. */
export async function keepPassword(folder: string, password: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, passwordFile), `${password}\n`, { mode: 0o600 });
}
