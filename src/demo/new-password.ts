import type { Db } from "../db/client.ts";
import { findByEmail } from "../db/people.ts";
import { changePassword } from "../db/sessions.ts";
import { emailOf, everyone } from "./people.ts";

/** Gives a new password to whoever of the demo still has the old one; who chose their own keep it. */
export async function renewPasswords(
  db: Db,
  { from, to, at }: { from: string; to: string; at: Date },
): Promise<void> {
  const { hashPassword, verifyPassword } = await import("../work/passwords.ts");
  for (const who of everyone) {
    const person = await findByEmail(db, emailOf(who));
    if (!person || !(await verifyPassword(person.passwordHash, from))) continue;
    const hashes = { from: person.passwordHash, to: await hashPassword(to) };
    await changePassword(db, { personId: person.id, ...hashes, keep: noSession, at });
  }
}

/** No session has this id, so all of them end. */
const noSession = "";
