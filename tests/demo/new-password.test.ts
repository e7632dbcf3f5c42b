import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { findByEmail } from "../../src/db/people.ts";
import { changePassword } from "../../src/db/sessions.ts";
import { renewPasswords } from "../../src/demo/new-password.ts";
import { emailOf, everyone } from "../../src/demo/people.ts";
import { hashPassword, verifyPassword } from "../../src/work/passwords.ts";
import { demoPassword, openMadeDemo } from "./studio.ts";

describe("another password for the demo", () => {
  let database: Database;
  const at = new Date("2026-11-20T09:00:00Z");

  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  it("goes to everybody but who chose their own", async () => {
    const jonah = await findByEmail(database.db, emailOf("jonah"));
    if (!jonah) throw new Error("Jonah is not there");
    const hashes = { from: jonah.passwordHash, to: await hashPassword("all mine, nobody else's") };
    await changePassword(database.db, { personId: jonah.id, ...hashes, keep: "", at });

    const to = "given by the environment";
    await renewPasswords(database.db, { from: demoPassword, to, at });
    for (const who of everyone) {
      const person = await findByEmail(database.db, emailOf(who));
      const right = who === "jonah" ? "all mine, nobody else's" : to;
      expect(await verifyPassword(person?.passwordHash, right), who).toBe(true);
    }
  });
});
