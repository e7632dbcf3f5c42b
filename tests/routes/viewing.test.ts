import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cameraJpeg, pictureForm } from "../camera.ts";
import { fireTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("a tile's pictures over the whole screen", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const hang = async (tile: string, shade: number, alt = "") => {
    const form = pictureForm(await cameraJpeg({ shade }), "tile.jpg", { alt });
    const answer = await studio.send("author", `/tiles/${tile}/photos`, {
      form,
      accept: "application/json",
    });
    return ((await answer.json()) as { id: string }).id;
  };
  const pageOf = async (path: string) => (await studio.send("visitor", path)).text();

  it("stand in the order in which they came, each leading to its neighbours", async () => {
    const tile = await fireTile(studio, await publish(studio));
    const ids = [await hang(tile, 1), await hang(tile, 2, "Breaks brown"), await hang(tile, 3)];
    const [first, second, third] = ids.map((id) => `/tiles/${tile}/photos/${id}`);
    const tilePage = await pageOf(`/tiles/${tile}`);
    const order = ids.map((id) => tilePage.indexOf(`href="/tiles/${tile}/photos/${id}"`));
    expect(order.every((at) => at > 0)).toBe(true);
    expect([...order].sort((a, b) => a - b)).toEqual(order);

    expect(await studio.json("visitor", second ?? "")).toMatchObject({
      alt: "Breaks brown",
      previous: first,
      next: third,
    });
    const page = await pageOf(second ?? "");
    expect(page).toContain("picture 2 of 3");
    expect(page).toContain(`<a href="${first}" rel="prev">`);
    expect(page).toContain(`<a href="${third}" rel="next">`);
    expect(page).toContain('alt="Breaks brown"');
    expect(page).toMatch(
      /<img[^>]* srcset="[^"]*200w[^"]*"[^>]* sizes="100vw" width="640" height="480"/,
    );
    expect(await studio.json("visitor", first ?? "")).toMatchObject({
      previous: null,
      next: second,
    });
    expect(await studio.json("visitor", third ?? "")).toMatchObject({
      previous: second,
      next: null,
    });
  });

  it("are found under their own tile only, and by who may know of it", async () => {
    const tile = await fireTile(studio, await publish(studio));
    const id = await hang(tile, 4);
    const other = await fireTile(studio, await publish(studio));
    const hidden = await fireTile(studio, await publish(studio, { shownTo: "private" }));
    const secret = await hang(hidden, 5);
    const status = async (path: string) => (await studio.send("visitor", path)).status;
    expect(await status(`/tiles/${tile}/photos/${id}`)).toBe(200);
    expect(await status(`/tiles/${other}/photos/${id}`)).toBe(404);
    expect(await status(`/tiles/${tile}/photos/nonsense`)).toBe(404);
    expect(await status(`/tiles/${hidden}/photos/${secret}`)).toBe(404);
  });

  it("keep a removed picture's place and say that it was removed", async () => {
    const tile = await fireTile(studio, await publish(studio));
    const gone = await hang(tile, 6);
    await hang(tile, 7);
    const at = `/tiles/${tile}/photos/${gone}`;
    const { sha256 } = await studio.json<{ sha256: string }>("visitor", at);
    const removal = { json: { why: "A face is in it." } };
    await studio.send("manager", `/photos/${sha256}/removal`, removal);
    const page = await pageOf(at);
    expect(page).toContain("This picture was removed.");
    expect(page).toContain('rel="next"');
    expect(page).not.toContain(`/photos/${sha256}`);
  });
});
