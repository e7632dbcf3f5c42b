import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sha256 } from "../../src/db/digests.ts";
import { answers, invites } from "../../src/db/schema/index.ts";
import { ask } from "../joined.ts";
import { openTestStudio, origin, type TestStudio, type Who } from "../studio.ts";

type Made = { id: string; link: string; role: string };

describe("links to join", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const make = async (role = "member") =>
    (await (await studio.send("manager", "/invites", { json: { role } })).json()) as Made;
  const pathOf = ({ link }: Made) => link.replace(origin, "");
  const open = async () =>
    (await studio.json<{ invites: { id: string }[] }>("manager", "/people")).invites.length;

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("are made by the %s with %i", async (who, status) => {
    const before = await open();
    const answer = await studio.send(who, "/invites", { json: { role: "manager" } });
    expect(answer.status).toBe(status);
    expect(await open()).toBe(status === 201 ? before + 1 : before);
  });

  it("carry the role, work for a week and are stored by hash alone", async () => {
    const made = await make("reviewer");
    expect(made.link).toMatch(/^http:\/\/localhost\/people\/new\?invite=[\w-]{32}$/);
    const token = made.link.split("invite=")[1] ?? "";
    const [row] = await studio.db.select().from(invites).where(eq(invites.id, made.id));
    expect(row).toMatchObject({ tokenHash: sha256(token), role: "reviewer" });
    expect(row && row.expiresAt.getTime() - row.madeAt.getTime()).toBe(7 * 24 * 3600 * 1000);
    const page = await (await studio.send("manager", "/people")).text();
    expect(page).not.toContain(token);
  });

  it("begin where people reach the studio, if it knows", async () => {
    const elsewhere = await openTestStudio({ PUBLIC_URL: "https://glazes.saltmarsh.example/" });
    const answer = await elsewhere.send("manager", "/invites", { json: { role: "member" } });
    const { link } = (await answer.json()) as Made;
    expect(link).toMatch(/^https:\/\/glazes\.saltmarsh\.example\/people\/new\?invite=/);
    await elsewhere.close();
  });

  it("are shown once on a page that nothing keeps", async () => {
    const answer = await studio.send("manager", "/invites", { form: { role: "member" } });
    expect(answer.status).toBe(201);
    expect(answer.headers.get("cache-control")).toBe("no-store");
    const link = /http:\/\/localhost\/people\/new\?invite=[\w-]+/.exec(await answer.text())?.[0];
    expect((await ask(studio, (link ?? "").replace(origin, ""))).status).toBe(200);
  });

  it("take no key, since a repeat would have to keep the link", async () => {
    const before = await open();
    const answer = await studio.send("manager", "/invites", {
      json: { role: "member" },
      headers: { "idempotency-key": "twice" },
    });
    expect(answer.status).toBe(422);
    expect(await open()).toBe(before);
    expect(await studio.db.select().from(answers)).toEqual([]);
  });

  it.each([{ role: "owner" }, {}, { role: "member", uses: 5 }])(
    "are not made of %j",
    async (json) => {
      const before = await open();
      expect((await studio.send("manager", "/invites", { json })).status).toBe(422);
      expect(await open()).toBe(before);
    },
  );

  it.each<[Who, string, string, number]>([
    ["visitor", "DELETE", "", 401],
    ["author", "DELETE", "", 403],
    ["reviewer", "POST", "/revocation", 403],
    ["manager", "DELETE", "", 204],
    ["manager", "POST", "/revocation", 303],
  ])("are ended by the %s by %s …%s with %i", async (who, method, ending, status) => {
    const made = await make();
    const answer = await studio.send(who, `/invites/${made.id}${ending}`, {
      method,
      ...(method === "POST" ? { form: {} } : { accept: "application/json" }),
    });
    expect(answer.status).toBe(status);
    expect((await ask(studio, pathOf(made))).status).toBe(status < 400 ? 404 : 200);
    const again = await studio.send("manager", `/invites/${made.id}`, { method: "DELETE" });
    expect(again.status).toBe(status < 400 ? 404 : 303);
  });

  it("are found by their id only", async () => {
    for (const id of ["nonsense", studio.ids.manager]) {
      const answer = await studio.send("manager", `/invites/${id}`, { method: "DELETE" });
      expect(answer.status).toBe(404);
    }
  });

  it("broke nowhere", () => expect(studio.logged).toEqual([]));
});
