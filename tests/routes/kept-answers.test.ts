import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../src/app.ts";
import { openAuth } from "../../src/auth.ts";
import { readConfig } from "../../src/config.ts";
import { statements } from "../engines/open.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, origin, type TestStudio } from "../studio.ts";

describe("a page that the last visitor was sent", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });
  const anew = async () => {
    slug = await publish(studio);
  };
  const ask = async (path: string, headers: Record<string, string> = {}) => {
    const begun = statements.asked;
    const answer = await studio.send("visitor", path, { headers });
    return { answer, text: await answer.text(), asked: statements.asked - begun };
  };
  /** What a visitor is shown once nothing is left to settle, so that it is kept. */
  const warm = async (path: string, headers: Record<string, string> = {}) => {
    await ask(path, headers);
    return ask(path, headers);
  };
  const recipe = () => `/recipes/${slug}`;
  const note = (who: "author" | "manager", text: string) =>
    studio.send(who, `${recipe()}/notes`, { json: { text } });

  it.each(["/recipes", "/recipes?cone=6", "a recipe"])("is sent once more: %s", async (which) => {
    await anew();
    const path = which === "a recipe" ? recipe() : which;
    for (const accept of ["text/html", "application/json"]) {
      const first = await warm(path, { accept });
      const second = await ask(path, { accept });
      expect(second.text).toBe(first.text);
      expect(second.asked).toBe(2);
      const { headers } = second.answer;
      expect(headers.get("content-type")).toBe(first.answer.headers.get("content-type"));
      expect(headers.get("content-type")).toContain(accept);
      expect(headers.get("cache-control")).toBe("private, no-cache");
      const known = await ask(path, { accept, "if-none-match": headers.get("etag") ?? "" });
      expect([known.answer.status, known.text]).toEqual([304, ""]);
    }
  });

  it("is made anew as soon as anything is put on record, by another instance too", async () => {
    await anew();
    await warm(recipe());
    const other = createApp({
      ...{ db: studio.db, config: readConfig({}), auth: openAuth(false) },
      telling: { broken: (broken) => studio.logged.push(String(broken.error)) },
    });
    const answer = await other.request(`${origin}${recipe()}/notes`, {
      method: "POST",
      headers: { cookie: studio.cookies.author, "content-type": "application/json" },
      body: JSON.stringify({ text: "Sieve it at the other instance." }),
    });
    expect(answer.status).toBe(201);
    expect((await ask(recipe())).text).toContain("Sieve it at the other instance.");
  });

  it("is gone with what was taken from its readers", async () => {
    await anew();
    const list = "/recipes?q=slack";
    await warm(recipe());
    expect((await warm(list)).text).toContain(recipe());
    const shown = await studio.send("author", `${recipe()}/visibility`, {
      method: "PUT",
      json: { shownTo: "private" },
    });
    expect(shown.status).toBe(200);
    expect((await ask(recipe())).answer.status).toBe(404);
    expect((await ask(list)).text).not.toContain(`"${recipe()}"`);
  });

  it("is no page of who has signed in, and theirs is none of a visitor's", async () => {
    await anew();
    await warm(recipe());
    const own = await (await studio.send("author", recipe())).text();
    expect(own).toContain("Rukmini Vale");
    expect(own).toContain('name="idempotencyKey"');
    const { text } = await ask(recipe());
    expect(text).not.toContain('name="idempotencyKey"');
    expect(await (await studio.send("author", recipe())).text()).not.toBe(own);
  });

  it("is another where somebody reads otherwise, asks for a part or for the newest", async () => {
    await anew();
    const celsius = await warm(recipe());
    const sent = await studio.send("visitor", "/reading", { form: { temperature: "F" } });
    const cookie = (sent.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
    expect(celsius.text).toContain("°C");
    expect((await warm(recipe(), { cookie })).text).toContain("°F");
    expect((await ask(recipe())).text).toBe(celsius.text);
    const part = await warm("/recipes", { "HX-Request": "true", "HX-Request-Type": "partial" });
    expect(part.text).not.toContain("<!doctype html>");
    expect((await warm("/recipes")).text).toContain("<!doctype html>");
    expect((await ask(recipe(), { "cache-control": "no-cache" })).asked).toBeGreaterThan(2);
  });

  it("is not sent where the studio has closed to visitors since", async () => {
    await anew();
    await warm(recipe());
    await note("author", "Thin with care.");
    await warm(recipe());
    const settings = await studio.json("manager", "/studio");
    const set = (showsPublic: boolean) =>
      studio.send("manager", "/studio", { method: "PUT", json: { ...settings, showsPublic } });
    expect((await set(false)).status).toBe(200);
    const { answer, text } = await ask(recipe());
    expect([answer.status, text.includes("Thin with care.")]).toEqual([401, false]);
    await set(true);
    expect((await ask(recipe())).text).toContain("Thin with care.");
  });
});
