import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { raiseRecall } from "../../src/db/recalls.ts";
import { addBucket } from "../mixes.ts";
import { approveAgain, openBucket } from "../opened.ts";
import { publish, stockShelf } from "../shelf.ts";
import { recall } from "../stock.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Scan = { mark: string; because: string[]; directions: { ask?: string } | null };

let studio: TestStudio;
let id: string;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  ({ id, slug } = await openBucket(studio));
  await studio.send("manager", `/buckets/${id}/directions`, {
    method: "PUT",
    json: {
      ...{ bisqueCone: "04", dipSeconds: "3", coats: 1, footMm: "6", catchDish: true },
      ...{ stirring: "With the drill.", ask: "Tam on Fridays" },
    },
  });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const scan = (who: Who, bucket = id) => studio.json<Scan>(who, `/b/${bucket}`);
const pageOf = async (who: Who, bucket = id) =>
  (await (await studio.send(who, `/b/${bucket}`)).text()).replaceAll("&#39;", "'");
const show = (showsPublic: boolean) =>
  studio.send("manager", "/studio", {
    method: "PUT",
    json: { name: "Saltmarsh Lane Studio", showsPublic, scaleGrams: "0.1" },
  });
const hold = (bucket: string) =>
  studio.send("author", `/buckets/${bucket}/state`, {
    method: "PUT",
    json: { is: "hold", why: "Rukmini found a frog." },
  });

describe("what the code on a bucket opens", () => {
  it("answers for a mug first, then how to use it and what to look out for", async () => {
    await approveAgain(studio, slug);
    expect(await scan("author")).toMatchObject({ mark: "functional" });
    const page = await pageOf("author");
    const order = [
      ...["May I use it on a mug?", "Yes, by itself.", "I used it", "How to use it"],
      ...["With the drill.", "cone 04 (about", "1 coat, dip for 3 seconds", "6 mm"],
      ...["Catch dish", "cone 6 (about 1222 °C", "What to look out for"],
      ...["two glazes over each other are decorative only", "What it looks like"],
      ...["Ask Tam on Fridays", "Contaminated"],
    ].map((says) => page.indexOf(says));
    expect(order).toEqual([...order].sort((one, other) => one - other));
    expect(order[0]).toBeGreaterThan(0);
    expect(page).not.toContain("food safe");
  });

  it("tells of the pairs that it is one half of, with what they count as", async () => {
    const { id: own, slug: over } = await openBucket(studio);
    const under = await publish(studio);
    await studio.send("author", "/pairs", { json: { over: `${over}@1`, under: `${under}@1` } });
    const { overlaps } = await studio.json<{ overlaps: object[] }>("author", `/b/${own}`);
    expect(overlaps).toMatchObject([{ under: { slug: under }, standing: { is: "draft" } }]);
    expect(await pageOf("author", own)).toContain("Every other overlap is decorative only");
  });

  it("tells a visitor of a public recipe the same without names and buttons", async () => {
    await approveAgain(studio, slug);
    const told = await scan("visitor");
    expect(told).toMatchObject({ mark: "functional" });
    const page = await pageOf("visitor");
    expect(page).toContain("Yes, by itself.");
    expect(page).toContain("dip for 3 seconds");
    for (const name of ["Ines Okafor", "Tam", "Rukmini", "I used it", "Contaminated"])
      expect(JSON.stringify(told) + page).not.toContain(name);
  });

  it("tells a visitor that it is on hold, and not what people wrote", async () => {
    const bucket = await addBucket(studio, slug, { approved: true });
    await hold(bucket);
    expect(await scan("visitor", bucket)).toMatchObject({
      mark: "do not use",
      because: ["It is on hold."],
    });
    expect(await pageOf("visitor", bucket)).not.toContain("frog");
  });

  it("sends whoever may not know of it to sign in, and back", async () => {
    const own = await openBucket(studio, { shownTo: "studio" });
    const answer = await studio.send("visitor", `/b/${own.id}`);
    expect(answer.status).toBe(401);
    const page = await answer.text();
    expect(page).toContain(`/session/new?next=${encodeURIComponent(`/b/${own.id}`)}`);
    expect(page).not.toContain("Slack Water");
    await show(false);
    expect((await studio.send("visitor", `/b/${id}`)).status).toBe(401);
    await show(true);
    expect((await studio.send("visitor", `/b/${id}`)).status).toBe(200);
  });

  it.each<[string, (bucket: string) => Promise<unknown>]>([
    ["on hold", hold],
    [
      "recalled",
      (bucketId) => {
        const why = "Lead was found in it.";
        const of = { bucketId };
        return raiseRecall(studio.db, { of, why, by: studio.ids.manager, at: new Date() });
      },
    ],
  ])("tells anybody that it is not to be used where it is %s, and no more", async (_, happens) => {
    const recipe = await publish(studio, { shownTo: "private" });
    const bucket = await addBucket(studio, recipe);
    await happens(bucket);
    for (const who of ["visitor", "other member"] as const) {
      const answer = await studio.send(who, `/b/${bucket}`);
      expect(answer.status).toBe(200);
      const page = await answer.text();
      expect(page).toContain("Do not use this bucket");
      for (const kept of ["Slack Water", "Tall grey", "frog", "Lead"])
        expect(page).not.toContain(kept);
      expect(await scan(who, bucket)).toMatchObject({ mark: "do not use" });
    }
    expect(await scan("author", bucket)).toMatchObject({ mark: "do not use" });
  });

  it("says of a recalled one why, and takes the tick away", async () => {
    const own = await openBucket(studio);
    await recall(studio, { bucket: own.id });
    const page = await pageOf("author", own.id);
    expect(page).toContain("No. Do not use this bucket.");
    expect(page).toContain("Recalled: do not use. Lead was found in it.");
    expect(page).not.toContain("I used it");
  });

  it("knows no bucket that is not there", async () => {
    for (const who of ["visitor", "author"] as const)
      for (const nowhere of ["nothing", studio.ids.manager])
        expect((await studio.send(who, `/b/${nowhere}`)).status).toBe(404);
  });
});
