import { parseArgs } from "node:util";
import { readConfig } from "./config.ts";
import type { Head } from "./db/chain.ts";
import { openDatabase } from "./db/client.ts";
import { noteVerified } from "./db/verifications.ts";
import { readHead, verify } from "./work/verifying.ts";

try {
  const last = lastFrom(process.argv.slice(2));
  const database = await openDatabase(readConfig(process.env));
  try {
    const now = new Date();
    const { sound, lines } = await verify(database.db, { last, now });
    for (const line of lines) console.log(line);
    if (!sound) process.exitCode = 1;
    await noteVerified(database.db, { at: now, sound }).catch((error) =>
      console.error(`That it was checked could not be put on record: ${error}`),
    );
  } finally {
    await database.close();
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}

/** The head that `--last` gives, as it was noted down once. */
function lastFrom(args: string[]): Head | undefined {
  const { last } = parseArgs({ args, options: { last: { type: "string" } } }).values;
  if (last === undefined) return undefined;
  const head = readHead(last);
  if (!head)
    throw new Error("--last takes the head as it was printed: a number, a colon, 64 digits.");
  return head;
}
