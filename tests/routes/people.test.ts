import { eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { makeInvite } from "../../src/db/invites.ts";
import { people, type Role } from "../../src/db/schema/index.ts";
import { ask, join } from "../joined.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

describe("people", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const roleOf = async (id: string): Promise<Role | undefined> =>
    (await studio.db.select({ role: people.role }).from(people).where(eq(people.id, id)))[0]?.role;

  const allowed: [Who, number][] = [
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 200],
  ];

  it.each(allowed)("are listed for the %s with %i", async (who, status) => {
    for (const accept of ["text/html", "application/json"]) {
      const answer = await studio.send(who, "/people", { accept });
      expect(answer.status).toBe(status);
      expect((await answer.text()).includes("Jonah Brackley")).toBe(status === 200);
    }
  });

  it.each(allowed)("are shown one by one to the %s with %i", async (who, status) => {
    const answer = await studio.send(who, `/people/${studio.ids["other member"]}`);
    expect(answer.status).toBe(status);
  });

  it.each(allowed)("get a role from the %s with %i", async (who, status) => {
    const { id } = await join(studio);
    const answer = await studio.send(who, `/people/${id}`, {
      method: "PATCH",
      json: { role: "reviewer" },
    });
    expect(answer.status).toBe(status);
    expect(await roleOf(id)).toBe(status === 200 ? "reviewer" : "member");
    const told = (await listEvents(studio.db, { subjectId: id, limit: 9 })).map(({ kind }) => kind);
    expect(told).toEqual(status === 200 ? ["joined", "role changed"] : ["joined"]);
  });

  it.each(allowed)("get a role by form from the %s", async (who, status) => {
    const { id } = await join(studio);
    const answer = await studio.send(who, `/people/${id}`, { form: { role: "manager" } });
    expect(answer.status).toBe(status === 200 ? 303 : status);
    expect(await roleOf(id)).toBe(status === 200 ? "manager" : "member");
    await studio.send("manager", `/people/${id}`, { method: "PATCH", json: { role: "member" } });
  });

  it("cannot give themselves a role", async () => {
    const one = await join(studio, "reviewer");
    const path = `/people/${one.id}`;
    const answer = await ask(studio, path, {
      method: "PATCH",
      cookie: one.cookie,
      json: { role: "manager" },
    });
    expect(answer.status).toBe(403);
    expect(await roleOf(one.id)).toBe("reviewer");
  });

  it.each([
    [{ role: "owner" }, ["role"]],
    [{}, ["role"]],
    [{ role: "member", name: "Somebody Else" }, ["name"]],
  ])("are not changed by %j", async (json, paths) => {
    const { id } = await join(studio);
    const answer = await studio.send("manager", `/people/${id}`, { method: "PATCH", json });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect(errors.map(({ path }) => path)).toEqual(paths);
    expect(await roleOf(id)).toBe("member");
  });

  it.each(["nobody", uuidv7(), "%27", "00000000-0000-0000-0000-000000000000"])(
    "are not found at %s",
    async (id) => {
      const json = { role: "member" };
      expect((await studio.send("manager", `/people/${id}`)).status).toBe(404);
      const answer = await studio.send("manager", `/people/${id}`, { method: "PATCH", json });
      expect(answer.status).toBe(404);
    },
  );

  it("keep a manager: the last one stays one", async () => {
    for (const role of ["member", "reviewer"]) {
      const path = `/people/${studio.ids.manager}`;
      const answer = await studio.send("manager", path, { method: "PATCH", json: { role } });
      expect(answer.status).toBe(422);
      const { errors } = (await answer.json()) as { errors: { path: string }[] };
      expect(errors.map((error) => error.path)).toEqual(["role"]);
      expect(await roleOf(studio.ids.manager)).toBe("manager");
    }
  });

  it("keep a manager where two demote each other at the same moment", async () => {
    const two = await join(studio, "manager");
    const both = await Promise.all([
      studio.send("manager", `/people/${two.id}`, { method: "PATCH", json: { role: "member" } }),
      ask(studio, `/people/${studio.ids.manager}`, {
        method: "PATCH",
        cookie: two.cookie,
        json: { role: "member" },
      }),
    ]);
    const roles = [await roleOf(studio.ids.manager), await roleOf(two.id)].sort();
    expect(roles).toEqual(["manager", "member"]);
    expect(both.filter(({ status }) => status === 200)).toHaveLength(1);
    await studio.db
      .update(people)
      .set({ role: "manager" })
      .where(eq(people.id, studio.ids.manager));
    await studio.db.update(people).set({ role: "member" }).where(eq(people.id, two.id));
  });

  it("who are managers no longer leave no link behind", async () => {
    const two = await join(studio, "manager");
    const { path } = await makeInvite(studio.db, { role: "manager", by: two.id, at: new Date() });
    expect((await ask(studio, path)).status).toBe(200);
    const json = { role: "member" };
    await studio.send("manager", `/people/${two.id}`, { method: "PATCH", json });
    expect((await ask(studio, path)).status).toBe(404);
    expect((await ask(studio, "/people", { cookie: two.cookie })).status).toBe(403);
  });

  it("come a hundred at a time, each once", async () => {
    const at = new Date();
    const rows = Array.from({ length: 120 }, (_, n) => ({
      id: uuidv7(),
      name: `Crowd ${n}`,
      nameKey: `crowd ${n}`,
      email: `crowd-${n}@saltmarsh.example`,
      emailKey: `crowd-${n}@saltmarsh.example`,
      passwordHash: "none",
      role: "member" as const,
      joinedAt: at,
    }));
    await studio.db.insert(people).values(rows);
    type List = { items: { name: string }[]; next: string | null };
    const first = await studio.json<List>("manager", "/people");
    expect(first.items).toHaveLength(100);
    const path = `/people?after=${encodeURIComponent(first.next ?? "")}`;
    const second = await studio.json<List>("manager", path);
    const names = [...first.items, ...second.items].map(({ name }) => name);
    expect(second.next).toBeNull();
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((name) => name.startsWith("Crowd"))).toHaveLength(120);
  });

  it("broke nowhere, and the record holds", async () => {
    expect(studio.logged).toEqual([]);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });
});
