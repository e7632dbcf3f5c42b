import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Told = { items: { by: string | null; at: string; says: string; href: string }[] };

describe("what is new on a recipe", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const newsAddress = async (who: Who, slug: string): Promise<string> => {
    const page = await (await studio.send(who, `/recipes/${slug}`)).text();
    const address = /data-news="([^"]+)"/.exec(page)?.[1];
    if (!address) throw new Error("the page says nowhere where its news is");
    return address;
  };
  const write = async (who: Who, path: string, json: object) => {
    const answer = await studio.send(who, path, { json });
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
    return (await answer.json()) as { id: string };
  };

  it("is what others did since the page was made, with the way to it", async () => {
    const slug = await publish(studio);
    await write("reviewer", `/recipes/${slug}/notes`, { text: "Known to the page already." });
    const address = await newsAddress("author", slug);
    expect(await studio.json<Told>("author", address)).toEqual({ items: [], next: null });

    const note = await write("other member", `/recipes/${slug}/notes`, { text: "Mine crawled." });
    const objection = await write("reviewer", `/recipes/${slug}/notes`, {
      text: "Crazed.",
      blocking: true,
    });
    const reply = await write("other member", `/notes/${objection.id}/replies`, { text: "Yes." });
    await write("author", `/notes/${note.id}/replies`, { text: "Where?" });
    const end = await write("manager", `/notes/${objection.id}/answer`, {
      overrule: true,
      why: "Five tiles.",
    });
    const tile = await write("manager", `/recipes/${slug}/tiles`, { revision: 1, cone: "6" });
    const next = revision({ basedOn: 1, message: "Less lime" });
    await write("manager", `/recipes/${slug}/revisions`, next);
    await write("other member", `/recipes/${await publish(studio)}/notes`, { text: "Elsewhere." });

    const { items } = await studio.json<Told>("author", address);
    const [closing] = (end as unknown as { replies: { id: string }[] }).replies.slice(-1);
    expect(items.map(({ by, says, href }) => [by, says, href])).toEqual([
      ["Jonah Brackley", "wrote a note", `/notes/${note.id}`],
      ["Tam Pellew", "raised an objection", `/notes/${objection.id}`],
      ["Jonah Brackley", "replied to a note", `/notes/${reply.id}`],
      ["Ines Okafor", "overruled an objection", `/notes/${closing?.id}`],
      ["Ines Okafor", "put a tile on record", `/tiles/${tile.id}`],
      ["Ines Okafor", "published revision 2", `/recipes/${slug}/revisions/2`],
    ]);
    for (const { href } of items)
      expect((await studio.send("visitor", href)).status, href).toBeLessThan(400);
  });

  const empty = '<div class="news-lines"></div>';

  it("comes as lines for the open page, and not again while nothing changed", async () => {
    const slug = await publish(studio);
    const address = await newsAddress("visitor", slug);
    const ask = (tag = "") =>
      studio.send("visitor", address, { headers: tag ? { "if-none-match": tag } : {} });
    const nothing = await ask();
    expect([nothing.status, await nothing.text()]).toEqual([200, empty]);
    const tag = nothing.headers.get("etag") ?? "";
    expect(tag).not.toBe("");
    expect((await ask(tag)).status).toBe(304);

    const { id } = await write("other member", `/recipes/${slug}/notes`, { text: "<b>Ran.</b>" });
    const told = await ask(tag);
    expect(told.status).toBe(200);
    const lines = await told.text();
    expect(lines).toContain(
      `<p>Jonah Brackley wrote a note: <a class="news-show" href="/notes/${id}">show`,
    );
    expect(lines).not.toContain("Ran");
    expect(lines).not.toContain("<html");
    expect((await ask(told.headers.get("etag") ?? "")).status).toBe(304);
    // Whoever wrote it is told nothing of it.
    expect(await (await studio.send("other member", address)).text()).toBe(empty);
  });

  it.each<[Who, number]>([
    ["author", 200],
    ["other member", 404],
    ["reviewer", 404],
    ["manager", 200],
    ["visitor", 404],
  ])("of a private recipe is for who may know of it: %s %i", async (who, status) => {
    const slug = await publish(studio, { shownTo: "private" });
    expect((await studio.send(who, `/recipes/${slug}/news?since=0`)).status).toBe(status);
  });

  it.each(["", "?since=yesterday", "?since=-1", "?since=1.5"])(
    "asks since when: news%s",
    async (query) => {
      const slug = await publish(studio);
      const answer = await studio.send("author", `/recipes/${slug}/news${query}`, {
        accept: "application/json",
      });
      expect(answer.status).toBe(422);
    },
  );
});
