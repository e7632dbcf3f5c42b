import { type Head, readChain } from "../db/chain.ts";
import type { Db } from "../db/client.ts";
import { keepStandings, workOutChemistry } from "../db/restored-revisions.ts";
import {
  checkReviews,
  clearFirstStart,
  findOccupied,
  holdStudio,
  refusalOf,
} from "../db/restoring.ts";
import { checkExport, type Manager } from "./export-checking.ts";
import { type OpenExport, openExport } from "./export-reading.ts";
import { takeInRows } from "./restoring-rows.ts";
import { FileFault, type ZipSource } from "./zip-reading.ts";

export type Restoring =
  | { kind: "restored"; head: Head; counts: Record<string, number>; managers: Manager[] }
  /** Nothing was written; `says` is a sentence with the place. */
  | { kind: "refused"; says: string };

/**
 * Puts a studio back as an export has it: everything as it stood, the events word for word and none
 * added. Into a studio that nobody has joined yet, in one transaction, after the file was read from end
 * to end; then chemistry is worked out and standings are derived.
 *
 * After an export nobody has a password, and links to shared revisions and handouts are on record and
 * open nothing; after a backup both are as they were.
 *
 * @param manager the e-mail of somebody who has to be a manager in it.
 */
export async function restoreLibrary(
  db: Db,
  source: ZipSource,
  { now, manager }: { now: Date; manager?: string | undefined },
): Promise<Restoring> {
  let file: OpenExport | undefined;
  try {
    const occupied = await findOccupied(db);
    if (occupied) return { kind: "refused", says: notEmpty(occupied) };
    file = await openExport(source);
    const { managers } = await checkExport(file);
    checkManager(managers, manager);
    await takeIn(db, file, now);
    const { head, counts } = file.manifest;
    return { kind: "restored", head, counts, managers };
  } catch (error) {
    if (error instanceof FileFault) return { kind: "refused", says: error.message };
    if (refusalOf(error) === "not-owner") return { kind: "refused", says: notOwner };
    throw error;
  } finally {
    file?.close();
  }
}

/** Whether a file is a backup, after which people sign in as before. @throws {FileFault} where it is neither. */
export async function holdsSecrets(source: ZipSource): Promise<boolean> {
  const file = await openExport(source);
  file.close();
  return file.manifest.secrets === true;
}

const takeIn = (db: Db, file: OpenExport, now: Date): Promise<void> =>
  db.transaction(async (tx) => {
    await holdStudio(tx);
    const occupied = await findOccupied(tx);
    if (occupied) throw new FileFault(notEmpty(occupied));
    await clearFirstStart(tx);
    await checkReviews(tx, false);
    await takeInRows(tx, file);
    await checkReviews(tx, true);
    const { fault } = await readChain(tx, { last: file.manifest.head });
    if (fault) throw new FileFault(`The chain of events does not hold: ${fault.says}.`);
    const other = await workOutChemistry(tx);
    if (other)
      throw new FileFault(`revisions.jsonl, ${other}: it does not say what its digest says.`);
    await keepStandings(tx, now);
  });

function checkManager(managers: readonly Manager[], email: string | undefined): void {
  if (email === undefined) return;
  if (managers.some((manager) => manager.email.toLowerCase() === email.toLowerCase())) return;
  const known = managers.map((manager) => manager.email).join(", ") || "nobody";
  throw new FileFault(`${email} is no manager in this export. Managers are: ${known}.`);
}

const notEmpty = (noun: string): string =>
  `There is a studio in this database already (${noun} has rows), and it was left as it is. Restoring wants a database that nobody has joined: an empty one, or another DATA_DIR.`;

const notOwner =
  "Only the owner of the database's tables can restore. Set MIGRATE_URL to that role's address.";
