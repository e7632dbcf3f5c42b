import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { atomDocument } from "../../src/wire/atom.ts";
import { join } from "../joined.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, origin, type TestStudio, type Who } from "../studio.ts";
import { putRow } from "../waiting.ts";

/** The elements of a document in order, or an error where a tag, a quote or an entity is not well formed. */
function elementsOf(xml: string): { path: string; attributes: string; text: string }[] {
  const found: { path: string; attributes: string; text: string }[] = [];
  const open: string[] = [];
  const body = xml.replace(/^<\?xml version="1\.0" encoding="utf-8"\?>\n/, "");
  const token = /<(\/?)([a-z]+)((?: [a-z:]+="[^"<>]*")*)(\/?)>|([^<>]+)/gy;
  for (let match = token.exec(body); match; match = token.exec(body)) {
    const [, closing, name = "", attributes = "", empty, text] = match;
    if (/&(?!(?:amp|lt|gt|quot);)/.test(`${attributes}${text ?? ""}`))
      throw new Error("bad entity");
    if (text !== undefined) {
      const last = found.at(-1);
      if (last && text.trim() !== "") last.text += text;
    } else if (closing) {
      if (open.pop() !== name) throw new Error(`${name} is closed and not open`);
    } else {
      found.push({ path: [...open, name].join(" "), attributes, text: "" });
      if (!empty) open.push(name);
    }
    if (token.lastIndex === body.length) {
      if (open.length > 0) throw new Error(`${open} not closed`);
      return found;
    }
  }
  throw new Error("not well formed");
}

describe("the feed of what waits for somebody", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const open = async (who: Who) => {
    const answer = await studio.send(who, "/account/feed", { json: {} });
    const { link = "" } = (await answer.json()) as { link?: string };
    return { answer, link, path: link.replace(origin, "") };
  };
  const read = async (path: string) => (await studio.send("visitor", path)).text();

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("is opened by people of the studio: %s %i", async (who, status) => {
    const { answer, path } = await open(who);
    expect(answer.status).toBe(status);
    if (status !== 201) return;
    expect(answer.headers.get("cache-control")).toBe("no-store");
    expect(path).toMatch(/^\/feeds\/[\w-]{32}$/);
    expect((await studio.send("visitor", path)).status).toBe(200);
  });

  it("is a valid Atom document, whatever people call things", async () => {
    const slug = await publish(studio);
    await studio.db.execute(
      sql`update recipes set name = 'Salt & <Pepper> "Blue"', name_key = 'salt' where slug = ${slug}`,
    );
    const noteId = await putRow(studio, slug, { by: studio.ids.reviewer, blocking: true });
    const { path, link } = await open("author");
    const answer = await studio.send("visitor", path);
    expect(answer.headers.get("content-type")).toBe("application/atom+xml; charset=utf-8");
    const elements = elementsOf(await answer.text());
    const one = (at: string) => elements.filter((element) => element.path === at);
    expect(elements[0]).toMatchObject({
      path: "feed",
      attributes: expect.stringContaining('xmlns="http://www.w3.org/2005/Atom"'),
    });
    for (const needed of ["id", "title", "updated", "author"])
      expect(one(`feed ${needed}`), needed).toHaveLength(1);
    expect(one("feed author name")[0]?.text).toBe("Saltmarsh Lane Studio");
    expect(one("feed link")[0]?.attributes).toBe(
      ` rel="self" type="application/atom+xml" href="${link}"`,
    );
    const entries = one("feed entry").length;
    expect(entries).toBeGreaterThan(0);
    for (const needed of ["id", "title", "updated", "author name", "link", "content"])
      expect(one(`feed entry ${needed}`), needed).toHaveLength(entries);
    const ids = [...one("feed id"), ...one("feed entry id")].map(({ text }) => text);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^urn:uuid:[0-9a-f-]{36}$/);
    for (const { text } of [...one("feed updated"), ...one("feed entry updated")])
      expect(text).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/);
    expect(one("feed entry title").map(({ text }) => text)).toContainEqual(
      expect.stringContaining("Salt &amp; &lt;Pepper&gt; &quot;Blue&quot;"),
    );
    expect(one("feed entry link")[0]?.attributes).toContain(`${origin}/recipes/`);
    expect(await read(path)).toContain(`#note-${noteId}`);
    expect(await read(path)).toBe(await read(path));
  });

  it("leaves out what XML cannot hold", () => {
    const at = new Date("2026-03-01T10:00:00Z");
    const page = { id: "urn:x", author: "a", self: "s", page: "p", updated: at, entries: [] };
    const document = atomDocument({ ...page, title: "a\u0000\u000bb\ufffe\ud800 🏺" });
    expect(document).toContain("<title>ab 🏺</title>");
    expect(elementsOf(document).length).toBeGreaterThan(4);
  });

  it("uses the address at which people reach the studio", async () => {
    const elsewhere = await openTestStudio({ PUBLIC_URL: "https://glazes.example/" });
    const answer = await elsewhere.send("author", "/account/feed", { json: {} });
    const { link } = (await answer.json()) as { link: string };
    expect(link).toMatch(/^https:\/\/glazes\.example\/feeds\//);
    const path = link.replace("https://glazes.example", "");
    const feed = await (await elsewhere.send("visitor", path)).text();
    expect(feed).toContain(`rel="self" type="application/atom+xml" href="${link}"`);
    await elsewhere.close();
  });

  it("answers only what its person may read now", async () => {
    const slug = await publish(studio);
    await putRow(studio, slug, { by: studio.ids.author, mentions: [studio.ids["other member"]] });
    const { path } = await open("other member");
    expect(await read(path)).toContain(slug);
    const hide = { method: "PUT", json: { shownTo: "private" } };
    expect((await studio.send("author", `/recipes/${slug}/visibility`, hide)).status).toBe(200);
    expect(await read(path)).not.toContain(slug);
  });

  it("has one address at a time, and none once it is closed", async () => {
    const first = await open("author");
    const form = { why: "" };
    const second = await studio.send("author", "/account/feed", { form });
    const page = await second.text();
    const path = `/feeds/${/\/feeds\/([\w-]{32})/.exec(page)?.[1]}`;
    expect((await studio.send("visitor", first.path)).status).toBe(404);
    expect((await studio.send("visitor", path)).status).toBe(200);
    expect(await (await studio.send("author", "/account")).text()).toContain("Your feed is open.");
    const closed = await studio.send("author", "/account/feed/end", { form });
    expect([closed.status, closed.headers.get("location")]).toEqual([303, "/account#telling"]);
    expect((await studio.send("visitor", path)).status).toBe(404);
    const json = await studio.json<{ wishes: object }>("author", "/account");
    expect(json.wishes).toEqual({ mail: "off", feed: false });
    for (const token of ["x", "A".repeat(32)])
      expect((await studio.send("manager", `/feeds/${token}`)).status).toBe(404);
    const events = await listEvents(studio.db, { subjectId: studio.ids.author, limit: 99 });
    expect(events.slice(-3).map(({ kind }) => kind)).toEqual([
      "feed opened",
      "feed opened",
      "feed closed",
    ]);
  });

  it("ends with its person's leaving", async () => {
    const one = await join(studio);
    const asked = await studio.app.request(`${origin}/account/feed`, {
      method: "POST",
      headers: { cookie: one.cookie, origin, "content-type": "application/json" },
      body: "{}",
    });
    const { link } = (await asked.json()) as { link: string };
    const path = link.replace(origin, "");
    expect((await studio.send("visitor", path)).status).toBe(200);
    const removal = { method: "PUT", json: { why: "Moved away." } };
    expect((await studio.send("manager", `/people/${one.id}/removal`, removal)).status).toBe(200);
    expect((await studio.send("visitor", path)).status).toBe(404);
  });

  it("keeps its token nowhere", async () => {
    const { path } = await open("reviewer");
    const token = path.replace("/feeds/", "");
    for (const table of ["wishes", "events", "answers"]) {
      const rows = await studio.db.execute(sql.raw(`select t::text as row from ${table} t`));
      expect(JSON.stringify(rows)).not.toContain(token);
    }
  });
});
