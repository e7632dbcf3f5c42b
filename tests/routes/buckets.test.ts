import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import type { bucketJson } from "../../src/routes/bucket-json.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { revisionOf, stand } from "../waiting.ts";

type Bucket = ReturnType<typeof bucketJson> & { errors?: unknown };

const notMixed = "Not mixed yet: no mix of it was finished.";
const forTest = "Test bucket: decorative only, not for food, not for members' pots until approved.";

describe("the shared buckets", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  // What happens to other recipes of the same melt unsettles it.
  beforeEach(() => stand(studio, slug, { is: "approved" }));
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const clay = [{ part: "base", material: "whiting", amount: "100" }];
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
      is: "hold",
      forTest: false,
      mayUse: { food: false, decorative: false },
      cautions: [notMixed],
      standing: { is: "approved" },
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
    expect(now).toBe(status === 200 ? is : "hold");
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
    expect(page).toContain("Set &lt;hard&gt;.");
    expect(page).not.toContain('value="open"');
    const emptied = { form: { is: "empty", why: "Thrown out." } };
    expect((await studio.send("manager", path, emptied)).status).toBe(303);
    expect((await studio.send("manager", path, emptied)).status).toBe(422);
    expect((await read(bucket.id)).changes.map(({ is, by }) => [is, by])).toEqual([
      ["empty", "Ines Okafor"],
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
    const own = await publish(studio);
    await stand(studio, own, { is: "approved" });
    const { bucket } = await add("manager", { recipe: own });
    const flagged = async () => (await read(bucket.id)).cautions.slice(1);
    const [draft, another, withdrawn] = [
      "Nobody has approved this bucket's revision: do not use it.",
      "This bucket's revision needs another look: do not use it until that is settled.",
      "This bucket's recipe was withdrawn: do not use it.",
    ];
    expect(await flagged()).toEqual([]);
    await stand(studio, own, { is: "needs another look" });
    expect(await flagged()).toEqual([another]);
    for (const path of ["/buckets", `/buckets/${bucket.id}`])
      expect(await pageOf("author", path)).toContain(another.replace("'", "&#39;"));
    expect(await pageOf("author", `/buckets/${bucket.id}`)).toContain("It is needs another look.");
    const withdrawal = { method: "PUT", json: { why: "It spat in the kiln." } };
    await studio.send("author", `/recipes/${own}/withdrawal`, withdrawal);
    expect(await flagged()).toEqual([withdrawn]);
    const put = { method: "DELETE", json: { why: "It was another glaze." } };
    await studio.send("author", `/recipes/${own}/withdrawal`, put);
    expect(await flagged()).toEqual([draft]);
  });

  it("are of what is approved, or marked as a test and say so everywhere", async () => {
    const own = await publish(studio);
    const refused = await add("manager", { recipe: own });
    expect(refused.status).toBe(422);
    expect(refused.bucket.errors).toEqual([
      { path: "revision", says: expect.stringMatching(/is a draft.*No revision of it is\..*test/) },
    ]);
    const { bucket } = await add("manager", { recipe: own, name: "Try out", test: true });
    expect(await read(bucket.id)).toMatchObject({
      forTest: true,
      cautions: [notMixed, forTest],
      mayUse: { food: false, decorative: false, because: [notMixed, forTest] },
    });
    for (const path of ["/buckets", `/buckets/${bucket.id}`])
      expect(await pageOf("author", path)).toContain(forTest.replace("'", "&#39;"));
    await stand(studio, own, { is: "approved" });
    const json = { basedOn: 1, cones: { low: "6", high: "6" }, lines: clay };
    await studio.send("author", `/recipes/${own}/revisions`, { json });
    await stand(studio, own, { is: "in review" }, 2);
    const second = await add("manager", { recipe: own, revision: 2 });
    expect(second.bucket.errors).toMatchObject([
      { says: expect.stringMatching(/Revision 2 .* is in review.*Revision 1 is approved\./) },
    ]);
    expect((await add("manager", { recipe: own })).status).toBe(201);
    const form = { recipe: own, revision: "2", name: "Ticked", litres: "8" };
    const again = await studio.send("manager", "/buckets", { form });
    expect([again.status, await again.text()]).toEqual([422, expect.stringContaining("Ticked")]);
    const ticked = await studio.send("manager", "/buckets", { form: { ...form, test: "on" } });
    expect(ticked.status).toBe(303);
  });

  it("follows its revision when there is a newer one, and says so", async () => {
    const own = await publish(studio);
    const { bucket } = await add("manager", { recipe: own, test: true });
    const json = { basedOn: 1, cones: { low: "6", high: "6" }, lines: clay };
    expect((await studio.send("author", `/recipes/${own}/revisions`, { json })).status).toBe(201);
    expect((await revisionOf(studio, own, 2)).number).toBe(2);
    const newer = "Revision 2 is newer; this bucket follows revision 1.";
    expect(await read(bucket.id)).toMatchObject({ revision: 1, head: 2 });
    expect(await pageOf("author", `/buckets/${bucket.id}`)).toContain(newer);
  });

  it("does not tell of a private recipe's bucket", async () => {
    const own = await publish(studio, { shownTo: "private" });
    const { bucket } = await add("manager", { recipe: own, name: "Hidden", test: true });
    expect((await studio.send("other member", `/buckets/${bucket.id}`)).status).toBe(404);
    expect(await pageOf("other member", "/buckets")).not.toContain("Hidden");
    const sent = { method: "PUT", json: { is: "hold", why: "x" } };
    const held = await studio.send("other member", `/buckets/${bucket.id}/state`, sent);
    expect(held.status).toBe(404);
    expect((await read(bucket.id)).changes).toEqual([]);
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
