import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { fireTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Bucket = {
  id: string;
  colourTolerance: number | null;
  proofs: { tile: string; first: boolean; fromFirst: null | { kind: string; deltaE00?: number } }[];
};

describe("the proof tiles of a bucket", () => {
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

  const newBucket = async () => {
    const filled = { revision: 1, name: "Tall grey bucket", litres: "20" };
    const json = { recipe: slug, ...filled, test: true };
    const answer = await studio.send("manager", "/buckets", { json });
    return ((await answer.json()) as Bucket).id;
  };
  /** Lightnesses, since along the greys the numbers are easy to follow. */
  const prove = async (bucket: string, ...lightnesses: (number | undefined)[]) => {
    const ids: string[] = [];
    for (const lightness of lightnesses) {
      const tile = await fireTile(studio, slug, { bucket });
      ids.push(tile);
      if (lightness === undefined) continue;
      const json = { from: "instrument", lab: [lightness, 0, 0] };
      await studio.send("author", `/tiles/${tile}/colours`, { json });
    }
    return ids;
  };
  const read = (id: string) => studio.json<Bucket>("author", `/buckets/${id}`);
  const pageOf = async (id: string) => (await studio.send("author", `/buckets/${id}`)).text();
  const draw = (colourTolerance: string | undefined) =>
    studio.send("manager", "/studio", {
      method: "PUT",
      json: {
        ...{ name: "Saltmarsh Lane Studio", showsPublic: true, scaleGrams: "0.1" },
        ...(colourTolerance && { colourTolerance }),
      },
    });

  it("are held against the first that has a colour", async () => {
    const bucket = await newBucket();
    const [bare, first, second] = await prove(bucket, undefined, 50, 51);
    const { proofs } = await read(bucket);
    expect(proofs).toMatchObject([
      { tile: bare, first: false, fromFirst: null },
      { tile: first, first: true, fromFirst: null },
      { tile: second, first: false, fromFirst: { kind: "differs" } },
    ]);
    // At L* near 50 the weight of lightness is 1, so that a step of 1 is a ΔE00 of 1.
    expect(proofs[2]?.fromFirst?.deltaE00).toBeCloseTo(1, 1);
    const page = await pageOf(bucket);
    expect(page).toContain("<title>How far the colour went from the first proof tile</title>");
    expect(page).toMatch(/<desc>Against the first proof tile: 1\.00 on 2026-09-01\.<\/desc>/);
    expect(page).toContain("to be seen side by side");
    expect(page).toContain("cannot be told");
  });

  it("say honestly what is missing", async () => {
    const bucket = await newBucket();
    expect(await pageOf(bucket)).toContain("No proof tile of this bucket is on record");
    await prove(bucket, undefined);
    expect(await pageOf(bucket)).toContain("Nobody has read the colour of its proof tiles yet");
    await prove(bucket, 50);
    expect(await pageOf(bucket)).toContain("Only one proof tile has a colour");
    expect(await pageOf(bucket)).not.toContain('<svg class="drift"');
  });

  it("are held to the studio's own line where it set one, and to none where not", async () => {
    const bucket = await newBucket();
    await prove(bucket, 50, 53);
    expect(await pageOf(bucket)).not.toContain("drift-tolerance");
    expect((await draw("2")).status).toBe(200);
    const page = await pageOf(bucket);
    expect(page).toContain("drift-tolerance");
    expect(page).toContain("over the studio&#39;s line of 2");
    expect((await read(bucket)).colourTolerance).toBe(2);
    await draw("5");
    expect(await pageOf(bucket)).not.toContain("over the studio&#39;s line");
    await draw(undefined);
  });

  it("that were withdrawn prove nothing", async () => {
    const bucket = await newBucket();
    const [mistaken = "", kept] = await prove(bucket, 30, 50);
    const why = { json: { why: "Another bucket." } };
    await studio.send("author", `/tiles/${mistaken}/withdrawal`, why);
    expect((await read(bucket)).proofs).toMatchObject([{ tile: kept, first: true }]);
  });

  it("start from the bucket's page with the bucket chosen", async () => {
    const bucket = await newBucket();
    const way = `/recipes/${slug}/tiles/new?revision=1&amp;bucket=${bucket}`;
    expect(await pageOf(bucket)).toContain(way);
    const form = await (await studio.send("author", way.replace("&amp;", "&"))).text();
    expect(form).toMatch(new RegExp(`<option value="${bucket}" selected`));
  });
});
