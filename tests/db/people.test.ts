import { and, eq, inArray } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { forget } from "../../src/db/forgetting.ts";
import { changeRole } from "../../src/db/people.ts";
import { people } from "../../src/db/schema/index.ts";
import { changePassword, startSession } from "../../src/db/sessions.ts";
import { join } from "../joined.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("people at the same moment", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const at = new Date("2026-03-01T10:00:00Z");
  const rounds = [1, 2, 3, 4, 5];

  it.each(rounds)("leaves a manager where two demote each other (round %i)", async () => {
    const { db, ids } = studio;
    const two = await join(studio, "manager");
    const both = await Promise.all([
      changeRole(db, { personId: two.id, role: "member", by: ids.manager, at }),
      changeRole(db, { personId: ids.manager, role: "member", by: two.id, at }),
    ]);
    const left = await db
      .select({ id: people.id })
      .from(people)
      .where(and(inArray(people.id, [two.id, ids.manager]), eq(people.role, "manager")));
    expect(left).toHaveLength(1);
    expect(both.map(({ kind }) => kind).sort()).toEqual(["changed", "last-manager"]);
    await db.update(people).set({ role: "manager" }).where(eq(people.id, ids.manager));
    await db.update(people).set({ role: "member" }).where(eq(people.id, two.id));
  });

  const started = (personId: string, passwordHash: string) =>
    startSession(studio.db, { personId, passwordHash, at }, async () => "a cookie");
  const hashOf = async (id: string) =>
    (await studio.db.select().from(people).where(eq(people.id, id)))[0]?.passwordHash ?? "";

  it("starts no session with a password that was changed after it was looked at", async () => {
    const one = await join(studio);
    const from = await hashOf(one.id);
    expect(await started(one.id, from)).toEqual({ kind: "started", cookie: "a cookie" });
    const change = { personId: one.id, from, to: "another hash", keep: "none", at };
    expect((await changePassword(studio.db, change)).kind).toBe("changed");
    expect(await started(one.id, from)).toEqual({ kind: "changed-meanwhile" });
    expect((await changePassword(studio.db, change)).kind).toBe("changed-meanwhile");
  });

  it("starts no session for somebody who was removed after the password was looked at", async () => {
    const one = await join(studio);
    const from = await hashOf(one.id);
    const act = { by: studio.ids.manager, why: "left", at };
    await forget(studio.db, { what: "person", which: one.id, ...act });
    expect(await started(one.id, from)).toEqual({ kind: "changed-meanwhile" });
  });
});
