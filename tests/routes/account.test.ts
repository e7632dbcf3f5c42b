import { desc, eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { people, sessions } from "../../src/db/schema/index.ts";
import { accountStatus, anotherBrowser, ask, type Joined, join, password } from "../joined.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Own = {
  person: { name: string; email: string; role: string };
  sessions: { id: string; browser: string; current: boolean }[];
};

describe("one's own account", () => {
  let studio: TestStudio;
  let jonah: Joined;
  beforeAll(async () => {
    studio = await openTestStudio();
    jonah = await join(studio);
  });
  afterAll(() => studio.close());

  const json = { accept: "application/json" };
  const own = async (cookie: string) =>
    (await (await ask(studio, "/account", { cookie, headers: json })).json()) as Own;
  const hashOf = async (id: string) =>
    (await studio.db.select({ hash: people.passwordHash }).from(people).where(eq(people.id, id)))[0]
      ?.hash;

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["reviewer", 200],
    ["manager", 200],
  ])("is shown to the %s with %i", async (who, status) => {
    expect((await studio.send(who, "/account")).status).toBe(status);
  });

  it("says what is known of oneself and never a password", async () => {
    const { person, sessions: mine } = await own(jonah.cookie);
    expect(person).toMatchObject({ name: jonah.name, email: jonah.email, role: "member" });
    expect(mine.filter(({ current }) => current)).toHaveLength(1);
    const page = await (await ask(studio, "/account", { cookie: jonah.cookie })).text();
    expect(page).toContain(jonah.email);
    expect(page).not.toContain("argon2");
  });

  it("names the browser in words", async () => {
    const cookie = await anotherBrowser(studio, jonah.id);
    const page = await (await ask(studio, "/account", { cookie: jonah.cookie })).text();
    expect(page).toContain("Firefox on Windows");
    expect(await accountStatus(studio, cookie)).toBe(200);
  });

  it.each([
    ["DELETE", "", 204],
    ["POST", "/end", 303],
  ])("ends one session by %s …%s", async (method, ending, status) => {
    const cookie = await anotherBrowser(studio, jonah.id);
    const there = (await own(cookie)).sessions.find(({ current }) => current);
    const answer = await ask(studio, `/account/sessions/${there?.id}${ending}`, {
      method,
      cookie: jonah.cookie,
      ...(method === "POST" ? { form: {} } : { headers: json }),
    });
    expect(answer.status).toBe(status);
    expect(await accountStatus(studio, cookie)).toBe(401);
    expect(await accountStatus(studio, jonah.cookie)).toBe(200);
  });

  it("cannot end a session of somebody else", async () => {
    const [theirs] = await studio.db
      .select({ id: sessions.id })
      .from(sessions)
      .where(eq(sessions.userId, studio.ids.manager));
    const path = `/account/sessions/${theirs?.id}`;
    const answer = await ask(studio, path, {
      method: "DELETE",
      cookie: jonah.cookie,
      headers: json,
    });
    expect(answer.status).toBe(404);
    expect(await accountStatus(studio, studio.cookies.manager)).toBe(200);
  });

  it.each([
    ["DELETE", "/account/sessions", 200],
    ["POST", "/account/sessions/end", 303],
  ])("ends all others by %s %s", async (method, path, status) => {
    const others = [await anotherBrowser(studio, jonah.id), await anotherBrowser(studio, jonah.id)];
    const answer = await ask(studio, path, {
      method,
      cookie: jonah.cookie,
      ...(method === "POST" ? { form: {} } : { headers: json }),
    });
    expect(answer.status).toBe(status);
    for (const cookie of others) expect(await accountStatus(studio, cookie)).toBe(401);
    expect(await accountStatus(studio, jonah.cookie)).toBe(200);
    expect(await accountStatus(studio, studio.cookies.manager)).toBe(200);
  });

  it.each([
    ["PUT", 200],
    ["POST", 303],
  ])("takes a new password by %s and ends every other session", async (method, status) => {
    const one = await join(studio);
    const elsewhere = await anotherBrowser(studio, one.id);
    const sent = { current: password, password: "quite another row of words" };
    const answer = await ask(studio, "/account/password", {
      method,
      cookie: one.cookie,
      ...(method === "POST" ? { form: sent } : { json: sent }),
    });
    expect(answer.status).toBe(status);
    expect(await accountStatus(studio, elsewhere)).toBe(401);
    expect(await accountStatus(studio, one.cookie)).toBe(200);
    const signIn = (typed: string) =>
      ask(studio, "/session", { json: { email: one.email, password: typed } });
    expect((await signIn(password)).status).toBe(401);
    expect((await signIn(sent.password)).status).toBe(200);
    const [last] = (await listEvents(studio.db, { subjectId: one.id, limit: 100 })).reverse();
    expect(last).toMatchObject({ kind: "password changed", detail: { sessionsEnded: 1 } });
  });

  it.each([
    ["a wrong one now", { current: "not this one", password: "quite another row" }, "current"],
    ["none now", { password: "quite another row" }, "current"],
    ["nine characters", { current: password, password: "123456789" }, "password"],
    ["too many", { current: password, password: "x".repeat(201) }, "password"],
    ["their own e-mail", { current: password, password: "EMAIL" }, "password"],
    ["their own name", { current: password, password: "NAME" }, "password"],
  ])("refuses %s at its field and changes nothing", async (_, typed, path) => {
    const before = await hashOf(jonah.id);
    const elsewhere = await anotherBrowser(studio, jonah.id);
    const sent = {
      ...typed,
      password: typed.password
        .replace("EMAIL", jonah.email.toUpperCase())
        .replace("NAME", `  ${jonah.name.toLowerCase()} `),
    };
    const answer = await ask(studio, "/account/password", {
      method: "PUT",
      cookie: jonah.cookie,
      json: sent,
      address: "192.0.2.77",
    });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect(errors.map((error) => error.path)).toEqual([path]);
    expect(await hashOf(jonah.id)).toBe(before);
    expect(await accountStatus(studio, elsewhere)).toBe(200);
  });

  it("counts wrong passwords as signing in does", async () => {
    const one = await join(studio);
    const change = (current: string) =>
      ask(studio, "/account/password", {
        method: "PUT",
        cookie: one.cookie,
        json: { current, password: "quite another row of words" },
        address: "192.0.2.78",
      });
    for (let n = 0; n < 10; n += 1) expect((await change("not this one")).status).toBe(422);
    const refused = await change(password);
    expect(refused.status).toBe(429);
    expect(refused.headers.get("retry-after")).toMatch(/^\d+$/);
  });

  it("changes once where two changes come at the same moment", async () => {
    const one = await join(studio);
    const change = (to: string) =>
      ask(studio, "/account/password", {
        method: "PUT",
        cookie: one.cookie,
        json: { current: password, password: to },
      });
    const both = await Promise.all([change("the first of two"), change("the second of two")]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 422]);
  });

  it("stores argon2id at the cost that it says", async () => {
    const [latest] = await studio.db.select().from(people).orderBy(desc(people.joinedAt)).limit(1);
    expect(latest?.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });

  it("broke nowhere, and the record holds", async () => {
    expect(studio.logged).toEqual([]);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });
});
