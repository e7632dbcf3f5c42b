import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { openRecallsOfBuckets } from "../../src/db/open-recalls.ts";
import { bucketUses, bucketUseUndoings } from "../../src/db/schema/index.ts";
import { fireTile } from "../evidence.ts";
import { addBucket, buy, end, type Mix, openMix, tick, undo, weighAll } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { recall } from "../stock.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Recall = {
  id: string;
  says: string;
  closing: { done: string; by: string } | null;
  buckets: { id: string; stillIn: boolean; recipe: { slug: string } }[];
  mixes: { id: string; people: { name: string }[] }[];
  tiles: { id: string }[];
  people: { name: string; did: { what: string; note: string }[] }[];
  furtherBuckets: number;
  approvals: string;
};
type Bucket = { is: string; cautions: string[]; recalls: { id: string }[] };
type Waiting = { items: { kind: string; says: string; href: string }[] };

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const read = (id: string, who: Who = "author") => studio.json<Recall>(who, `/recalls/${id}`);
const bucketOf = (id: string) => studio.json<Bucket>("author", `/buckets/${id}`);
const feldspar = () => buy(studio, "potash-feldspar", { grams: "5000", mark: "F-9" });
const close = (who: Who, id: string, done = "Thrown out.") =>
  studio.send(who, `/recalls/${id}/closing`, { method: "PUT", json: { done } });
const say = (bucket: string, is: string) =>
  studio.send("manager", `/buckets/${bucket}/state`, { method: "PUT", json: { is, why: "So." } });

/** A bucket of its own into which somebody weighed feldspar of a lot. */
async function mixed(lot: string, who: Who = "author"): Promise<Mix> {
  const mix = await openMix(studio);
  await tick(studio, who, mix.id, { n: 1, grams: "400", lot });
  return mix;
}

/** Mixes once more into a bucket, out of bags that nobody could tell. */
async function refill(bucketId: string): Promise<void> {
  const json = { grams: "1000", scaleGrams: "1" };
  const opened = await studio.send("manager", `/buckets/${bucketId}/mixes`, { json });
  await weighAll(studio, (await opened.json()) as Mix);
}

async function use(bucketId: string, who: Exclude<Who, "visitor">, what = "Two bowls") {
  const id = uuidv7();
  await studio.db
    .insert(bucketUses)
    .values({ id, bucketId, what, by: studio.ids[who], at: new Date() });
  return id;
}

const waitingFor = async (who: Who, kind: string) =>
  (await studio.json<Waiting>(who, "/waiting")).items.filter((item) => item.kind === kind);

