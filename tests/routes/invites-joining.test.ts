import { count, eq, like } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { makeInvite } from "../../src/db/invites.ts";
import { invites, people } from "../../src/db/schema/index.ts";
import { accountStatus, ask, cookieOf, inviteFor, join, password } from "../joined.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Refused = { errors: { path: string; says: string }[] };

describe("joining", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  let last = 0;
  const newcomer = () => {
    last += 1;
    return { name: `Sefton ${last}`, email: `sefton-${last}@saltmarsh.example`, password };
  };
  const joinWith = (json: Record<string, unknown>) => ask(studio, "/people", { json });
  const many = async () => (await studio.db.select({ n: count() }).from(people))[0]?.n;
  const pathsOf = async (answer: Response) =>
    ((await answer.json()) as Refused).errors.map(({ path }) => path);

  it.each(["member", "reviewer", "manager"] as const)("makes a %s and signs in", async (role) => {
    const invite = await inviteFor(studio, role);
    const one = newcomer();
    const answer = await joinWith({ invite, ...one });
    expect(answer.status).toBe(201);
    expect(await answer.json()).toEqual({ person: { name: one.name, role } });
    expect(await accountStatus(studio, cookieOf(answer))).toBe(200);
    const [row] = await studio.db.select().from(people).where(eq(people.name, one.name));
    expect(row).toMatchObject({ role, email: one.email });
    expect(row?.passwordHash).not.toContain(password);
    const told = await listEvents(studio.db, { subjectId: row?.id ?? "", limit: 9 });
    expect(told).toMatchObject([{ kind: "joined", by: { name: one.name }, detail: { role } }]);
  });

  it("goes on to the studio from the form", async () => {
    const invite = await inviteFor(studio, "member");
    const page = await (await ask(studio, `/people/new?invite=${invite}`)).text();
    expect(page).toContain(`name="invite" value="${invite}"`);
    const answer = await ask(studio, "/people", { form: { invite, ...newcomer() } });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/"]);
    expect(await accountStatus(studio, cookieOf(answer))).toBe(200);
  });

  it("takes the whole link too", async () => {
    const { path } = await makeInvite(studio.db, {
      role: "member",
      by: studio.ids.manager,
      at: new Date(),
    });
    const answer = await joinWith({ invite: `http://localhost${path}`, ...newcomer() });
    expect(answer.status).toBe(201);
  });

  it("takes no role from whoever joins", async () => {
    const invite = await inviteFor(studio, "member");
    const one = newcomer();
    const answer = await joinWith({ invite, ...one, role: "manager" });
    expect([answer.status, await pathsOf(answer)]).toEqual([422, ["role"]]);
    const form = await ask(studio, "/people", { form: { invite, ...one, role: "manager" } });
    expect(form.status).toBe(422);
    expect(await studio.db.select().from(people).where(eq(people.name, one.name))).toEqual([]);
    expect((await joinWith({ invite, ...one })).status).toBe(201);
  });

  it("works once", async () => {
    const invite = await inviteFor(studio, "member");
    expect((await joinWith({ invite, ...newcomer() })).status).toBe(201);
    const second = await joinWith({ invite, ...newcomer() });
    expect([second.status, await pathsOf(second)]).toEqual([422, ["invite"]]);
    const page = await ask(studio, `/people/new?invite=${invite}`);
    expect(page.status).toBe(404);
    expect(await page.text()).toContain("This link does not work");
  });

  it("works once where four use a link at the same moment", async () => {
    const invite = await inviteFor(studio, "manager");
    const before = await many();
    const all = await Promise.all([1, 2, 3, 4].map(() => joinWith({ invite, ...newcomer() })));
    expect(all.map(({ status }) => status).sort()).toEqual([201, 422, 422, 422]);
    expect(await many()).toBe((before ?? 0) + 1);
  });

  it("gives a name once where two take it at the same moment", async () => {
    const tokens = [await inviteFor(studio, "member"), await inviteFor(studio, "member")];
    const one = newcomer();
    const both = await Promise.all(
      tokens.map((invite, n) => joinWith({ invite, ...one, email: `twin-${n}@saltmarsh.example` })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([201, 422]);
    expect(await studio.db.select().from(people).where(like(people.email, "twin-%"))).toHaveLength(
      1,
    );
  });

  it.each([
    ["made up", async () => "a-token-that-was-never-given-out-32"],
    ["empty", async () => ""],
    ["too old", expired],
  ])("needs a link that is not %s", async (_, token) => {
    const before = await many();
    const answer = await joinWith({ invite: await token(), ...newcomer() });
    expect([answer.status, await pathsOf(answer)]).toEqual([422, ["invite"]]);
    expect(await many()).toBe(before);
  });

  async function expired() {
    const token = await inviteFor(studio, "member");
    const long = new Date("2026-01-01T00:00:00Z");
    const later = { madeAt: long, expiresAt: new Date(long.getTime() + 1000) };
    await studio.db.update(invites).set(later).where(eq(invites.madeBy, studio.ids.manager));
    return token;
  }

  it.each([
    ["name", { name: "ines  OKAFOR" }],
    ["name", { name: "Inès Okafor" }],
    ["name", { name: "Ines\u200b Okafor" }],
    ["name", { name: "" }],
    ["name", { name: "—" }],
    ["name", { name: "x".repeat(81) }],
    ["name", { name: "Former member abc123" }],
    ["name", { name: "Ines \u202eOkafor" }],
    ["email", { email: "INES@saltmarsh.example" }],
    ["email", { email: "ines" }],
    ["email", { email: `${"x".repeat(250)}@y.example` }],
    ["password", { password: "too short" }],
    ["password", { password: "x".repeat(201) }],
    ["password", { name: "Wrack Line Person", password: "wrack-line person" }],
    ["password", { email: "wracklineperson@saltmarsh.example", password: "wracklineperson" }],
  ])("refuses at %s: %j", async (path, typed) => {
    const invite = await inviteFor(studio, "member");
    const before = await many();
    const answer = await joinWith({ invite, ...newcomer(), ...typed });
    const body = (await answer.json()) as Refused;
    expect([answer.status, body.errors.map((error) => error.path)]).toEqual([422, [path]]);
    expect(JSON.stringify(body)).not.toMatch(/Ines Okafor|manager/);
    expect(await many()).toBe(before);
    expect((await joinWith({ invite, ...newcomer() })).status).toBe(201);
  });

  it("says nothing of names and addresses to whoever holds no link", async () => {
    const taken = await joinWith({ invite: "none", ...newcomer(), name: "Ines Okafor" });
    const free = await joinWith({ invite: "none", ...newcomer() });
    expect(await taken.text()).toBe(await free.text());
  });

  it("shows the form again with all but the password", async () => {
    const invite = await inviteFor(studio, "member");
    const form = { ...newcomer(), invite, name: "Ines Okafor", password: "a password of words" };
    const answer = await ask(studio, "/people", { form });
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toContain(`value="${form.email}"`);
    expect(page).toContain(`value="${invite}"`);
    expect(page).not.toContain(form.password);
  });

  it("ends the session that the browser had", async () => {
    const { cookie } = await join(studio);
    const invite = await inviteFor(studio, "member");
    const answer = await ask(studio, "/people", { json: { invite, ...newcomer() }, cookie });
    expect(answer.status).toBe(201);
    expect(await accountStatus(studio, cookie)).toBe(401);
  });

  it("broke nowhere, and the record holds", async () => {
    expect(studio.logged).toEqual([]);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });
});
