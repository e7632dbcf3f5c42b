import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { shareLinks, studios } from "../../src/db/schema/index.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, origin, type TestStudio, type Who } from "../studio.ts";
import { stand } from "../waiting.ts";

describe("links that show one revision", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio, { shownTo: "private" });
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const make = async (who: Who, at = slug, number: number | string = 1) => {
    const path = `/recipes/${at}/revisions/${number}/links`;
    const answer = await studio.send(who, path, { json: {} });
    const json = (await answer.json()) as { id: string; link: string };
    return { answer, ...json, path: (json.link ?? "").replace(origin, "") };
  };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("are made by a recipe's owner and managers: %s %i", async (who, status) => {
    const open = await publish(studio);
    const before = await studio.db.$count(shareLinks);
    const { answer, link } = await make(who, open);
    expect(answer.status).toBe(status);
    expect(await studio.db.$count(shareLinks)).toBe(before + (status === 201 ? 1 : 0));
    if (status !== 201) return;
    expect(answer.headers.get("cache-control")).toBe("no-store");
    expect(link).toMatch(/^http:\/\/localhost\/shared\/[\w-]{32}$/);
  });

  it("are not to be had of what is not there", async () => {
    for (const number of [2, 0, "x"])
      expect((await make("author", slug, number)).answer.status).toBe(404);
    expect((await make("author", "nothing")).answer.status).toBe(404);
    expect((await make("other member")).answer.status).toBe(404);
  });

  it("show a private recipe's revision to whoever holds them", async () => {
    const { path } = await make("author");
    for (const who of ["visitor", "other member"] as const) {
      expect((await studio.send(who, `/recipes/${slug}`)).status).toBe(404);
      const answer = await studio.send(who, path);
      expect(answer.status).toBe(200);
      expect(answer.headers.get("x-robots-tag")).toContain("noindex");
      const page = await answer.text();
      for (const words of [
        "Shared by a link; ask whether it still holds.",
        "Potash feldspar",
        "No: it is decorative only.",
        "Cone 6",
        "Dip for two seconds.",
        "unity",
        "respirator",
      ])
        expect(page, words).toContain(words);
    }
    const json = await studio.json<{ recipe: object; number: number }>("visitor", path);
    expect(json).toMatchObject({ number: 1, use: "decorative", standing: { is: "draft" } });
    expect(JSON.stringify(json)).not.toContain(studio.ids.author);
  });

  it("lead nowhere that the holder may not read", async () => {
    const { path } = await make("author");
    const page = await (await studio.send("visitor", path)).text();
    const links = [...page.matchAll(/<a [^>]*href="([^"]+)"/g)].map(([, href]) => href ?? "");
    const outward = links.filter((href) => !href.startsWith("#"));
    expect(outward.length).toBeGreaterThan(1);
    for (const href of outward) expect(href).toMatch(/^\/(cautions|about|guide|reading)/);
  });

  it("work where the studio shows nothing to visitors", async () => {
    const { path } = await make("author");
    await studio.db.update(studios).set({ showsPublic: false });
    expect((await studio.send("visitor", "/recipes")).status).toBe(401);
    expect((await studio.send("visitor", path)).status).toBe(200);
    await studio.db.update(studios).set({ showsPublic: true });
  });

  it("say what the revision counts as now", async () => {
    const own = await publish(studio, {
      shownTo: "private",
      different: { use: "functional" },
      lines: [
        ["quartz", "60"],
        ["whiting", "40"],
      ],
    });
    const { path } = await make("author", own);
    const page = async () => (await studio.send("visitor", path)).text();
    expect(await page()).toContain("Not yet: nobody has approved this revision");
    await stand(studio, own, { is: "needs another look" });
    expect(await page()).toContain("Not now: what it was approved on no longer holds.");
    const withdrawal = { method: "PUT", json: { why: "It spat." } };
    await studio.send("author", `/recipes/${own}/withdrawal`, withdrawal);
    expect(await page()).toContain("No. This recipe was withdrawn.");
  });

  it.each<[Who, number, number]>([
    ["visitor", 401, 200],
    ["author", 204, 404],
    ["other member", 403, 200],
    ["reviewer", 403, 200],
    ["manager", 204, 404],
  ])("are ended by a recipe's owner and managers: %s %i", async (who, status, after) => {
    const open = await publish(studio);
    const { id, path } = await make("author", open);
    const ended = await studio.send(who, `/links/${id}`, { method: "DELETE", json: {} });
    expect(ended.status).toBe(status);
    expect((await studio.send("visitor", path)).status).toBe(after);
    const kinds = (await listEvents(studio.db, { subjectId: id, limit: 9 })).map(
      ({ kind }) => kind,
    );
    expect(kinds).toEqual(
      status === 204 ? ["share link made", "share link revoked"] : ["share link made"],
    );
  });

  it("are made, listed and ended by forms on the recipe's page", async () => {
    const own = await publish(studio);
    const pageOf = async (who: Who) => (await studio.send(who, `/recipes/${own}`)).text();
    const form = { why: "" };
    const made = await studio.send("author", `/recipes/${own}/revisions/1/links`, { form });
    expect(made.status).toBe(201);
    const token = /shared\/([\w-]{32})/.exec(await made.text())?.[1] ?? "";
    expect(token).not.toBe("");
    const page = await pageOf("author");
    const [, id] = /action="\/links\/([^/]+)\/end"/.exec(page) ?? [];
    expect(page).not.toContain(token);
    expect(await pageOf("other member")).not.toContain("/links/");
    const ended = await studio.send("author", `/links/${id}/end`, { form });
    expect([ended.status, ended.headers.get("location")]).toEqual([303, `/recipes/${own}#links`]);
    expect((await studio.send("visitor", `/shared/${token}`)).status).toBe(404);
    expect(await pageOf("author")).not.toContain(`/links/${id}`);
    expect((await studio.send("author", `/links/${id}/end`, { form })).status).toBe(404);
  });

  it("keep their token nowhere", async () => {
    const { path, answer } = await make("author");
    const token = path.replace("/shared/", "");
    expect(answer.status).toBe(201);
    for (const table of ["share_links", "events", "answers"]) {
      const rows = await studio.db.execute(sql.raw(`select t::text as row from ${table} t`));
      expect(JSON.stringify(rows)).not.toContain(token);
    }
    const key = { headers: { "idempotency-key": "k" }, json: {} };
    const kept = await studio.send("author", `/recipes/${slug}/revisions/1/links`, key);
    expect(kept.status).toBe(422);
  });

  it("show nothing by a wrong token", async () => {
    for (const token of ["x", "A".repeat(32), "%00"])
      expect((await studio.send("manager", `/shared/${token}`)).status).toBe(404);
    for (const id of ["7", "00000000-0000-7000-8000-000000000000"]) {
      const ended = await studio.send("manager", `/links/${id}`, { method: "DELETE", json: {} });
      expect(ended.status).toBe(404);
    }
  });
});