describe("a recall of a lot", () => {
  it("reaches two buckets, their tile and three people", async () => {
    const lot = await feldspar();
    const one = await mixed(lot);
    const other = await mixed(lot, "other member");
    const untouched = await openMix(studio);
    await weighAll(studio, untouched);
    await use(one.bucket.id, "reviewer");
    const mistaken = await use(one.bucket.id, "other member", "Mistaken");
    const undoing = { useId: mistaken, by: studio.ids["other member"], at: new Date() };
    await studio.db.insert(bucketUseUndoings).values(undoing);
    await use(untouched.bucket.id, "author", "Another bucket");
    const tile = await fireTile(studio, other.recipe.slug, { bucket: other.bucket.id });

    const id = await recall(studio, { lot });
    const found = await read(id);
    expect(found.says).toBe("Potash feldspar, lot F-9 of Quayside Ceramics");
    expect(found.buckets.map((bucket) => [bucket.id, bucket.stillIn]).toSorted()).toEqual(
      [one, other].map(({ bucket }) => [bucket.id, true]).toSorted(),
    );
    expect(found.mixes.map((mix) => mix.id)).toEqual([one.id, other.id]);
    expect(found.tiles.map((each) => each.id)).toEqual([tile]);
    const did = Object.fromEntries(
      found.people.map((each) => [each.name, each.did.map(({ what }) => what)]),
    );
    expect(did).toEqual({
      "Ines Okafor": ["mixed", "mixed"],
      "Jonah Brackley": ["mixed"],
      "Rukmini Vale": ["mixed", "tile"],
      "Tam Pellew": ["used"],
    });
    expect(found.people.flatMap((each) => each.did.map(({ note }) => note))).toContain("Two bowls");
    expect(found.approvals).toContain("not a recipe: no approval changes");
    const page = await (await studio.send("author", `/recalls/${id}`)).text();
    for (const said of ["Lead was found in it.", "Tam Pellew", "Two bowls", `/tiles/${tile}`])
      expect(page).toContain(said);
    expect(page).not.toContain("Another bucket");
  });

  it("is the first thing that its buckets say, until it is closed", async () => {
    const lot = await feldspar();
    const { id: mix, bucket } = await mixed(lot);
    const before = (await bucketOf(bucket.id)).cautions;
    const id = await recall(studio, { lot });
    const caution = "Recalled: do not use. Lead was found in it.";
    expect((await bucketOf(bucket.id)).cautions).toEqual([caution, ...before]);
    for (const path of ["/buckets", `/buckets/${bucket.id}`])
      expect(await (await studio.send("author", path)).text()).toContain(caution);
    const more = await tick(studio, "author", mix, { n: 1, grams: "1", lot, adds: true });
    expect(more.status).toBe(422);
    expect(more.mix.errors).toMatchObject([{ path: "lot" }]);
    await say(bucket.id, "hold");
    const opened = await say(bucket.id, "open");
    expect(opened.status).toBe(422);
    expect(await opened.text()).toContain("recalled");
    expect((await bucketOf(bucket.id)).is).toBe("hold");
    await close("manager", id);
    expect((await bucketOf(bucket.id)).recalls).toEqual([]);
    expect(await (await say(bucket.id, "open")).text()).not.toContain("recalled");
  });

  it("leaves out what was taken back, and a bucket once it is empty", async () => {
    const lot = await feldspar();
    const [emptied, takenBack] = [await mixed(lot), await mixed(lot)];
    await undo(studio, "author", takenBack.id, { n: 1 });
    await use(takenBack.bucket.id, "reviewer");
    await use(emptied.bucket.id, "other member", "Before it was emptied");
    const id = await recall(studio, { lot });
    const under = async () =>
      [
        ...(
          await openRecallsOfBuckets(studio.db, [emptied.bucket.id, takenBack.bucket.id])
        ).entries(),
      ].map(([bucket, recalls]) => [bucket, recalls.map((each) => each.id)]);
    expect(await under()).toEqual([[emptied.bucket.id, [id]]]);
    await end(studio, "manager", emptied.id, { "giving-up": { why: "Recalled." } });
    // Giving a mix up takes nothing out of the bucket again.
    expect(await under()).toEqual([[emptied.bucket.id, [id]]]);
    await say(emptied.bucket.id, "empty");
    expect(await under()).toEqual([]);
    await refill(emptied.bucket.id);
    await use(emptied.bucket.id, "reviewer", "Of the new filling");
    // Who used it while it was in there is still to be told; who used it since is not.
    const { buckets, people } = await read(id);
    expect(buckets).toMatchObject([{ id: emptied.bucket.id, stillIn: false }]);
    const notes = people.flatMap(({ did }) => did.map(({ note }) => note));
    expect(notes).toContain("Before it was emptied");
    expect(notes).not.toContain("Of the new filling");
  });

  it("does not reach what was glazed before the lot went in", async () => {
    const lot = await feldspar();
    const mix = await openMix(studio);
    await use(mix.bucket.id, "reviewer", "Too early");
    await tick(studio, "author", mix.id, { n: 1, grams: "400", lot });
    await use(mix.bucket.id, "reviewer", "Late enough");
    const { people } = await read(await recall(studio, { lot }));
    const notes = people.flatMap(({ did }) => did.map(({ note }) => note));
    expect(notes).toContain("Late enough");
    expect(notes).not.toContain("Too early");
  });

  it("tells of private recipes' buckets only how many there are", async () => {
    const lot = await feldspar();
    const hidden = await mixed(lot);
    await use(hidden.bucket.id, "manager");
    await studio.send("author", `/recipes/${hidden.recipe.slug}/visibility`, {
      method: "PUT",
      json: { shownTo: "private" },
    });
    const id = await recall(studio, { lot });
    expect(await read(id, "other member")).toMatchObject({
      buckets: [],
      mixes: [],
      people: [],
      furtherBuckets: 1,
    });
    expect(await read(id, "manager")).toMatchObject({ furtherBuckets: 0 });
  });
});

describe("a recall of a bucket", () => {
  it("reaches what was glazed with what is in it, before and after", async () => {
    const { id: mix, bucket } = await mixed(await feldspar());
    await end(studio, "manager", mix, { "giving-up": { why: "Lumps." } });
    await use(bucket.id, "other member", "An old filling");
    await say(bucket.id, "empty");
    await refill(bucket.id);
    await use(bucket.id, "reviewer", "Before");
    const id = await recall(studio, { bucket: bucket.id });
    await use(bucket.id, "author", "After");
    const { people, buckets } = await read(id);
    expect(buckets).toMatchObject([{ id: bucket.id, stillIn: true }]);
    const notes = people.flatMap(({ did }) => did.map(({ note }) => note));
    expect(notes).toEqual(expect.arrayContaining(["Before", "After"]));
    expect(notes).not.toContain("An old filling");
    const json = { grams: "1000" };
    const opened = await studio.send("manager", `/buckets/${bucket.id}/mixes`, { json });
    expect(opened.status).toBe(409);
  });

  it("is not told where its recipe is not", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const bucket = await addBucket(studio, slug);

    const json = { bucket, why: "x" };
    expect((await studio.send("reviewer", "/recalls", { json })).status).toBe(422);
    const raised = await studio.send("manager", "/recalls", { json });
    const { id } = (await raised.json()) as { id: string };
    expect((await studio.send("other member", `/recalls/${id}`)).status).toBe(404);
    expect(await (await studio.send("other member", "/recalls")).text()).not.toContain(id);
    expect((await studio.send("author", `/recalls/${id}`)).status).toBe(200);
  });
});

