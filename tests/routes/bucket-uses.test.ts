import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { addBucketUse } from "../../src/db/bucket-uses.ts";
import { changeBucket } from "../../src/db/buckets.ts";
import { listEvents } from "../../src/db/events.ts";
import { addBucket } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { recall } from "../stock.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Use = { id: string; what: string; recalls: { why: string }[]; bucket: { name: string } };
type Used = { used: { counted: { times: number; people: number }; uses: Use[] | null } };

let studio: TestStudio;
let slug: string;
let id: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  slug = await publish(studio);
  id = await fill();
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

/** A bucket that is open; whether its glaze is approved makes no difference here. */
const fill = async (recipe = slug) => {
  const bucketId = await addBucket(studio, recipe);
  const open = { bucketId, is: "open", why: "Mixed.", by: studio.ids.manager } as const;
  await changeBucket(studio.db, { ...open, at: new Date() });
  return bucketId;
};
const use = (who: Who, bucket = id, json: object = {}) =>
  studio.send(who, `/buckets/${bucket}/uses`, { json });
const made = async (who: Who, bucket = id) =>
  ((await (await use(who, bucket)).json()) as { id: string }).id;
const usedOf = async (who: Who, bucket = id) =>
  (await studio.json<Used>(who, `/buckets/${bucket}`)).used;
const own = async (who: Who) => (await studio.json<{ items: Use[] }>(who, "/uses")).items;
const undo = (who: Who, useId: string) =>
  studio.send(who, `/bucket-uses/${useId}`, { method: "DELETE", accept: "application/json" });
const kindsOf = async (bucket = id) =>
  (await listEvents(studio.db, { subjectId: bucket, limit: 50 })).map(({ kind }) => kind);

describe("who used a bucket", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who ticks it with %i", async (who, status) => {
    const before = (await usedOf("manager")).counted.times;
    const answer = await use(who, id, { what: "Two mugs" });
    expect(answer.status).toBe(status);
    const after = (await usedOf("manager")).counted.times;
    expect(after - before).toBe(status === 201 ? 1 : 0);
    if (who !== "visitor") expect((await own(who))[0]).toMatchObject({ what: "Two mugs" });
  });

  it("counts for everybody, names them to managers, and keeps words out of the record", async () => {
    const bucket = await fill();
    await use("author", bucket, { what: "A <tall> jug" });
    await use("author", bucket);
    await use("reviewer", bucket);
    expect(await usedOf("author", bucket)).toEqual({
      counted: { times: 3, people: 2 },
      uses: null,
    });
    expect((await usedOf("manager", bucket)).uses?.length).toBe(3);
    const page = async (who: Who) => (await studio.send(who, `/buckets/${bucket}`)).text();
    expect(await page("author")).toContain("2 people used it, 3 times");
    expect(await page("author")).not.toContain("A &lt;tall&gt; jug");
    expect(await page("manager")).toContain("A &lt;tall&gt; jug");
    const events = await listEvents(studio.db, { subjectId: bucket, limit: 50 });
    expect(JSON.stringify(events)).not.toContain("jug");
    expect(events.filter(({ kind }) => kind === "bucket used").length).toBe(3);
  });

  it("takes a double tap for one, and goes back to the page with what can be taken back", async () => {
    const bucket = await fill();
    const tap = { form: { what: "", idempotencyKey: `use${bucket}` } };
    const taps = await Promise.all(
      [0, 1].map(() => studio.send("author", `/buckets/${bucket}/uses`, tap)),
    );
    expect(taps.map(({ status }) => status)).toEqual([303, 303]);
    expect(taps[0]?.headers.get("location")).toBe(`/b/${bucket}#used`);
    expect((await usedOf("author", bucket)).counted).toEqual({ times: 1, people: 1 });
    const [mine] = await own("author");
    expect(await (await studio.send("author", `/b/${bucket}`)).text()).toContain(
      `/bucket-uses/${mine?.id}/undoing`,
    );
    expect(await (await studio.send("reviewer", `/b/${bucket}`)).text()).not.toContain("undoing");
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["other member", 404],
    ["reviewer", 404],
    ["author", 204],
    ["manager", 204],
  ])("answers the %s who takes the author's back with %i", async (who, status) => {
    const useId = await made("author");
    const { times } = (await usedOf("manager")).counted;
    expect((await undo(who, useId)).status).toBe(status);
    expect((await usedOf("manager")).counted.times).toBe(status === 204 ? times - 1 : times);
    if (status !== 204) return;
    expect((await kindsOf()).at(-1)).toBe("bucket use undone");
    expect((await undo(who, useId)).status).toBe(404);
  });

  it("lets a manager alone take back what is older than a day", async () => {
    const at = new Date(Date.now() - 25 * 60 * 60 * 1000);
    const old = { bucketId: id, what: "", by: studio.ids.author, at };
    const useId = await addBucketUse(studio.db, old);
    expect((await undo("author", useId)).status).toBe(403);
    expect((await undo("manager", useId)).status).toBe(204);
  });

  it.each<[string, (bucket: string) => Promise<unknown>, string]>([
    ["recalled", (bucket) => recall(studio, { bucket }), "It was recalled"],
    ["on hold", (bucket) => state(bucket, "hold"), "It is on hold"],
    ["empty", (bucket) => state(bucket, "empty"), "It is empty"],
  ])("refuses, in words, one that is %s", async (_, happens, says) => {
    const bucket = await fill();
    await happens(bucket);
    const answer = await use("author", bucket);
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ detail: expect.stringContaining(says) });
    const form = await studio.send("author", `/buckets/${bucket}/uses`, { form: { what: "Bowl" } });
    expect([form.status, (await form.text()).includes(says)]).toEqual([422, true]);
    expect((await usedOf("author", bucket)).counted.times).toBe(0);
    expect(await kindsOf(bucket)).not.toContain("bucket used");
  });

  const state = (bucket: string, is: string) =>
    studio.send("manager", `/buckets/${bucket}/state`, { method: "PUT", json: { is, why: "So." } });

  it("tells each their own, with a recall beside it, page by page", async () => {
    const bucket = await fill();
    await use("other member", bucket, { what: "Soup bowls" });
    await recall(studio, { bucket });
    expect((await own("other member"))[0]).toMatchObject({
      what: "Soup bowls",
      recalls: [{ why: "Lead was found in it." }],
    });
    const page = await (await studio.send("other member", "/uses")).text();
    expect(page).toContain("Soup bowls");
    expect(page).toContain("Lead was found in it.");
    expect((await studio.send("other member", "/uses?after=x")).status).toBe(422);
    expect((await own("author")).some(({ what }) => what === "Soup bowls")).toBe(false);
  });

  it("does not tell of a private recipe's bucket", async () => {
    const bucket = await fill(await publish(studio, { shownTo: "private" }));
    expect((await use("other member", bucket)).status).toBe(404);
    expect((await use("author", bucket, { what: "x".repeat(201) })).status).toBe(422);
    expect(await kindsOf(bucket)).not.toContain("bucket used");
  });
});
