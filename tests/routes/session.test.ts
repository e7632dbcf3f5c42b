import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sha256 } from "../../src/db/digests.ts";
import { sessions } from "../../src/db/schema/index.ts";
import { accountStatus, ask, cookieOf, type Joined, join, password, tokenOf } from "../joined.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("signing in", () => {
  let studio: TestStudio;
  let marta: Joined;
  beforeAll(async () => {
    studio = await openTestStudio();
    marta = await join(studio);
  });
  afterAll(() => studio.close());

  const signIn = (json: Record<string, unknown>, cookie?: string) =>
    ask(studio, "/session", { json, ...(cookie && { cookie }) });
  const right = () => ({ email: marta.email, password });

  it("answers who it is and sets a cookie that scripts cannot read", async () => {
    const answer = await signIn(right());
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual({ person: { name: marta.name, role: "member" } });
    expect(answer.headers.get("set-cookie")).toMatch(/HttpOnly/);
    expect(answer.headers.get("set-cookie")).toMatch(/SameSite=Lax/);
    expect(await accountStatus(studio, cookieOf(answer))).toBe(200);
  });

  it("takes the e-mail in any case and with blanks round it", async () => {
    const answer = await signIn({ email: ` ${marta.email.toUpperCase()} `, password });
    expect(answer.status).toBe(200);
  });

  it("answers alike for a wrong password and for an e-mail that nobody has", async () => {
    const wrong = await signIn({ email: marta.email, password: "not the password" });
    const nobody = await signIn({ email: "nobody@saltmarsh.example", password });
    expect([wrong.status, nobody.status]).toEqual([401, 401]);
    expect(await wrong.text()).toBe(await nobody.text());
    expect(wrong.headers.get("set-cookie")).toBeNull();
  });

  it("lets nobody in whose account has no known password", async () => {
    const answer = await signIn({ email: "ines@saltmarsh.example", password: "" });
    expect(answer.status).toBe(422);
    const guessed = await signIn({ email: "ines@saltmarsh.example", password: "A".repeat(32) });
    expect(guessed.status).toBe(401);
  });

  it("shows the form again with the e-mail and without the password", async () => {
    const answer = await ask(studio, "/session", {
      form: { email: "marta <b>", password: "not the password", next: "/materials" },
    });
    const html = await answer.text();
    expect(answer.status).toBe(401);
    expect(html).toContain('value="marta &lt;b&gt;"');
    expect(html).toContain('name="next" value="/materials"');
    expect(html).not.toContain("not the password");
  });

  it("starts a session of its own each time and ends the one that the browser had", async () => {
    const first = cookieOf(await signIn(right()));
    const second = cookieOf(await signIn(right(), first));
    expect(tokenOf(second)).not.toBe(tokenOf(first));
    expect(await accountStatus(studio, first)).toBe(401);
    expect(await accountStatus(studio, second)).toBe(200);
  });

  it("never takes over a session id that the browser brought along", async () => {
    const planted = "bucket_session=plantedplantedplantedplantedplantedplant";
    const answer = await signIn(right(), planted);
    expect(cookieOf(answer)).not.toBe(planted);
    expect(await accountStatus(studio, planted)).toBe(401);
  });

  it("stores the SHA-256 of what the cookie holds and nothing that signs in", async () => {
    const cookie = cookieOf(await signIn(right()));
    const stored = await studio.db
      .select({ id: sessions.id })
      .from(sessions)
      .where(eq(sessions.userId, marta.id));
    const ids = stored.map(({ id }) => id);
    expect(ids).toContain(sha256(tokenOf(cookie)));
    expect(ids).not.toContain(tokenOf(cookie));
    for (const id of ids) expect(await accountStatus(studio, `bucket_session=${id}`)).toBe(401);
  });

  it.each([
    ["made up", () => "bucket_session=aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"],
    ["empty", () => "bucket_session="],
    ["cut short", () => studio.cookies.manager.slice(0, -1)],
    ["of another name", () => studio.cookies.manager.replace("bucket_session", "session")],
    ["a quote", () => "bucket_session=' or 1=1 --"],
  ])("answers 401 to a cookie that is %s", async (_, cookie) => {
    expect(await accountStatus(studio, studio.cookies.manager)).toBe(200);
    expect(await accountStatus(studio, cookie())).toBe(401);
  });

  it.each([
    ["/materials?q=quartz", "/materials?q=quartz"],
    ["/recipes/ebb-green", "/recipes/ebb-green"],
    ["", "/"],
    ["recipes", "/"],
    ["//evil.example", "/"],
    ["/\\evil.example", "/"],
    ["\\\\evil.example", "/"],
    ["https://evil.example", "/"],
    ["javascript:alert(1)", "/"],
    ["/recipes//evil.example", "/"],
    ["/\t/evil.example", "/"],
    ["/\n/evil.example", "/"],
    [" //evil.example", "/"],
    ["/\u2028evil", "/"],
  ])("goes on from %j to %s", async (next, location) => {
    const answer = await ask(studio, "/session", { form: { ...right(), next } });
    expect(answer.status).toBe(303);
    expect(answer.headers.get("location")).toBe(location);
    const form = await ask(studio, `/session/new?next=${encodeURIComponent(next)}`);
    expect((await form.text()).includes('name="next"')).toBe(location !== "/");
  });

  it("takes no form from another site", async () => {
    const answer = await ask(studio, "/session", {
      form: right(),
      headers: { origin: "https://evil.example" },
    });
    expect(answer.status).toBe(403);
    expect(answer.headers.get("set-cookie")).toBeNull();
  });

  it.each([
    ["DELETE", "/session", 204],
    ["POST", "/session/end", 303],
  ])("signs out by %s %s", async (method, path, status) => {
    const mine = cookieOf(await signIn(right()));
    const elsewhere = cookieOf(await signIn(right()));
    const answer = await ask(studio, path, {
      method,
      cookie: mine,
      ...(method === "POST" ? { form: {} } : { headers: { accept: "application/json" } }),
    });
    expect(answer.status).toBe(status);
    expect(answer.headers.get("set-cookie")).toMatch(/Max-Age=0/);
    expect(await accountStatus(studio, mine)).toBe(401);
    expect(await accountStatus(studio, elsewhere)).toBe(200);
  });

  it("broke nowhere", () => expect(studio.logged).toEqual([]));
});
