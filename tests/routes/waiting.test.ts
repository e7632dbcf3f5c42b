import { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  bucketChanges,
  buckets,
  offerAnswers,
  reviews,
  revisionCoauthors,
} from "../../src/db/schema/index.ts";
import { countWaiting } from "../../src/db/waiting.ts";
import { publish, stockShelf } from "../shelf.ts";
import { cast, openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { askReview, at, close, offer, putRow, revisionOf, stand } from "../waiting.ts";

type Item = { kind: string; says: string; href: string; at: string; by: string | null };
type Member = keyof typeof cast;

const members: readonly Member[] = ["author", "other member", "reviewer", "manager"];

describe("what waits for you", () => {
  let studio: TestStudio;
  let ids: TestStudio["ids"];
  beforeAll(async () => {
    studio = await openTestStudio();
    ({ ids } = studio);
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const itemsOf = async (who: Who) => (await studio.json<{ items: Item[] }>(who, "/waiting")).items;
  /** Who is told of something about the recipe, of one kind. */
  const toldOf = async (kind: string, part: string) => {
    const told: Member[] = [];
    for (const who of members)
      if ((await itemsOf(who)).some((item) => item.kind === kind && item.href.includes(part)))
        told.push(who);
    return told;
  };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["reviewer", 200],
    ["manager", 200],
  ])("answers the %s with %i, as page and as JSON", async (who, status) => {
    for (const accept of ["text/html", "application/json"])
      expect((await studio.send(who, "/waiting", { accept })).status).toBe(status);
  });

  it("says so where nothing waits", async () => {
    const page = await (await studio.send("other member", "/waiting")).text();
    expect(page).toContain("Nothing waits for you.");
    expect(page).not.toContain("rooms-count");
    expect(await itemsOf("other member")).toEqual([]);
  });

  it("tells the owner of an open objection, and no longer once it is closed", async () => {
    const slug = await publish(studio);
    const noteId = await putRow(studio, slug, { by: ids.reviewer, blocking: true });
    expect(await toldOf("objection", slug)).toEqual(["author"]);
    expect((await itemsOf("author"))[0]).toEqual({
      kind: "objection",
      says: expect.stringMatching(/^Tam Pellew objects to revision 1 of Slack Water/),
      href: `/recipes/${slug}/revisions/1#note-${noteId}`,
      at: at.toISOString(),
      by: "Tam Pellew",
    });
    const replyId = await putRow(studio, slug, { by: ids.reviewer, replyTo: noteId });
    await close(studio, noteId, { replyId, by: ids.reviewer });
    expect(await toldOf("objection", slug)).toEqual([]);
  });

  it("tells who objected of a reply, until they have the last word", async () => {
    const slug = await publish(studio);
    const noteId = await putRow(studio, slug, { by: ids["other member"], blocking: true });
    expect(await toldOf("objection-answered", slug)).toEqual([]);
    await putRow(studio, slug, { by: ids.author, replyTo: noteId });
    expect(await toldOf("objection-answered", slug)).toEqual(["other member"]);
    await putRow(studio, slug, { by: ids["other member"], replyTo: noteId });
    expect(await toldOf("objection-answered", slug)).toEqual([]);
  });

  it("tells owner and managers of an offer until it is answered", async () => {
    const slug = await publish(studio);
    const fork = await publish(studio, { lines: [["whiting", "100"]] });
    const id = await offer(studio, slug, fork, ids["other member"]);
    expect(await toldOf("offer", id)).toEqual(["author", "manager"]);
    await studio.db
      .insert(offerAnswers)
      .values({ offerId: id, accepted: false, why: "No.", by: ids.author, at });
    expect(await toldOf("offer", id)).toEqual([]);
  });

  it("asks those who may judge, and did not since, for a review", async () => {
    const slug = await publish(studio, {
      lines: [
        ["quartz", "50"],
        ["whiting", "50"],
      ],
    });
    await askReview(studio, slug, ids.author);
    await stand(studio, slug, { is: "draft" });
    expect(await toldOf("review", slug)).toEqual([]);
    await stand(studio, slug, { is: "in review" });
    expect(await toldOf("review", slug)).toEqual(["reviewer", "manager"]);
    const { id: revisionId, recipeId, digest } = await revisionOf(studio, slug);
    await studio.db.insert(reviews).values({
      id: uuidv7(),
      recipeId,
      revisionId,
      digest,
      verdict: "remark",
      for: "decorative",
      reasons: "Fire it once more.",
      lookedAt: { engine: "1", findings: [], tiles: [], tests: [] },
      by: ids.reviewer,
      at: new Date(at.getTime() + 1),
    });
    expect(await toldOf("review", slug)).toEqual(["manager"]);
  });

  it("asks nobody to review what they wrote or helped to write", async () => {
    const slug = await publish(studio, {
      who: "manager",
      lines: [
        ["quartz", "61"],
        ["whiting", "39"],
      ],
    });
    const { id: revisionId } = await revisionOf(studio, slug);
    await studio.db.insert(revisionCoauthors).values({ revisionId, personId: ids.reviewer });
    await askReview(studio, slug, ids.author);
    await stand(studio, slug, { is: "in review" });
    expect(await toldOf("review", slug)).toEqual([]);
  });

  it("keeps private recipes from reviewers who may not read them", async () => {
    const slug = await publish(studio, {
      shownTo: "private",
      lines: [
        ["quartz", "62"],
        ["whiting", "38"],
      ],
    });
    await askReview(studio, slug, ids.author);
    await stand(studio, slug, { is: "in review" });
    expect(await toldOf("review", slug)).toEqual(["manager"]);
  });

  it("tells the owner that a head needs another look, or is past its time", async () => {
    const slug = await publish(studio);
    await stand(studio, slug, { is: "approved" });
    expect(await toldOf("another-look", slug)).toEqual([]);
    await stand(studio, slug, { is: "approved", validUntil: new Date("2026-01-01T00:00:00Z") });
    expect(await toldOf("another-look", slug)).toEqual(["author"]);
    await stand(studio, slug, { is: "needs another look" });
    expect(await toldOf("another-look", slug)).toEqual(["author"]);
  });

  it("tells of an earlier revision only where none after it was approved", async () => {
    const slug = await publish(studio);
    await stand(studio, slug, { is: "needs another look" });
    const second = {
      message: "less iron",
      basedOn: 1,
      use: "decorative",
      cones: { low: "6", high: "6" },
    };
    const lines = [{ part: "base", material: "whiting", amount: "100" }];
    const path = `/recipes/${slug}/revisions`;
    expect((await studio.send("author", path, { json: { ...second, lines } })).status).toBe(201);
    expect(await toldOf("another-look", `${slug}/revisions/1`)).toEqual(["author"]);
    await stand(studio, slug, { is: "approved" }, 2);
    expect(await toldOf("another-look", slug)).toEqual([]);
  });

  it("warns managers and who added it of a bucket that is not approved, until it is empty", async () => {
    const slug = await publish(studio);
    const { id: revisionId } = await revisionOf(studio, slug);
    const [id, forTest] = [uuidv7(), uuidv7()];
    const bucket = {
      revisionId,
      name: "Tall grey bucket",
      nameKey: "tall grey bucket",
      litres: new Decimal(20),
      addedBy: ids.reviewer,
      addedAt: at,
    };
    await studio.db.insert(buckets).values([
      { ...bucket, id },
      { ...bucket, id: forTest, forTest: true },
    ]);
    expect(await toldOf("bucket", id)).toEqual(["reviewer", "manager"]);
    expect(await toldOf("bucket", forTest)).toEqual([]);
    await stand(studio, slug, { is: "approved" });
    expect(await toldOf("bucket", id)).toEqual([]);
    await stand(studio, slug, { is: "needs another look" });
    const change = { bucketId: id, why: "Used up.", by: ids.manager, at };
    await studio.db.insert(bucketChanges).values({ ...change, id: uuidv7(), is: "hold" });
    expect(await toldOf("bucket", id)).toEqual(["reviewer", "manager"]);
    expect(await toldOf("bucket-on-hold", id)).toEqual(["manager"]);
    await studio.db.insert(bucketChanges).values({ ...change, id: uuidv7(), is: "empty" });
    expect(await toldOf("bucket-on-hold", id)).toEqual([]);
    expect(await toldOf("bucket", id)).toEqual([]);
  });

  it("tells whom a note mentions, until they write in its thread", async () => {
    const slug = await publish(studio);
    const noteId = await putRow(studio, slug, {
      by: ids.author,
      mentions: [ids["other member"], ids.author],
    });
    expect(await toldOf("mention", noteId)).toEqual(["other member"]);
    await putRow(studio, slug, { by: ids["other member"] });
    expect(await toldOf("mention", noteId)).toEqual(["other member"]);
    await putRow(studio, slug, { by: ids["other member"], replyTo: noteId });
    expect(await toldOf("mention", noteId)).toEqual([]);
  });

  it("asks managers for a word on a member's analysis, until one later is in use", async () => {
    const path = "/materials/whiting";
    const sent = { source: "the supplier's sheet", formula: "CaCO3" };
    const added = await studio.send("author", `${path}/analyses`, { json: sent });
    const { id } = (await added.json()) as { id: string };
    expect(await toldOf("analysis", id)).toEqual(["manager"]);
    const json = { analysis: id, why: "It is ours." };
    await studio.send("manager", `${path}/analysis-in-use`, { method: "PUT", json });
    expect(await toldOf("analysis", id)).toEqual([]);
  });

  it("counts in the shell what the page lists, and nothing for a visitor", async () => {
    // The rows of these tests were put there without their events, which the shell goes by.
    await publish(studio);
    for (const who of members) {
      const items = await itemsOf(who);
      const reader = { id: ids[who], role: cast[who].role };
      expect(await countWaiting(studio.db, { reader, now: new Date() })).toBe(items.length);
      const page = await (await studio.send(who, "/materials")).text();
      const [, count] = /Waiting <span class="rooms-count">(\d+)</.exec(page) ?? [];
      expect(Number(count ?? 0), who).toBe(items.length);
    }
    expect(await itemsOf("author")).not.toEqual([]);
    const page = await (await studio.send("visitor", "/materials")).text();
    expect(page).not.toContain("Waiting");
  });

  it("counts anew in the shell as soon as something happened", async () => {
    const slug = await publish(studio);
    const shown = async () =>
      Number(
        /rooms-count">(\d+)</.exec(await (await studio.send("author", "/materials")).text())?.[1] ??
          0,
      );
    const before = await shown();
    const json = { text: "Ask @Rukmini Vale about it." };
    expect((await studio.send("reviewer", `/recipes/${slug}/notes`, { json })).status).toBe(201);
    expect(await shown()).toBe(before + 1);
  });

  it("groups the page by kind, in words", async () => {
    const slug = await publish(studio);
    await putRow(studio, slug, { by: ids["other member"], mentions: [ids.author] });
    const page = await (await studio.send("author", "/waiting")).text();
    expect(page).toContain("<h2>Notes that mention you</h2>");
    expect(page).toContain("Jonah Brackley mentions you in a note on revision 1 of");
    expect(page).not.toContain("Reviews that were asked for");
  });
});
