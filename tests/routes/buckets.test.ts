import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import type { bucketJson } from "../../src/routes/bucket-json.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { revisionOf, stand } from "../waiting.ts";

type Bucket = ReturnType<typeof bucketJson> & { errors?: unknown };

describe("the shared buckets", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const filled = { revision: 1, name: "Tall grey bucket", litres: "20" };
  const add = async (who: Who, json: object = {}) => {
    const sent = { recipe: slug, ...filled, ...json };
    const answer = await studio.send(who, "/buckets", { json: sent });
    return { status: answer.status, bucket: (await answer.json()) as Bucket };
  };
  const read = (id: string) => studio.json<Bucket>("author", `/buckets/${id}`);
  const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("lets managers put one on record: %s %i", async (who, status) => {
    const before = (await studio.json<{ items: Bucket[] }>("author", "/buckets")).items.length;
    const { status: answered, bucket } = await add(who);
    expect(answered).toBe(status);
    const { items } = await studio.json<{ items: Bucket[] }>("author", "/buckets");
    expect(items.length).toBe(before + (status === 201 ? 1 : 0));
    if (status !== 201) return;
    expect(await read(bucket.id)).toMatchObject({
      ...filled,
      recipe: { slug },
      is: "open",
      standing: { is: "draft" },
      addedBy: "Ines Okafor",
    });
    const events = await listEvents(studio.db, { subjectId: bucket.id, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["bucket added"]);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["reviewer", 200],
    ["manager", 200],
  ])("lets people of the studio read them: %s %i", async (who, status) => {
    const { bucket } = await add("manager");
    for (const path of ["/buckets", `/buckets/${bucket.id}`])
      for (const accept of ["text/html", "application/json"])
        expect((await studio.send(who, path, { accept })).status).toBe(status);
  });

  it.each<[Who, string, number]>([
    ["visitor", "hold", 401],
    ["author", "hold", 200],
    ["other member", "hold", 200],
    ["manager", "hold", 200],
    ["author", "empty", 403],
    ["reviewer", "empty", 403],
    ["manager", "empty", 200],
    ["reviewer", "open", 403],
  ])("answers the %s who says that it is %s with %i", async (who, is, status) => {
    const { bucket } = await add("manager");
    const sent = { method: "PUT", json: { is, why: "It smells." } };
    const answer = await studio.send(who, `/buckets/${bucket.id}/state`, sent);
    expect(answer.status).toBe(status);
    const { is: now, changes } = await read(bucket.id);
    expect(now).toBe(status === 200 ? is : "open");
    expect(changes.length).toBe(status === 200 ? 1 : 0);
  });

  it("keeps every word on its state, by form too, and asks for a reason", async () => {
    const { bucket } = await add("manager");
    const path = `/buckets/${bucket.id}/state`;
    const blank = await studio.send("author", path, { form: { is: "hold", why: "" } });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toContain('href="#field-why"');
    const held = await studio.send("author", path, { form: { is: "hold", why: "Set <hard>." } });
    expect([held.status, held.headers.get("location")]).toEqual([303, `/buckets/${bucket.id}`]);
    const page = await pageOf("reviewer", `/buckets/${bucket.id}`);
    expect(page).toContain("This bucket is on hold: do not use it.");
    expect(page).toContain("Set &lt;hard&gt;.");
    expect(page).not.toContain('value="open"');
    const opened = { form: { is: "open", why: "Sieved." } };
    expect((await studio.send("manager", path, opened)).status).toBe(303);
    expect((await studio.send("manager", path, opened)).status).toBe(422);
    expect((await read(bucket.id)).changes.map(({ is, by }) => [is, by])).toEqual([
      ["open", "Ines Okafor"],
      ["hold", "Rukmini Vale"],
    ]);
  });

  it("holds nothing in an empty bucket", async () => {
    const { bucket } = await add("manager");
    const path = `/buckets/${bucket.id}/state`;
    await studio.send("manager", path, { json: { is: "empty", why: "Used up." } });
    const held = await studio.send("author", path, { json: { is: "hold", why: "Set hard." } });
    expect(held.status).toBe(422);
    expect((await read(bucket.id)).is).toBe("empty");
  });

  it("shows its revision's standing, and is flagged the moment it is not approved", async () => {
    const { bucket } = await add("manager");
    const flagged = async () => (await read(bucket.id)).cautions;
    const [draft, another, withdrawn] = [
      "Nobody has approved this bucket's revision: do not use it for food.",
      "This bucket's revision needs another look: do not use it for food until it is settled.",
      "This bucket's recipe was withdrawn: do not use it.",
    ];
    expect(await flagged()).toEqual([draft]);
    await stand(studio, slug, { is: "approved" });
    expect(await flagged()).toEqual([]);
    await stand(studio, slug, { is: "needs another look" });
    expect(await flagged()).toEqual([another]);
    for (const path of ["/buckets", `/buckets/${bucket.id}`])
      expect(await pageOf("author", path)).toContain(another.replace("'", "&#39;"));
    expect(await pageOf("author", `/buckets/${bucket.id}`)).toContain("It is needs another look.");
    const withdrawal = { method: "PUT", json: { why: "It spat in the kiln." } };
    await studio.send("author", `/recipes/${slug}/withdrawal`, withdrawal);
    expect(await flagged()).toEqual([withdrawn]);
    const put = { method: "DELETE", json: { why: "It was another glaze." } };
    await studio.send("author", `/recipes/${slug}/withdrawal`, put);
    expect(await flagged()).toEqual([draft]);
  });

  it("follows its revision when there is a newer one, and says so", async () => {
    const own = await publish(studio);
    const { bucket } = await add("manager", { recipe: own });
    const lines = [{ part: "base", material: "whiting", amount: "100" }];
    const json = { basedOn: 1, cones: { low: "6", high: "6" }, lines };
    expect((await studio.send("author", `/recipes/${own}/revisions`, { json })).status).toBe(201);
    expect((await revisionOf(studio, own, 2)).number).toBe(2);
    const newer = "Revision 2 is newer; this bucket follows revision 1.";
    expect(await read(bucket.id)).toMatchObject({ revision: 1, head: 2 });
    expect(await pageOf("author", `/buckets/${bucket.id}`)).toContain(newer);
  });

  it("does not tell of a private recipe's bucket", async () => {
    const own = await publish(studio, { shownTo: "private" });
    const { bucket } = await add("manager", { recipe: own, name: "Hidden" });
    expect((await studio.send("other member", `/buckets/${bucket.id}`)).status).toBe(404);
    expect(await pageOf("other member", "/buckets")).not.toContain("Hidden");
    const sent = { method: "PUT", json: { is: "hold", why: "x" } };
    const held = await studio.send("other member", `/buckets/${bucket.id}/state`, sent);
    expect(held.status).toBe(404);
    expect((await read(bucket.id)).is).toBe("open");
  });

  it.each<[string, object, string]>([
    ["no name", { name: "" }, "name"],
    ["no litres", { litres: "0" }, "litres"],
    ["more litres than a bucket has", { litres: "10001" }, "litres"],
    ["finer than it can be kept", { litres: "1.0001" }, "litres"],
    ["litres that are no number", { litres: "1e3" }, "litres"],
    ["a recipe that is not there", { recipe: "nothing" }, "recipe"],
    ["a revision that is not there", { revision: 9 }, "revision"],
    ["a field that is none", { colour: "grey" }, "colour"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const { status, bucket } = await add("manager", json);
    expect(status).toBe(422);
    expect(bucket.errors).toMatchObject([{ path }]);
  });

  it("takes a form, once for a double tap, and shows it again with what was typed", async () => {
    const form = {
      recipe: slug,
      revision: "1",
      name: "Twice",
      litres: "8.5",
      idempotencyKey: "b1",
    };
    const both = await Promise.all([0, 1].map(() => studio.send("manager", "/buckets", { form })));
    const [one, other] = both.map((answer) => answer.headers.get("location"));
    expect(one).toMatch(/^\/buckets\/[0-9a-f-]{36}$/);
    expect(other).toBe(one);
    const again = await studio.send("manager", "/buckets", {
      form: { ...form, litres: "much", idempotencyKey: "b2" },
    });
    expect(again.status).toBe(422);
    expect(await again.text()).toContain('value="Twice"');
    expect((await studio.send("author", "/buckets/new")).status).toBe(403);
    expect(await pageOf("manager", `/buckets/new?recipe=${slug}&revision=1`)).toContain(
      `value="${slug}"`,
    );
  });

  it("is led to from the recipe's page, for managers", async () => {
    const way = `/buckets/new?recipe=${slug}&amp;revision=1`;
    expect(await pageOf("manager", `/recipes/${slug}`)).toContain(way);
    expect(await pageOf("author", `/recipes/${slug}`)).not.toContain("/buckets/new");
  });

  it("knows no bucket by nonsense", async () => {
    for (const id of ["7", "00000000-0000-7000-8000-000000000000"])
      expect((await studio.send("manager", `/buckets/${id}`)).status).toBe(404);
    expect((await studio.send("manager", "/buckets?after=x")).status).toBe(422);
  });
});
