import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { offerRecovery } from "../../src/db/recoveries.ts";
import { people, recoveries } from "../../src/db/schema/index.ts";
import { mostFailures } from "../../src/db/sign-in-attempts.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const password = "four unrelated plain words";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

/** A fresh link to set somebody's password, as its path. */
async function linkFor(who: keyof TestStudio["ids"]): Promise<{ id: string; path: string }> {
  const answer = await studio.send("manager", `/people/${studio.ids[who]}/recovery`, { json: {} });
  expect(answer.status).toBe(201);
  expect(answer.headers.get("cache-control")).toBe("no-store");
  const { id, link } = (await answer.json()) as { id: string; link: string };
  return { id, path: new URL(link).pathname };
}

const set = (path: string, typed = password) =>
  studio.send("visitor", path, { json: { password: typed } });

const signIn = (email: string, typed = password) =>
  studio.send("visitor", "/session", { json: { email, password: typed } });

describe("a link to set a new password", () => {
  it("lets its person in again, once, signs out every browser and ends the other links", async () => {
    const first = await linkFor("author");
    const { path } = await linkFor("author");
    expect((await studio.send("author", "/account")).status).toBe(200);

    const form = await studio.send("visitor", path);
    expect(form.status).toBe(200);
    expect(form.headers.get("cache-control")).toBe("no-store");
    expect(await form.text()).toContain("A new password for Rukmini Vale");
    const answer = await set(path);
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual({ sessionsEnded: 1 });

    expect((await signIn("rukmini@saltmarsh.example")).status).toBe(200);
    expect((await studio.send("author", "/account")).status).toBe(401);
    expect((await set(path)).status).toBe(404);
    expect((await set(first.path)).status).toBe(404);
  });

  it("keeps to the rules for passwords, and works on after a wrong one", async () => {
    const { path } = await linkFor("other member");
    const short = await set(path, "short");
    expect(short.status).toBe(422);
    expect(await short.json()).toMatchObject({ errors: [{ path: "password" }] });
    expect((await set(path, "Jonah Brackley")).status).toBe(422);
    const page = await studio.send("visitor", path, { form: { password: "short" } });
    expect(page.status).toBe(422);
    expect(await page.text()).toContain("At least 10 characters");
    const done = await studio.send("visitor", path, { form: { password } });
    expect(done.status).toBe(303);
    expect(done.headers.get("location")).toBe("/session/new?set=password");
    const signInPage = await studio.send("visitor", "/session/new?set=password");
    expect(await signInPage.text()).toContain("Your new password is set.");
  });

  it("tells nobody why it does not work", async () => {
    const ended = await linkFor("reviewer");
    const before = await studio.json<{ recoveries: unknown[] }>(
      "manager",
      `/people/${studio.ids.reviewer}`,
    );
    expect(before.recoveries).toHaveLength(1);
    const end = await studio.send("manager", `/recoveries/${ended.id}/end`, { form: {} });
    expect(end.headers.get("location")).toBe(`/people/${studio.ids.reviewer}#recoveries`);
    expect(
      (await studio.send("manager", `/recoveries/${ended.id}`, { method: "DELETE" })).status,
    ).toBe(404);

    const late = await linkFor("reviewer");
    await studio.db
      .update(recoveries)
      .set({ expiresAt: new Date("2026-01-01T00:00:00Z") })
      .where(eq(recoveries.id, late.id));
    const answers = [];
    for (const path of [ended.path, late.path, "/recovery/never-one"]) {
      const [got, sent] = [await studio.send("visitor", path), await set(path)];
      answers.push([got.status, await got.text(), sent.status, await sent.json()]);
    }
    expect(answers[0]?.[0]).toBe(404);
    expect(answers[1]).toEqual(answers[0]);
    expect(answers[2]).toEqual(answers[0]);
  });

  it("ends with the manager who made it, and with a password that its person sets otherwise", async () => {
    const made = await studio.send("manager", "/invites", { json: { role: "manager" } });
    const { link } = (await made.json()) as { link: string };
    const joined = await studio.send("visitor", "/people", {
      json: { invite: link, name: "Wren Aldous", email: "wren@saltmarsh.example", password },
    });
    const cookie = joined.headers.get("set-cookie")?.split(";")[0] ?? "";
    const other = await studio.app.request(
      `http://localhost/people/${studio.ids.manager}/recovery`,
      {
        method: "POST",
        headers: { cookie, "content-type": "application/json", accept: "application/json" },
        body: "{}",
      },
    );
    const path = new URL(((await other.json()) as { link: string }).link).pathname;
    expect((await studio.send("visitor", path)).status).toBe(200);
    const [wren] = await studio.db.select().from(people).where(eq(people.name, "Wren Aldous"));
    const demoted = await studio.send("manager", `/people/${wren?.id}`, {
      json: { role: "member" },
    });
    expect(demoted.status).toBe(200);
    expect((await studio.send("visitor", path)).status).toBe(404);

    const again = await studio.send("manager", `/people/${wren?.id}/recovery`, { json: {} });
    const own = new URL(((await again.json()) as { link: string }).link).pathname;
    const changed = await studio.app.request("http://localhost/account/password", {
      method: "PUT",
      headers: { cookie, "content-type": "application/json", accept: "application/json" },
      body: JSON.stringify({ current: password, password: "another set of four words" }),
    });
    expect(changed.status).toBe(200);
    expect((await set(own)).status).toBe(404);
  });

  it("is not made for somebody who left, nor kept for a repeat, nor told in the record", async () => {
    const path = `/people/${studio.ids.reviewer}/recovery`;
    const headers = { "idempotency-key": "k" };
    expect((await studio.send("manager", path, { json: {}, headers })).status).toBe(422);
    const { path: link } = await linkFor("reviewer");
    const gone = await studio.send("manager", `/people/${studio.ids.reviewer}/removal`, {
      method: "PUT",
      json: { why: "Moved away." },
    });
    expect(gone.ok).toBe(true);
    expect((await studio.send("manager", path, { json: {} })).status).toBe(404);
    expect((await set(link)).status).toBe(404);

    const record = await studio.json<{ items: { kind: string }[] }>(
      "manager",
      "/events?kind=recovery%20made",
    );
    expect(record.items.length).toBeGreaterThan(0);
    expect(JSON.stringify(record)).not.toContain(link.split("/").at(-1));
    expect(await (await studio.send("manager", "/events")).text()).toContain(
      "made a link to set a new password for",
    );
  });

  it("can be made at the machine, by nobody, for whoever signs in with an e-mail", async () => {
    const at = new Date();
    expect(await offerRecovery(studio.db, { email: "nobody@saltmarsh.example", at })).toEqual({
      kind: "no-person",
    });
    const offered = await offerRecovery(studio.db, { email: "INES@saltmarsh.example", at });
    if (offered.kind !== "offered") throw new Error(offered.kind);
    const person = await studio.send("manager", `/people/${studio.ids.manager}`);
    expect(await person.text()).toContain("at the machine that the studio runs on");
    const [one, other] = await Promise.all([set(offered.path), set(offered.path)]);
    expect([one.status, other.status].sort()).toEqual([200, 404]);
  });

  it("counts tries with links that do not work as failed sign-ins are counted", async () => {
    const tries = [];
    for (let place = 0; place <= mostFailures.address; place += 1)
      tries.push((await studio.send("visitor", `/recovery/guess-${place}`)).status);
    expect(tries).toContain(404);
    expect(tries.at(-1)).toBe(429);
  });
});
