import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findRecipe, setWithdrawn } from "../../src/db/recipes.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Line = {
  seq: number;
  by: string | null;
  kind: string;
  says: string;
  why: string | null;
  href: string;
};
type List = { items: Line[]; next: string | null };

describe("a recipe's history", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const send = async (who: Who, path: string, json: object, method = "POST") => {
    const answer = await studio.send(who, path, { method, json });
    const body = (await answer.json()) as { id: string; slug: string };
    if (!answer.ok) throw new Error(`${method} ${path}: ${JSON.stringify(body)}`);
    return body;
  };
  const storyOf = async (who: Who, slug: string) =>
    (await studio.json<List>(who, `/recipes/${slug}/history`)).items;
  const told = async (who: Who, slug: string) =>
    (await storyOf(who, slug)).map(({ by, says, why }) => `${by ?? "The program"} ${says}: ${why}`);

  it("reads as a story, each line with who, what and why", async () => {
    const slug = await publish(studio);
    const at = `/recipes/${slug}`;
    const next = revision({ message: "less iron", basedOn: 1 }, [
      ["potash-feldspar", "60"],
      ["whiting", "40"],
    ]);
    await send("author", `${at}/revisions`, next);
    const note = { text: "It <runs>.", blocking: true };
    const { id } = await send("other member", `${at}/notes`, note);
    await send("author", `${at}/notes`, { text: "Only talk." });
    await send("other member", `/notes/${id}/answer`, { text: "Not on the new shelf." }, "PUT");
    const review = { verdict: "approve", for: "decorative", reasons: "Two sound tiles." };
    await send("reviewer", `${at}/reviews`, { revision: 2, ...review });
    // What a revision counts as is settled by whoever reads it.
    await studio.json("visitor", at);
    const tile = await send("author", `${at}/tiles`, { revision: 2, cone: "6", remark: "Glossy" });
    await send("author", `/tiles/${tile.id}/withdrawal`, { why: "Another glaze." }, "PUT");
    const fork = await send("other member", `${at}/forks`, { name: "Wrack Line", revision: 1 });
    await send("author", `${at}/withdrawal`, { why: "It spat." }, "PUT");
    await studio.json("author", at);

    expect(await told("author", slug)).toEqual([
      "Rukmini Vale published it: first try",
      "Rukmini Vale published revision 2: less iron",
      "Jonah Brackley raised an objection to revision 2: It <runs>.",
      "Jonah Brackley closed an objection to revision 2: Not on the new shelf.",
      "Tam Pellew approved revision 2 as decorative only: Two sound tiles.",
      expect.stringMatching(/^The program found that revision 2 counts as “approved” now/),
      "Rukmini Vale put a tile of revision 2 on record, cone 6: Glossy",
      "Rukmini Vale withdrew a tile of revision 2: Another glaze.",
      "Jonah Brackley forked revision 1 into Wrack Line: null",
      "Rukmini Vale withdrew it: It spat.",
      "The program found that revision 2 is no longer approved: it is “withdrawn” now: It spat.",
    ]);
    const page = await (await studio.send("visitor", `${at}/history`)).text();
    expect(page).toContain("It &lt;runs&gt;.");
    expect(page).not.toContain("Only talk.");
    for (const { href } of await storyOf("author", slug))
      expect((await studio.send("author", href.replace(/#.*/, ""))).status, href).toBeLessThan(400);
    expect(await told("author", fork.slug)).toEqual([
      expect.stringMatching(/^Jonah Brackley forked it from Slack Water \d+, revision 1/),
    ]);
    const sheet = await (await studio.send("visitor", at)).text();
    expect(sheet).toContain(`href="${at}/history"`);
  });

  it("leaves out forks that the reader may not know of, and where a fork came from", async () => {
    const slug = await publish(studio);
    const hidden = { name: "Hidden tide", revision: 1, shownTo: "private" };
    const fork = await send("other member", `/recipes/${slug}/forks`, hidden);
    await studio.send("other member", `/recipes/${fork.slug}/visibility`, {
      method: "PUT",
      json: { shownTo: "private" },
    });
    for (const who of ["visitor", "author"] as const)
      expect(JSON.stringify(await storyOf(who, slug))).not.toContain("Hidden");
    expect(JSON.stringify(await storyOf("manager", slug))).toContain("Hidden tide");
    await studio.send("author", `/recipes/${slug}/visibility`, {
      method: "PUT",
      json: { shownTo: "private" },
    });
    await studio.send("other member", `/recipes/${fork.slug}/visibility`, {
      method: "PUT",
      json: { shownTo: "public" },
    });
    expect(await told("visitor", fork.slug)).toEqual([
      expect.stringMatching(/^Jonah Brackley forked it from another recipe/),
    ]);
  });

  it.each<[Who, number]>([
    ["visitor", 404],
    ["other member", 404],
    ["author", 200],
    ["manager", 200],
  ])("answers the %s who asks for a private recipe's with %i", async (who, status) => {
    const slug = await publish(studio, { shownTo: "private" });
    for (const accept of ["text/html", "application/json"])
      expect((await studio.send(who, `/recipes/${slug}/history`, { accept })).status).toBe(status);
  });

  it("comes a hundred lines at a time, without a gap", async () => {
    const slug = await publish(studio);
    // Past the front door, which works out the whole recipe for every answer.
    const by = studio.ids.author;
    const recipe = await findRecipe(studio.db, { slug, reader: { id: by, role: "member" } });
    const began = Date.now();
    const change = (withdrawn: boolean, why: string, after: number) => {
      const act = { recipeId: recipe?.id ?? "", by, at: new Date(began + after) };
      return setWithdrawn(studio.db, { ...act, withdrawn, forSafety: false, why });
    };
    for (let n = 0; n < 51; n += 1) {
      await change(true, `No ${n}.`, 2 * n);
      await change(false, `Yes ${n}.`, 2 * n + 1);
    }
    const first = await studio.json<List>("author", `/recipes/${slug}/history`);
    expect(first.items).toHaveLength(100);
    const rest = await studio.json<List>("author", `/recipes/${slug}/history?after=${first.next}`);
    expect([rest.items.length, rest.next]).toEqual([3, null]);
    const whys = [...first.items, ...rest.items].slice(1).map(({ why }) => why);
    expect(whys).toEqual(Array.from({ length: 51 }, (_, n) => [`No ${n}.`, `Yes ${n}.`]).flat());
    const page = await (await studio.send("author", `/recipes/${slug}/history`)).text();
    expect(page).toContain(`href="/recipes/${slug}/history?after=${first.next}"`);
    const odd = await studio.send("author", `/recipes/${slug}/history?after=x`);
    expect(odd.status).toBe(422);
  });
});