describe("recalling and closing", () => {
  it.each<[Who, number, number]>([
    ["visitor", 401, 401],
    ["author", 403, 403],
    ["other member", 403, 403],
    ["reviewer", 201, 403],
    ["manager", 201, 200],
  ])("is for reviewers, and for managers alone: %s %i, %i", async (who, raised, closed) => {
    const lot = await feldspar();
    const answer = await studio.send(who, "/recalls", { json: { lot, why: "Asbestos." } });
    expect(answer.status).toBe(raised);
    expect(
      (await studio.json<{ recalls: unknown[] }>("author", `/lots/${lot}`)).recalls,
    ).toHaveLength(raised === 201 ? 1 : 0);
    const id = await recall(studio, { lot: await feldspar() });
    expect((await close(who, id)).status).toBe(closed);
    expect((await read(id)).closing?.done).toBe(closed === 200 ? "Thrown out." : undefined);
  });

  it("says what was done, once, and both stand in the record", async () => {
    const id = await recall(studio, { lot: await feldspar() });
    const blank = await studio.send("manager", `/recalls/${id}/closing`, { form: { done: " " } });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toContain('href="#field-done"');
    expect((await close("manager", id, "The supplier took it back.")).status).toBe(200);
    expect((await close("manager", id, "Again.")).status).toBe(422);
    expect((await read(id)).closing).toMatchObject({ done: "The supplier took it back." });
    const events = await listEvents(studio.db, { subjectId: id, limit: 9 });
    expect(events.map(({ kind }) => kind)).toEqual(["recall raised", "recall closed"]);
    const record = await (await studio.send("manager", "/events?subject=recall")).text();
    expect(record).toContain("closed the recall of");
    expect(record).toContain(`href="/recalls/${id}"`);
  });

  it.each([
    [{ why: "x" }, "lot"],
    [{ lot: uuidv7(), bucket: uuidv7(), why: "x" }, "lot"],
    [{ lot: uuidv7(), why: "x" }, "lot"],
    [{ bucket: uuidv7(), why: "x" }, "bucket"],
    [{ lot: "F-9", why: "x" }, "lot"],
  ])("refuses %j at %s", async (json, path) => {
    const answer = await studio.send("manager", "/recalls", { json });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as { errors: unknown }).errors).toMatchObject([{ path }]);
  });

  it("has a form that keeps what was typed", async () => {
    const lot = await feldspar();
    expect((await studio.send("author", `/recalls/new?lot=${lot}`)).status).toBe(403);
    expect((await studio.send("manager", "/recalls/new")).status).toBe(404);
    const blank = await studio.send("reviewer", "/recalls", { form: { lot, why: "" } });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toContain(`value="${lot}"`);
    const raised = await studio.send("reviewer", "/recalls", { form: { lot, why: "Asbestos." } });
    expect(raised.headers.get("location")).toMatch(/^\/recalls\/[0-9a-f-]{36}$/);
  });
});

describe("what waits", () => {
  it("tells whoever used it and the managers, until it is closed", async () => {
    const lot = await feldspar();
    const { bucket } = await mixed(lot);
    await use(bucket.id, "reviewer");
    await use(bucket.id, "reviewer", "And a jug");
    const before = (await waitingFor("manager", "recall")).length;
    const id = await recall(studio, { lot });
    const mine = async (who: Who) =>
      (await waitingFor(who, "recall-used")).filter(({ href }) => href === `/recalls/${id}`);
    const told = await mine("reviewer");
    expect(told).toHaveLength(1);
    expect(told[0]?.says).toContain("Tall grey bucket");
    expect(told[0]?.says).toContain("Lead was found in it.");
    expect(await mine("other member")).toEqual([]);
    expect((await waitingFor("manager", "recall")).length).toBe(before + 1);
    expect(await waitingFor("reviewer", "recall")).toEqual([]);
    await close("manager", id);
    expect(await mine("reviewer")).toEqual([]);
    expect((await waitingFor("manager", "recall")).length).toBe(before);
  });
});
