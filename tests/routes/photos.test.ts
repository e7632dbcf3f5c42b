import type { AddressInfo } from "node:net";
import { serve } from "@hono/node-server";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DraftLine } from "../../src/db/drafts.ts";
import { listEvents } from "../../src/db/events.ts";
import { photos, pictureBytes, pictures } from "../../src/db/schema/index.ts";
import type { tileJson } from "../../src/routes/tiles.ts";
import { cameraJpeg, cutOff, halves, hugePng, notTaken, pictureForm } from "../camera.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type TileJson = ReturnType<typeof tileJson>;
type PhotoJson = TileJson["photos"][number];

describe("the pictures of a tile", () => {
  let studio: TestStudio;
  let lines: DraftLine[];
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    lines = await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const newTile = async (by: Who = "author", shownTo: "public" | "private" = "public") => {
    named += 1;
    const { slug } = await publishGlaze(studio, { name: `Tide ${named}`, lines, shownTo });
    const json = { revision: 1, cone: "6" };
    const answer = await studio.send(by, `/recipes/${slug}/tiles`, { json });
    return ((await answer.json()) as TileJson).id;
  };
  const sendPicture = (who: Who, tile: string, form: FormData, accept = "application/json") =>
    studio.send(who, `/tiles/${tile}/photos`, { form, accept });
  const hungOn = async (tile: string) =>
    (await studio.json<TileJson>("manager", `/tiles/${tile}`)).photos;
  const stored = async () => [
    await studio.db.$count(pictures),
    await studio.db.$count(pictureBytes),
    await studio.db.$count(photos),
  ];
  const added = async (tile: string, bytes: Uint8Array) => {
    const answer = await sendPicture("author", tile, pictureForm(bytes));
    expect(answer.status).toBe(201);
    return (await answer.json()) as PhotoJson;
  };

  it.each<[Who, number]>([
    ["author", 201],
    ["other member", 201],
    ["manager", 201],
    ["reviewer", 403],
    ["visitor", 401],
  ])(
    "lets who added the tile, the recipe's owner and managers hang one: %s %i",
    async (who, status) => {
      const tile = await newTile("other member");
      const form = pictureForm(await cameraJpeg({ shade: named }), "tile.jpg", {
        alt: "Glossy, blue",
      });
      const answer = await sendPicture(who, tile, form);
      expect(answer.status).toBe(status);
      expect(await hungOn(tile)).toMatchObject(
        status === 201 ? [{ alt: "Glossy, blue", width: 640, height: 480, removed: false }] : [],
      );
    },
  );

  it("gives a phone's picture back upright and without a word about where it was taken", async () => {
    const { sha256, width, height } = await added(
      await newTile(),
      await cameraJpeg({ orientation: 6, shade: 100 }),
    );
    expect([width, height]).toEqual([480, 640]);
    for (const at of ["200", "600", "1200", "full"]) {
      const answer = await studio.send("visitor", `/photos/${sha256}/${at}`);
      const bytes = Buffer.from(await answer.arrayBuffer());
      const { exif, icc, xmp, orientation, ...real } = await sharp(bytes).metadata();
      expect({ exif, icc, xmp, orientation }).toEqual({});
      expect(real.width, at).toBe(at === "200" ? 200 : 480);
      expect((real.height ?? 0) > (real.width ?? 0)).toBe(true);
      expect(bytes.toString("latin1")).not.toMatch(/Netloft|Rukmini|GPS/);
    }
  });

  it("serves a picture to keep, for this reader only, as what it is", async () => {
    const { sha256, at } = await added(await newTile(), await cameraJpeg({ shade: 101 }));
    expect(at).toBe(`/photos/${sha256}/full`);
    const answer = await studio.send("visitor", `/photos/${sha256}/600`);
    const bytes = await answer.arrayBuffer();
    const headers = Object.fromEntries(answer.headers);
    expect(headers).toMatchObject({
      "content-type": "image/jpeg",
      "cache-control": "private, immutable, max-age=31536000",
      "content-length": String(bytes.byteLength),
      "x-content-type-options": "nosniff",
    });
    const again = await studio.send("visitor", `/photos/${sha256}/600`, {
      headers: { "if-none-match": headers.etag ?? "" },
    });
    expect(again.status).toBe(304);
    const whole = await studio.send("visitor", `/photos/${sha256}/full`);
    expect(whole.headers.get("etag")).not.toBe(headers.etag);
  });

  it("shows a private recipe's picture to nobody else", async () => {
    const tile = await newTile("author", "private");
    const { sha256 } = await added(tile, await cameraJpeg({ shade: 102 }));
    for (const at of ["200", "600", "1200", "full"]) {
      const path = `/photos/${sha256}/${at}`;
      expect((await studio.send("visitor", path)).status).toBe(404);
      expect((await studio.send("other member", path)).status).toBe(404);
      expect((await studio.send("reviewer", path)).status).toBe(404);
      expect((await studio.send("author", path)).status).toBe(200);
      expect((await studio.send("manager", path)).status).toBe(200);
    }
    const form = pictureForm(await cameraJpeg({ shade: 103 }));
    expect((await sendPicture("other member", tile, form)).status).toBe(404);
  });

  it("keeps the order of pictures, and the same picture once", async () => {
    const [one, other] = [await newTile(), await newTile()];
    const [first, second] = [await cameraJpeg({ shade: 104 }), await cameraJpeg({ shade: 105 })];
    const hung = [await added(one, first), await added(one, second)];
    const [kept, widths] = await stored();
    const again = await sendPicture("author", one, pictureForm(first, "again.jpg"));
    expect(again.status).toBe(200);
    expect(await again.json()).toEqual(hung[0]);
    await added(other, first);
    expect((await hungOn(one)).map(({ sha256 }) => sha256)).toEqual(
      hung.map(({ sha256 }) => sha256),
    );
    expect((await stored()).slice(0, 2)).toEqual([kept, widths]);
    const kinds = (await listEvents(studio.db, { subjectId: one, limit: 10 })).map(
      ({ kind }) => kind,
    );
    expect(kinds).toEqual(["tile added", "photo added", "photo added"]);
  });

  it("gives the answer of the first to a repeat with the same key", async () => {
    const tile = await newTile();
    const form = pictureForm(await cameraJpeg({ shade: 112 }));
    const body = await new Response(form).blob();
    const send = () =>
      studio.app.request(`http://localhost/tiles/${tile}/photos`, {
        method: "POST",
        body,
        headers: {
          "content-type": body.type,
          "idempotency-key": "one and the same picture",
          accept: "application/json",
          cookie: studio.cookies.author,
          origin: "http://localhost",
        },
      });
    const [first, second] = [await send(), await send()];
    expect([first.status, second.status]).toEqual([201, 201]);
    expect(await second.json()).toEqual(await first.json());
    expect(await hungOn(tile)).toHaveLength(1);
  });

  it("says that a picture was removed, and does not take it again", async () => {
    const tile = await newTile();
    const bytes = await cameraJpeg({ shade: 106 });
    const { sha256 } = await added(tile, bytes);
    const path = `/photos/${sha256}/removal`;
    const removal = await studio.send("manager", path, { method: "PUT", json: { why: "A face." } });
    expect(removal.status).toBe(200);
    const gone = await studio.send("visitor", `/photos/${sha256}/200`);
    expect(gone.status).toBe(410);
    expect(gone.headers.get("cache-control")).not.toContain("immutable");
    expect(await gone.text()).toContain("A manager had this picture removed");
    expect(await hungOn(tile)).toMatchObject([{ sha256, removed: true, at: null }]);
    expect(await (await studio.send("visitor", `/tiles/${tile}`)).text()).toContain(
      "This picture was removed.",
    );
    const again = await sendPicture("author", await newTile(), pictureForm(bytes));
    expect(again.status).toBe(409);
  });

  it("takes no picture of a tile that was withdrawn", async () => {
    const tile = await newTile();
    await studio.send("author", `/tiles/${tile}/withdrawal`, { json: { why: "Wrong bucket." } });
    const before = await stored();
    const answer = await sendPicture("author", tile, pictureForm(await cameraJpeg({ shade: 107 })));
    expect(answer.status).toBe(409);
    expect(await stored()).toEqual(before);
  });

  it.each<[string, () => Uint8Array | Promise<Uint8Array>, number, string]>([
    ["an SVG", () => notTaken.svg, 415, "This is an SVG drawing."],
    ["a GIF", () => notTaken.gif, 415, "This is a GIF."],
    ["a HEIC", () => notTaken.heic, 415, "In the camera's settings choose JPEG"],
    ["an AVIF", () => notTaken.avif, 415, "In the camera's settings choose JPEG"],
    ["text that is named .jpg", () => notTaken.text, 415, "whatever its name says"],
    ["an empty file", () => new Uint8Array(), 422, "The file is empty."],
    ["a JPEG that was cut off", async () => cutOff(await cameraJpeg()), 422, "cut off or damaged"],
    ["a JPEG of three bytes", () => new Uint8Array([0xff, 0xd8, 0xff]), 422, "cut off or damaged"],
    ["sixty million pixels", () => hugePng(10_000, 6_000), 422, "has 60 million pixels"],
  ])(
    "refuses %s in words and keeps nothing, and then takes a good one",
    async (_, make, status, says) => {
      const tile = await newTile();
      const before = await stored();
      const form = () =>
        bytes.then((made) => pictureForm(made, "tile.jpg", { alt: "Runny & blue" }));
      const bytes = Promise.resolve(make());

      const json = await sendPicture("author", tile, await form());
      expect(json.status).toBe(status);
      expect(json.headers.get("content-type")).toContain("application/problem+json");
      const problem = (await json.json()) as { status: number; detail: string; errors: object[] };
      expect(problem).toMatchObject({ status, errors: [{ path: "photo" }] });
      expect(problem.detail).toContain(says);

      const page = await sendPicture("author", tile, await form(), "text/html");
      expect(page.status).toBe(status);
      const shown = await page.text();
      expect(shown).toContain('href="#field-photo"');
      expect(shown).toContain("Runny &amp; blue");
      expect(await stored()).toEqual(before);

      await added(tile, await halves(320, 240, named).webp().toBuffer());
      expect(await hungOn(tile)).toHaveLength(1);
    },
  );

  it("asks for a picture where none, two or a name of one came", async () => {
    const tile = await newTile();
    const none = new FormData();
    none.set("alt", "Blue");
    const two = pictureForm(await cameraJpeg({ shade: 108 }));
    two.append("photo", new File([new Uint8Array(await cameraJpeg({ shade: 109 }))], "b.jpg"));
    const name = new FormData();
    name.set("photo", "tile.jpg");
    for (const form of [none, two, name]) {
      const answer = await sendPicture("author", tile, form);
      expect(answer.status).toBe(422);
      expect(await answer.json()).toMatchObject({ errors: [{ path: "photo" }] });
    }
    const json = await studio.send("author", `/tiles/${tile}/photos`, { json: { photo: "x" } });
    expect(json.status).toBe(422);
    expect(await hungOn(tile)).toEqual([]);
  });

  it("takes no picture from another site's page", async () => {
    const tile = await newTile();
    const answer = await studio.send("author", `/tiles/${tile}/photos`, {
      form: pictureForm(await cameraJpeg({ shade: 110 })),
      headers: { origin: "https://elsewhere.example" },
    });
    expect(answer.status).toBe(403);
    expect(await hungOn(tile)).toEqual([]);
  });

  it("knows no picture by nonsense", async () => {
    const { sha256 } = await added(await newTile(), await cameraJpeg({ shade: 111 }));
    const paths = [
      `${sha256}/300`,
      `${sha256}/0`,
      `${sha256.toUpperCase()}/200`,
      "x/200",
      "%00/200",
    ];
    for (const path of paths) {
      expect((await studio.send("manager", `/photos/${path}`)).status, path).toBe(404);
    }
  });

  describe("over the wire", () => {
    let url = "";
    let stop: () => Promise<void>;
    beforeAll(async () => {
      const server = serve({ fetch: studio.app.fetch, port: 0, hostname: "127.0.0.1" });
      await new Promise<void>((resolve) => server.once("listening", resolve));
      url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
      stop = () => new Promise((resolve) => server.close(() => resolve()));
    });
    afterAll(() => stop());

    const post = (tile: string, body: RequestInit["body"], headers: Record<string, string> = {}) =>
      fetch(`${url}/tiles/${tile}/photos`, {
        method: "POST",
        body,
        headers: {
          cookie: studio.cookies.author,
          origin: url,
          accept: "application/json",
          ...headers,
        },
        ...(body instanceof ReadableStream && { duplex: "half" as const }),
      } as RequestInit);

    it("takes a good picture of many megabytes", async () => {
      const tile = await newTile();
      const noise = await sharp({
        create: {
          width: 2500,
          height: 2000,
          channels: 3,
          background: "#888",
          noise: { type: "gaussian", mean: 128, sigma: 60 },
        },
      })
        .png()
        .toBuffer();
      expect(noise.length).toBeGreaterThan(10e6);
      expect((await post(tile, pictureForm(noise))).status).toBe(201);
      expect(await hungOn(tile)).toMatchObject([{ width: 2400, height: 1920 }]);
    });

    it.each([21, 30])("says that %i MB are too many, five times in a row", async (megabytes) => {
      const tile = await newTile();
      const form = pictureForm(new Uint8Array(megabytes * 1024 * 1024).fill(0xff));
      for (let time = 0; time < 5; time += 1) {
        const answer = await post(tile, form);
        expect(answer.status).toBe(413);
        expect(await answer.json()).toMatchObject({
          detail: expect.stringContaining("over 20 MB"),
        });
      }
      expect(await hungOn(tile)).toEqual([]);
    });

    it("says so where the size was not told beforehand", async () => {
      const tile = await newTile();
      const piece = new Uint8Array(1024 * 1024);
      let left = 30;
      const body = new ReadableStream<Uint8Array>({
        pull(controller) {
          left -= 1;
          if (left < 0) controller.close();
          else controller.enqueue(piece);
        },
      });
      const answer = await post(tile, body, { "content-type": "multipart/form-data; boundary=x" });
      expect(answer.status).toBe(413);
      expect(await answer.json()).toMatchObject({ detail: expect.stringContaining("over 20 MB") });
    });
  });
});
